package bot

import (
	"fmt"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/curemath"
)

// oddChill holds a core read after the smoke to the one before it. Asked about is one
// that no slab comes to in the air of a fridge in the time since, and, where the
// number read in the other unit would do, one that none comes to in still air. So of
// two cores of one time the colder is never the less doubted. A cold bath or a freezer
// is quicker than either: it is a question, never a refusal (our own choice, common
// practice, no source).
func (t *Turn) oddChill(s course.State, p course.PieceState, r parse.Reading, last *curemath.CoreReading) string {
	u, core, out := t.units(), *r.Core, p.Marks[course.Smoked].At
	from := curemath.CoreReading{At: out, Temp: s.Target()}
	if last != nil {
		from = *last
	} else if s.Ceiling() < hotSmoke {
		return "" // a cold smoke, of which nothing was read
	}
	after := max(r.At.Sub(from.At), time.Minute)
	other := t.unitFits(core, frozen, from.Temp+coreCoasts)
	what := fmt.Sprintf("The core fell from %s to %s in %s", u.temp(from.Temp), u.temp(core), howLong(after))
	if last == nil {
		what = fmt.Sprintf("A core of %s %s after a hot smoke is cold", u.temp(core), howLong(after))
	}
	change := core - from.Temp
	switch {
	case change < -farOff && core < curemath.ColdestCore(p.Thickness, from.Temp, after, curemath.MovingAir):
		return what + ", faster than a slab does in a fridge. Is that right?" + other
	case change < -farOff && other != "" && core < curemath.ColdestCore(p.Thickness, from.Temp, after, curemath.StillAir):
		return what + ", fast for a slab." + other
	case last != nil && change > coreCoasts:
		return fmt.Sprintf("The core rose from %s to %s while it should cool. Is that right?%s", u.temp(from.Temp), u.temp(core), other)
	case last != nil:
		return t.oddWarm(s, p.Letter, r)
	}
	return ""
}

// oddWarm asks about a core over a temperature it was read under before: it would
// fail the cooling, or begin it anew.
func (t *Turn) oddWarm(s course.State, letter string, r parse.Reading) string {
	c, ok := s.CoolingOf(letter, r.At)
	if !ok || c.Verdict == curemath.CoolingFailed {
		return ""
	}
	u := t.units()
	for _, w := range c.Windows {
		if to := w.Window.To; !w.End.IsZero() && *r.Core > to+sameWithin {
			return fmt.Sprintf("At %s the core was read under %s; %s now would be warm again. Is that right?%s", w.End.In(t.Loc).Format("15:04"), u.temp(to), u.temp(*r.Core), t.unitFits(*r.Core, frozen, to))
		}
	}
	return ""
}
