package bot

import (
	"fmt"
	"math"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/curemath"
)

// What makes a number look as if it was read in the other unit: our own choice, common
// practice, no source.
const (
	usualPit  curemath.Fahrenheit = 30   // how far a pit may lie from where it is kept
	pitLeaps  curemath.Fahrenheit = 40   // a change worth a question
	pitPerMin                     = 0.75 // °F; a fire that dies lets the pit fall more slowly
	litWithin                     = time.Hour
	hotSmoke  curemath.Fahrenheit = 120 // a ceiling under it is of a cold smoke
)

// oddPit says what is strange about a pit: no smoke for bacon is as hot or cold, or it
// changed faster than a fire goes out and, read in the other unit, had not changed.
func (t *Turn) oddPit(s course.State, r parse.Reading) string {
	u, pit, kept := t.units(), *r.Pit, s.Ceiling()-15
	hottest := hottestPit
	if u == metric {
		hottest = hottestPitC
	}
	if pit > hottest || pit < coldestPit {
		return fmt.Sprintf("A pit of %s would be far from any smoke for bacon. Is that right?%s", u.temp(pit), t.unitFits(pit, kept-usualPit, kept+usualPit))
	}
	if near(pit, kept, usualPit) {
		return ""
	}
	in, last := t.pitBefore(s, r.At)
	switch {
	case last == nil:
		if s.Ceiling() < hotSmoke || in.IsZero() || r.At.Sub(in) < litWithin {
			return "" // a cold smoke, or a fire just lit
		}
		if other := t.unitFits(pit, kept-usualPit, kept+usualPit); pit < kept && other != "" {
			return fmt.Sprintf("A pit of %s is cold for a hot smoke. Is the fire out?%s", u.temp(pit), other)
		}
		return ""
	case near(pit, last.Temp, pitLeaps):
		return ""
	}
	minutes := math.Max(r.At.Sub(last.At).Minutes(), 1)
	other := t.unitFits(pit, last.Temp-otherUnitBy, last.Temp+otherUnitBy)
	if other == "" || math.Abs(float64(pit-last.Temp))/minutes < pitPerMin {
		return ""
	}
	how, ask := "rose", "Is that right?"
	if pit < last.Temp {
		how, ask = "fell", "Is the fire out?"
	}
	return fmt.Sprintf("The pit %s from %s to %s in %s. %s%s", how, u.temp(last.Temp), u.temp(pit), howLong(time.Duration(minutes)*time.Minute), ask, other)
}

// pitBefore gives when the batch went into the smoke and the last pit read since,
// before an instant.
func (t *Turn) pitBefore(s course.State, at time.Time) (in time.Time, last *curemath.PitReading) {
	for _, p := range s.Pieces {
		if m, ok := p.Marks[course.Smoking]; ok && (in.IsZero() || m.At.Before(in)) {
			in = m.At
		}
	}
	for _, r := range s.Pits() {
		if !r.At.Before(in) && r.At.Before(at) {
			last = &r
		}
	}
	return in, last
}

func near(a, b, within curemath.Fahrenheit) bool { return a-b <= within && b-a <= within }

// oddUnit says of a core that no meat in the smoke has it: too hot, or frozen.
func (t *Turn) oddUnit(s course.State, r parse.Reading) string {
	u, core := t.units(), *r.Core
	low := frozen // what it can have been, read in the other unit: no colder than before, in the smoke
	p, _ := s.Find(orElse(r.Piece, s.Pieces[0].Letter))
	cools := p.Has(course.Smoked) && !r.At.Before(p.Marks[course.Smoked].At)
	for _, c := range s.Cores(p.Letter) {
		if c.At.Before(r.At) && !cools {
			low = max(frozen, c.Temp-otherUnitBy)
		}
	}
	hot := t.unitFits(core, low, s.Target()+coreFalls)
	switch {
	case core > mostCore:
		return fmt.Sprintf("A core of %s is over the boiling point of water. Is that right?%s", u.temp(core), hot)
	case core > s.Target()+farOff && hot != "":
		return fmt.Sprintf("A core of %s is far over the %s target. Is that right?%s", u.temp(core), u.temp(s.Target()), hot)
	case core < frozen:
		return fmt.Sprintf("A core of %s would be frozen. Is that right?%s", u.temp(core), t.unitFits(core, frozen, s.Target()+farOff))
	}
	return ""
}
