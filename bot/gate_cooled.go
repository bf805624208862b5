package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

// coldInTime is the word that stands for a reading nobody took. It is kept with the
// step, and the label says that nothing shows it.
const coldInTime = "cold in time, not read"

var coldWord = regexp.MustCompile(`(?i)[\s,;]*\bcold in time\b(?:[\s,;]*(?:but\s+)?(?:not|never)\s+read)?[\s,;.]*`)

// cutColdWord takes the word out of a text.
func cutColdWord(text string) (rest string, said bool) {
	at := coldWord.FindStringIndex(text)
	if at == nil {
		return text, false
	}
	return strings.TrimSpace(text[:at[0]] + " " + text[at[1]:]), true
}

// unreadFor is how long after the smoke, or after a core still warm, the word can at
// the soonest stand for a reading: our own choice, common practice, no source.
const unreadFor = 4 * time.Hour

// coldEnd is the end of the last window of a piece: it is cooled at that or under it.
func coldEnd(p course.PieceState) curemath.Fahrenheit {
	windows := curemath.CoolingRuleFor(p.Ingoing).Windows
	return windows[len(windows)-1].To
}

// tooLongWarm says what a cooling that nobody read must not have come to by the rule for
// the piece's cure: the first window's time over its end, or the time of all of them.
func (t *Turn) tooLongWarm(p course.PieceState) string {
	first := curemath.CoolingRuleFor(p.Ingoing).Windows[0]
	return fmt.Sprintf("over %s for more than %s, or warm for more than %s in all", t.units().temp(first.To), howLong(first.Within), howLong(course.CoolingTime(p.Ingoing)))
}

// wordFrom is when the word can stand for a reading of a piece: not before even a fan
// in the fridge could have cooled the slab to the end of its windows, and, however
// thick it is, no later than the windows are over. It is an estimate to wait by, and
// shows nothing.
func wordFrom(p course.PieceState, from curemath.CoreReading, end curemath.Fahrenheit) time.Time {
	const step = 15 * time.Minute
	wait, most := unreadFor, course.CoolingTime(p.Ingoing)
	for wait < most && curemath.ColdestCore(p.Thickness, from.Temp, wait, curemath.MovingAir) > end {
		wait += step
	}
	return from.At.Add(wait)
}

// outAt is the core a piece came out of the smoke with: the newest read by then, else
// its target, or, where the pit was kept under that, the pit's ceiling.
func outAt(s course.State, p course.PieceState) curemath.CoreReading {
	at := p.Marks[course.Smoked].At
	out := curemath.CoreReading{At: at, Temp: min(s.Target(), s.Ceiling())}
	for _, c := range course.Since(s.Cores(p.Letter), at.Add(-readApart)) {
		if !c.At.After(at) {
			out.Temp = c.Temp
		}
	}
	return out
}

// gateCooled holds "cooled" to what the readings, and the core told with it, show: a
// core has to be read, it has to be cold, and where the rule cannot be shown to have
// been met a person's word has to say so.
func (t *Turn) gateCooled(s course.State, e entry, at time.Time) error {
	for _, p := range s.Pieces {
		if !slices.Contains(e.of, "") && !slices.Contains(e.of, p.Letter) {
			continue
		}
		if out, ok := p.Marks[course.Smoked]; ok && !out.Skipped {
			if err := t.gateCooledPiece(s, p, e, at); err != nil {
				return err
			}
		}
	}
	return nil
}

func (t *Turn) gateCooledPiece(s course.State, p course.PieceState, e entry, at time.Time) error {
	out := p.Marks[course.Smoked].At
	n := fmt.Sprintf("%d%s", s.Number, letterOnly(s, p.Letter))
	of := n
	if slices.Contains(e.of, "") {
		of = fmt.Sprint(s.Number)
	}
	word, body := "cooled "+of+" "+coldInTime, e.body
	if body.Core != nil { // as if it was noted already
		s.Log = append(slices.Clone(s.Log), course.Log{Entry: store.Entry{Piece: p.Letter, Kind: string(course.Cooled), At: at}, Body: body})
		word = "cooled " + of + " core " + t.plainTemp(*body.Core) + " " + coldInTime
	}
	said := body.Text == coldInTime
	who, u := t.pieceName(s, p.Letter), t.units()
	c, read := s.CoolingOf(p.Letter, t.Now)
	if l, ok := t.lossOf(s, p); ok {
		return lostError(who, n, l)
	}
	if read && c.Verdict == curemath.CoolingWarmAgain {
		return t.warmAgain(s, p, c, n)
	}
	limit := t.tooLongWarm(p)
	end := coldEnd(p)
	cores := course.Since(s.Cores(p.Letter), out.Add(time.Second))
	if len(cores) == 0 {
		from := wordFrom(p, outAt(s, p), end)
		if said && !at.Before(from) {
			return nil
		}
		core, read, err := t.coreAsked(s, p.Letter, t.Me, func(curemath.Fahrenheit) bool { return true })
		if err != nil {
			return err
		}
		if !said && read.After(out) {
			return &Error{Kind: NotNow, Why: fmt.Sprintf("%s: its core of %s read at %s waits for your word: is it right? Say keep if it is, or drop if it was a slip, and then this again.",
				who, t.units().temp(core), read.In(t.Loc).Format("Mon 15:04")), Example: "keep"}
		}
		why := who + ": no core was read since it came out of the smoke. Read it once now; without that nobody knows that it is cold."
		if said {
			why = who + ": " + t.tooSoon(from, end)
		} else if !at.Before(from) {
			why += fmt.Sprintf(" Can't be read any more, but you know that it was cold in time? Say so, and the label will: %s. Was it %s, or nobody knows: throw it away.", word, limit)
		}
		return &Error{Kind: NotNow, Why: why, Example: fmt.Sprintf("core %s %s", n, t.plainTemp(41))}
	}
	if c.Verdict == curemath.CoolingPassed {
		return nil
	}
	last := cores[len(cores)-1]
	from := wordFrom(p, last, end)
	switch {
	case last.Temp > end && said && at.Before(from) && !last.At.Equal(at):
		return &Error{Kind: NotNow, Why: fmt.Sprintf("The newest core of %s is %s (%s). %s", who, u.temp(last.Temp), last.At.In(t.Loc).Format("15:04"), sentence(t.tooSoon(from, end))),
			Example: fmt.Sprintf("core %s %s", n, t.plainTemp(41))}
	case last.Temp > end && (!said || at.Before(from)):
		return &Error{Kind: NotNow, Why: fmt.Sprintf("The newest core of %s is %s (%s). It is cooled at %s or under; what does the core read now?", who, u.temp(last.Temp), last.At.In(t.Loc).Format("15:04"), u.temp(end)),
			Example: fmt.Sprintf("core %s %s", n, t.plainTemp(41))}
	case !said:
		return &Error{Kind: NotNow, Why: fmt.Sprintf("%s is cold, but %s [%s]. Was it %s, or nobody knows: throw it away (discard %s cooled too slowly). If you know that it was cold in time, say so, and the label will.", who, lowerFirst(verdictText(c)), c.Rule.Source.String(), limit, n),
			Example: word}
	}
	return nil
}

// tooSoon says from when the word can stand for a reading.
func (t *Turn) tooSoon(from time.Time, end curemath.Fahrenheit) string {
	return fmt.Sprintf("no slab of that kind is at %s so soon in a fridge (by estimate, not before %s). Read the core, however it was cooled; can't it be read, say so again after that. I keep asking until then.", t.units().temp(end), from.In(t.Loc).Format("Mon 15:04"))
}

const cookIt = ": cook before eating"

// unshown is the remark of a piece whose cooling no readings show to have been in
// time; "" for one that was not smoked, is cooling still, or met its rule.
func (t *Turn) unshown(s course.State, p course.PieceState) string {
	out, smoked := p.Marks[course.Smoked]
	if !smoked || out.Skipped || !p.Has(course.Cooled) && !p.Past(course.Cooled) {
		return ""
	}
	if c, read := s.CoolingOf(p.Letter, t.Now); read && c.Verdict == curemath.CoolingPassed {
		return ""
	}
	return "Cooling not shown by readings" + cookIt + "; if it was " + t.tooLongWarm(p) + ", throw it away"
}

// sayUnshown says it of the pieces meant.
func (t *Turn) sayUnshown(r *reply.Reply, s course.State, of []string) {
	for _, p := range s.Pieces {
		if len(of) > 0 && !slices.Contains(of, "") && !slices.Contains(of, p.Letter) {
			continue
		}
		if line := t.unshown(s, p); line != "" {
			r.Say(letterFor(s, p.Letter), line, ".")
		}
	}
}
