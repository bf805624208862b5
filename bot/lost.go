package bot

import (
	"fmt"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// loss is why a piece can only be thrown away.
type loss struct {
	said string // a sentence without its stop, for a person
	mark string // the same in a few words
	why  string // what its discarding is recorded with
	slow bool   // its cooling failed; else it lay warm without a cure
}

// lossOf says whether what is known of a piece leaves nothing but to throw it away:
// hours warm in the smoke without a full cure, or a cooling that failed.
func (t *Turn) lossOf(s course.State, p course.PieceState) (loss, bool) {
	if l, ok := t.lossOfCure(s, p); ok {
		return l, true
	}
	c, ok := s.CoolingOf(p.Letter, t.Now)
	if !ok || c.Verdict != curemath.CoolingFailed {
		return loss{}, false
	}
	return loss{said: fmt.Sprintf("By its readings %s failed the rule “%s”", t.pieceName(s, p.Letter), c.Rule.Name), mark: "its cooling FAILED", why: "cooled too slowly", slow: true}, true
}

// dangerFrom is the time between 40 and 140 °F that is spoken of, and from which a
// piece without a full cure is given up: common practice, no source.
const dangerFrom = time.Hour

func (t *Turn) lossOfCure(s course.State, p course.PieceState) (loss, bool) {
	if p.Ingoing >= curedFrom {
		return loss{}, false
	}
	warm, read := t.warmIn(s, p)
	if warm < dangerFrom {
		return loss{}, false
	}
	mark := " warm"
	if !read {
		mark = " in the smoke unread"
	}
	return loss{said: uncuredText(p, warm, read), mark: fmt.Sprintf("%s%s with only %s of nitrite", howLong(warm), mark, ppm(p.Ingoing)), why: "warm too long without a full cure"}, true
}

// warmIn is how long a piece may have been between 40 and 140 °F in the smoke by its
// cores; what nobody read counts as warm, and read is false if that is all of it.
func (t *Turn) warmIn(s course.State, p course.PieceState) (warm time.Duration, read bool) {
	in, ok := p.Marks[course.Smoking]
	if !ok || in.Skipped {
		return 0, false
	}
	end := t.Now
	if out, ok := p.Marks[course.Smoked]; ok && !out.Skipped {
		end = out.At
	}
	cores := course.Since(s.Cores(p.Letter), in.At)
	d, err := curemath.DangerZone(cores, end)
	if err != nil { // no core by then
		return max(end.Sub(in.At), 0), false
	}
	warm = d.Shown + d.Unread
	if cores[0].Temp > curemath.DangerFrom {
		warm += cores[0].At.Sub(in.At)
	}
	return warm, true
}

func uncuredText(p course.PieceState, warm time.Duration, read bool) string {
	how := " between 40 and 140 °F (4 and 60 °C)"
	if !read {
		how = " in the smoke with no core read, which counts as between 40 and 140 °F (4 and 60 °C),"
	}
	return fmt.Sprintf("Danger: %s%s with only %s of nitrite. Without a full cure that is not safe to eat; throw it away [%s; the rest from memory]", howLong(warm), how, ppm(p.Ingoing), curemath.DangerSource().String())
}

// lostOf gives the pieces, or the one asked about, that can only be thrown away.
func (t *Turn) lostOf(s course.State, letter string) []string {
	var out []string
	for _, p := range s.Pieces {
		if letter != "" && p.Letter != letter {
			continue
		}
		if _, ok := t.lossOf(s, p); ok {
			out = append(out, p.Letter)
		}
	}
	return out
}

// withoutLost is a batch without the pieces that are lost: what there is to go on with.
func (t *Turn) withoutLost(s course.State) course.State {
	rest := s
	rest.Pieces = nil
	for _, p := range s.Pieces {
		if _, ok := t.lossOf(s, p); !ok {
			rest.Pieces = append(rest.Pieces, p)
		}
	}
	return rest
}

// sayLost says of the pieces that are lost what is next for them, which is no step.
func (t *Turn) sayLost(r *reply.Reply, s course.State) {
	for _, p := range s.Pieces {
		l, ok := t.lossOf(s, p)
		if !ok {
			continue
		}
		n, who := fmt.Sprintf("%d%s", s.Number, letterOnly(s, p.Letter)), ""
		if len(s.Pieces) > 1 {
			who = pieceNames(s, p.Letter) + ": "
		}
		r.Say("Next: ", who, "throw it away, ", l.mark, ": ", reply.Type("discard "+n+" "+l.why), ". Was a reading wrong? ", reply.Type(fmt.Sprintf("strike %d", s.Number)))
	}
}

// lostPing says in a ping which of its pieces are lost and gives the letters of the
// others, "" if there are none. How a cooling went is said by its own pings, for which
// slow is false.
func (t *Turn) lostPing(r *reply.Reply, s course.State, letters string, head reply.Span, slow bool) (rest string) {
	for _, p := range s.Pieces {
		if letters != "" && !strings.Contains(letters, p.Letter) {
			continue
		}
		l, ok := t.lossOf(s, p)
		if !ok || l.slow && !slow {
			rest += p.Letter
			continue
		}
		why := l.said
		if l.slow {
			why = "cooling FAILED by its readings: spores may have grown, and cooking again does not undo their poison. Throw it away"
		}
		r.Par(head, letterIf(s, p.Letter), ": ", why, ": ", reply.Type(fmt.Sprintf("discard %d%s %s", s.Number, letterOnly(s, p.Letter), l.why)), ". Was a reading wrong? ", reply.Type(fmt.Sprintf("strike %d", s.Number)))
	}
	return rest
}

// lostError refuses to go on with a piece that is lost.
func lostError(who, n string, l loss) error {
	if l.slow {
		return &Error{Kind: Dangerous, Why: l.said + ": spores may have grown, and cooking again does not undo their poison. Throw it away. If a reading was wrong, strike it out.", Example: "discard " + n + " " + l.why}
	}
	return &Error{Kind: Dangerous, Why: who + ": " + l.said + ". If a reading was wrong, strike it out.", Example: "discard " + n + " " + l.why}
}

// targetOf is how the pieces a step is recorded of are named behind it: with their
// letters where others that are lost wait for it too.
func targetOf(s course.State, step course.Step, pieces []string) string {
	waiting := 0
	for _, p := range s.Pieces {
		if next, ok := p.Next(); ok && next.Step == step {
			waiting++
		}
	}
	n := fmt.Sprint(s.Number)
	switch {
	case len(pieces) == 1 && len(s.Pieces) > 1:
		return n + pieces[0]
	case len(pieces) < waiting:
		return n + " " + strings.Join(pieces, " and ")
	}
	return n
}
