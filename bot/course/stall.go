package course

import (
	"time"

	"larderhand/curemath"
)

// What a stall is: common practice, no source. A core that creeps under a pit close
// above it is no stall, only nearly as warm as its pit.
const (
	stallFor                         = 55 * time.Minute
	stallPerHour                     = 1.5 // °F
	stallFrom    curemath.Fahrenheit = 90
	stallUnder   curemath.Fahrenheit = 8 // below the pit
	stallDips    curemath.Fahrenheit = 3
)

// Stretch is a time from one instant to another.
type Stretch struct{ From, To time.Time }

// Stall gives the longest time in which a piece's core hardly rose though its pit
// was well above it, as far as the readings show; ok is false if there was none.
func (s State) Stall(letter string) (longest Stretch, ok bool) {
	p, found := s.Find(letter)
	if !found {
		return longest, false
	}
	cores := s.smokeCores(p)
	for i, a := range cores {
		if a.Temp < stallFrom || a.Temp >= s.Target() {
			continue
		}
		for _, b := range cores[i+1:] {
			d := b.At.Sub(a.At)
			if d >= stallFor && d > longest.To.Sub(longest.From) && s.stands(a, b, d) {
				longest, ok = Stretch{a.At, b.At}, true
			}
		}
	}
	return longest, ok
}

// stalled says whether the last readings of a piece are such a time.
func (s State) stalled(cores []curemath.CoreReading) bool {
	n := len(cores)
	for i := n - 2; i >= 0; i-- {
		a, b := cores[i], cores[n-1]
		if d := b.At.Sub(a.At); d >= stallFor {
			return a.Temp >= stallFrom && b.Temp < s.Target() && s.stands(a, b, d)
		}
	}
	return false
}

func (s State) stands(a, b curemath.CoreReading, d time.Duration) bool {
	if float64(b.Temp-a.Temp) > stallPerHour*d.Hours() || b.Temp < a.Temp-stallDips {
		return false
	}
	pit, ok := s.pitOver(a.At, b.At)
	return ok && pit-b.Temp >= stallUnder
}

// smokeCores are a piece's readings while it was in the smoke.
func (s State) smokeCores(p PieceState) []curemath.CoreReading {
	cores := Since(s.Cores(p.Letter), p.Marks[Smoking].At)
	if out, ok := p.Marks[Smoked]; ok {
		for i, c := range cores {
			if c.At.After(out.At) {
				return cores[:i]
			}
		}
	}
	return cores
}

// pitOver is the mean of the pit readings of a time.
func (s State) pitOver(from, to time.Time) (curemath.Fahrenheit, bool) {
	var sum curemath.Fahrenheit
	n := 0
	for _, r := range s.Pits() {
		if !r.At.Before(from) && !r.At.After(to) {
			sum += r.Temp
			n++
		}
	}
	if n == 0 {
		return 0, false
	}
	return sum / curemath.Fahrenheit(n), true
}
