package bot

import (
	"fmt"
	"math"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/curemath"
)

// What makes a reading odd enough to ask about before it counts. Our own choice,
// common practice, no source: a slip of the finger or a thermometer in the wrong
// unit should not end up in a forecast.
const (
	hottestPit  curemath.Fahrenheit = 400
	coldestPit  curemath.Fahrenheit = 20
	overPit     curemath.Fahrenheit = 5   // how far a core may lie over its pit
	coreFalls   curemath.Fahrenheit = 5   // in the smoke
	coreJumps                       = 2.0 // °F a minute
	mostCore    curemath.Fahrenheit = 212
	frozen      curemath.Fahrenheit = 29 // meat; common practice, no source
	otherUnitBy curemath.Fahrenheit = 15 // how near the other unit has to lie
)

// odd says what is strange about readings, or "".
func (t *Turn) odd(s course.State, list []parse.Reading) string {
	u := t.units()
	for _, r := range list {
		if r.Pit != nil && (*r.Pit > hottestPit || *r.Pit < coldestPit) {
			return fmt.Sprintf("A pit of %s would be far from any smoke for bacon. Is that right?%s", u.temp(*r.Pit), t.otherUnit(*r.Pit, s.Ceiling()-15))
		}
		if r.Core == nil {
			continue
		}
		if *r.Core > mostCore {
			return fmt.Sprintf("A core of %s is over the boiling point of water. Is that right?", u.temp(*r.Core))
		}
		if pit, ok := pitWith(r, list); ok && *r.Core > pit+overPit && s.Stage() == course.InSmoke && !dying(s, r, pit) {
			return fmt.Sprintf("The core (%s) is hotter than the pit (%s). Are they swapped?", u.temp(*r.Core), u.temp(pit))
		}
		if p, ok := s.Find(orElse(r.Piece, s.Pieces[0].Letter)); ok {
			if in := p.Marks[course.Smoking]; p.Has(course.Smoking) && r.At.Before(in.At.Add(-time.Minute)) {
				return fmt.Sprintf("A core of %s at %s would be before %s went into the smoke (%s). Is the time right?", u.temp(*r.Core), r.At.In(t.Loc).Format("Mon 15:04"), t.pieceName(s, p.Letter), in.At.In(t.Loc).Format("Mon 15:04"))
			}
		}
		if why := t.oddCore(s, r); why != "" {
			return why
		}
	}
	return ""
}

// pitWith finds the pit that was read along with a core: a line such as "pit 70
// core a 150" is two readings of one moment.
func pitWith(r parse.Reading, list []parse.Reading) (curemath.Fahrenheit, bool) {
	if r.Pit != nil {
		return *r.Pit, true
	}
	for _, o := range list {
		if o.Pit != nil && o.At.Equal(r.At) {
			return *o.Pit, true
		}
	}
	return 0, false
}

// dying says whether a core over its pit is no slip: it is where it was, and the pit
// has fallen away under it.
func dying(s course.State, r parse.Reading, pit curemath.Fahrenheit) bool {
	letter := r.Piece
	if letter == "" {
		letter = s.Pieces[0].Letter
	}
	o := s.Outlook(letter)
	return !o.Core.At.IsZero() && !o.Pit.At.IsZero() && o.Pit.Temp > pit && math.Abs(float64(*r.Core-o.Core.Temp)) <= float64(2*coreFalls)
}

// oddCore holds a core reading against the one before it of the same piece.
func (t *Turn) oddCore(s course.State, r parse.Reading) string {
	letter := r.Piece
	if letter == "" {
		letter = s.Pieces[0].Letter
	}
	var last *curemath.CoreReading
	for _, c := range s.Cores(letter) {
		if c.At.Before(r.At) {
			last = &c
		}
	}
	if last == nil {
		return ""
	}
	u := t.units()
	smoking := false
	if p, ok := s.Find(letter); ok {
		next, waits := p.Next()
		smoking = waits && next.Step == course.Smoked
	}
	change := *r.Core - last.Temp
	minutes := math.Max(r.At.Sub(last.At).Minutes(), 1)
	switch {
	case smoking && change < -coreFalls:
		return fmt.Sprintf("The core fell from %s to %s since %s. A probe that slipped, or the other piece?%s", u.temp(last.Temp), u.temp(*r.Core), last.At.In(t.Loc).Format("15:04"), t.otherUnit(*r.Core, last.Temp))
	case float64(change)/minutes > coreJumps && change > 20:
		return fmt.Sprintf("The core rose from %s to %s in %s, faster than meat can. Is that right?%s", u.temp(last.Temp), u.temp(*r.Core), howLong(time.Duration(minutes)*time.Minute), t.otherUnit(*r.Core, last.Temp))
	}
	return ""
}

// otherUnit suggests the other unit when the number, read in it, would lie near
// what is expected.
func (t *Turn) otherUnit(said, near curemath.Fahrenheit) string {
	number, as, sign := float64(said), curemath.Celsius(said).Fahrenheit(), "°C"
	if t.units() == metric {
		number, sign = float64(said.Celsius()), "°F"
		as = curemath.Fahrenheit(number)
	}
	if as < near-otherUnitBy || as > near+3*otherUnitBy {
		return ""
	}
	return fmt.Sprintf(" Did you mean %s %s?", trim(number, 1), sign)
}
