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
	hottestPitC curemath.Fahrenheit = 248 // 120 °C, where °C are typed: over it the number is rather in °F
	coldestPit  curemath.Fahrenheit = 20
	overPit     curemath.Fahrenheit = 5   // how far a core may lie over its pit
	coreFalls   curemath.Fahrenheit = 5   // in the smoke
	coreJumps                       = 2.0 // °F a minute
	coreCoasts  curemath.Fahrenheit = 10  // how far it may rise after the smoke
	farOff      curemath.Fahrenheit = 20
	sameMinute                      = time.Minute
	sameWithin  curemath.Fahrenheit = 3 // two probes in one piece differ by that
	mostCore    curemath.Fahrenheit = 212
	frozen      curemath.Fahrenheit = 29 // meat; common practice, no source
	otherUnitBy curemath.Fahrenheit = 15 // how near the other unit has to lie
)

// odd says what is strange about readings, or "".
func (t *Turn) odd(s course.State, list []parse.Reading) string {
	u := t.units()
	for i, r := range list {
		if r.Pit != nil {
			if why := t.oddPit(s, r); why != "" {
				return why
			}
		}
		if r.Core == nil {
			continue
		}
		if why := t.oddUnit(s, r); why != "" {
			return why
		}
		if pit, ok := pitWith(r, list); ok && *r.Core > pit+overPit && s.AnyIn(course.InSmoke) && !dying(s, r, pit) {
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
		for _, o := range list[:i] { // told in one breath
			if o.Core != nil && o.Piece == r.Piece && r.At.Sub(o.At).Abs() < sameMinute && max(*o.Core-*r.Core, *r.Core-*o.Core) > sameWithin {
				return fmt.Sprintf("Two cores of one piece in the same minute: %s and %s. Which is right?", u.temp(*o.Core), u.temp(*r.Core))
			}
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
	return !o.Core.At.IsZero() && !o.Pit.At.IsZero() && (o.Pit.Temp > pit || o.FireOut) && math.Abs(float64(*r.Core-o.Core.Temp)) <= float64(2*coreFalls)
}

// oddCore holds a core reading against those told before it of the same piece: one of
// the same minute, which it may not contradict, and the last before it. The core given
// with a step counts as one.
func (t *Turn) oddCore(s course.State, r parse.Reading) string {
	letter := r.Piece
	if letter == "" {
		letter = s.Pieces[0].Letter
	}
	var last *curemath.CoreReading
	u := t.units()
	for _, c := range s.Cores(letter) {
		if r.At.Sub(c.At).Abs() < sameMinute && (*r.Core-c.Temp > sameWithin || c.Temp-*r.Core > sameWithin) {
			return t.twice(s, letter, c, *r.Core)
		}
		if !c.At.After(r.At) {
			last = &c
		}
	}
	p, ok := s.Find(letter)
	if !ok {
		return ""
	}
	if out := p.Marks[course.Smoked]; p.Has(course.Smoked) && !out.Skipped && !r.At.Before(out.At) {
		return t.oddChill(s, p, r, last)
	}
	if last == nil {
		return ""
	}
	next, waits := p.Next()
	smoking := waits && next.Step == course.Smoked
	change := *r.Core - last.Temp
	passed := r.At.Sub(last.At)
	minutes := math.Max(passed.Minutes(), 1)
	rate := float64(change) / minutes
	from, to, after := u.temp(last.Temp), u.temp(*r.Core), howLong(time.Duration(minutes)*time.Minute)
	switch other := t.otherUnit(*r.Core, last.Temp); {
	case smoking && change < -coreFalls:
		return fmt.Sprintf("The core fell from %s to %s since %s. A probe that slipped, or the other piece?%s", from, to, last.At.In(t.Loc).Format("15:04"), other)
	case rate > coreJumps && change > farOff:
		return fmt.Sprintf("The core rose from %s to %s in %s, faster than meat can. Is that right?%s", from, to, after, other)
	}
	return ""
}

// farFromLast says whether a core is further from the last one of its piece than
// another probe, or another place in the slab, can make it.
func (t *Turn) farFromLast(s course.State, r parse.Reading) bool {
	letter := orElse(r.Piece, s.Pieces[0].Letter)
	cores := s.Cores(letter)
	if len(cores) == 0 {
		return false
	}
	last := cores[len(cores)-1].Temp
	return max(last-*r.Core, *r.Core-last) > farOff
}

// twice asks about a second reading of one minute that differs from the first.
func (t *Turn) twice(s course.State, letter string, c curemath.CoreReading, said curemath.Fahrenheit) string {
	u := t.units()
	n := fmt.Sprintf("%d%s", s.Number, letterOnly(s, letter))
	mend := "strike " + n + " " + c.At.In(t.Loc).Format("15:04")
	for _, l := range s.Log {
		if l.Body.Core != nil && l.At.Equal(c.At) && l.Kind != course.Reading && speaksOf(l.Piece, letter) {
			mend = fmt.Sprintf("undo %d", s.Number) // it was given with a step
		}
	}
	return fmt.Sprintf("For the same minute (%s) %s has a core of %s already, and now %s. Which is right?%s If the first was wrong, take it back: %s.",
		c.At.In(t.Loc).Format("15:04"), t.pieceName(s, letter), u.temp(c.Temp), u.temp(said), t.otherUnit(said, c.Temp), mend)
}

// speaksOf says whether an entry of a piece, or of the batch, is of a piece.
func speaksOf(piece, letter string) bool { return piece == "" || piece == letter }

// otherUnit suggests the other unit when the number, read in it, would lie near
// what is expected.
func (t *Turn) otherUnit(said, near curemath.Fahrenheit) string {
	return t.unitFits(said, near-otherUnitBy, near+3*otherUnitBy)
}

// unitFits suggests the other unit when the number, read in it, lies from low to high.
func (t *Turn) unitFits(said, low, high curemath.Fahrenheit) string {
	number, as, sign := float64(said), curemath.Celsius(said).Fahrenheit(), "°C"
	if t.units() == metric {
		number, sign = float64(said.Celsius()), "°F"
		as = curemath.Fahrenheit(number)
	}
	if as < low || as > high {
		return ""
	}
	return fmt.Sprintf(" Did you mean %s %s?", trim(number, 1), sign)
}
