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
	if curemath.Cured(p.Ingoing) {
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
	return loss{said: uncuredText(p, warm, read), mark: fmt.Sprintf("%s%s with only %s of nitrite", howLong(warm), mark, under(p.Ingoing)), why: "warm too long without a full cure"}, true
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
	return fmt.Sprintf("Danger: %s%s with only %s of nitrite. Without a full cure that is not safe to eat; throw it away [%s; the rest from memory]", howLong(warm), how, under(p.Ingoing), curemath.DangerSource().String())
}

// lostPing says in a ping which of its pieces are lost, or not for the smoke they wait
// for, and gives the letters of the others, "" if there are none. How a cooling went is
// said by its own pings, for which slow is false.
func (t *Turn) lostPing(r *reply.Reply, s course.State, letters string, head reply.Span, slow bool) (rest string) {
	for _, p := range s.Pieces {
		if letters != "" && !strings.Contains(letters, p.Letter) {
			continue
		}
		l, ok := t.lossOf(s, p)
		if !ok && tooWeak(p) {
			r.Par(append([]any{head, letterIf(s, p.Letter), ": "}, weakStep(s, p)...)...)
			continue
		}
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
