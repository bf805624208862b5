package curemath

import (
	"math"
	"slices"
	"time"
)

// SmokeRun is one piece in the smoke as far as it has been read.
type SmokeRun struct {
	// Cores and Pits are in order of time, each time once. Only what lies between
	// the first core reading and the last is used; readings after it are not.
	Cores []CoreReading
	Pits  []PitReading
	// Target is the core temperature the piece is smoked to.
	Target Fahrenheit
	// Thickness of the piece; 0 where it is not known, which widens the range.
	Thickness Millimetres
}

// SmokeState is what a forecast says in a word.
type SmokeState int

const (
	// SmokeTooFew: fewer than three core readings over half an hour, or no pit
	// reading: nothing can be said yet.
	SmokeTooFew SmokeState = iota + 1
	// SmokeComing: the core is on its way.
	SmokeComing
	// SmokeStalled: the core has all but stopped below its target while the pit
	// is hotter: water evaporating at the face takes as much heat as comes in.
	SmokeStalled
	// SmokeReached: the core has been at its target.
	SmokeReached
	// SmokeOutOfReach: at the level the pit holds, the core will hardly come to its
	// target within a day and a half.
	SmokeOutOfReach
)

// SmokeForecast is when a core is expected at its target. It is an estimate by a
// model fitted to the readings; it unlocks nothing, and a thermometer decides.
type SmokeForecast struct {
	State SmokeState
	// AsOf is the last core reading, from which the times count.
	AsOf time.Time
	// Low and High hold the time in about 80 of 100 smokes, Typical is the middle.
	// They are zero unless the state is SmokeComing or SmokeStalled.
	Low, Typical, High time.Duration
	// OpenEnded: one draw in ten and more did not get to the target within a day and
	// a half. They are left out of the range, so it may be later than High.
	OpenEnded bool
	// Pit is the level the pit is expected to hold.
	Pit Fahrenheit
}

const (
	fewestCores   = 3
	shortestRun   = 30 * time.Minute
	readingNoise  = 0.8 // °F, of a reading rounded to a degree
	horizonLength = time.Duration(smokeHorizon * float64(time.Hour))
)

// ForecastSmoke fits a two-part heat model with evaporation at the face to a
// piece's readings and follows it ahead at the level the pit holds. The model is a
// simplification of our own (heat balance of a drying solid with a falling rate),
// computed; its range is widened so that about 80 % of simulated smokes of an
// independent finite-difference slab fall in it (see the tests). Errors are
// ReadingError values.
func ForecastSmoke(run SmokeRun) (SmokeForecast, error) {
	var f SmokeForecast
	if err := checkCore(run.Cores); err != nil {
		return f, err
	}
	if err := checkPits(run.Pits); err != nil {
		return f, err
	}
	last := run.Cores[len(run.Cores)-1]
	f.AsOf = last.At
	for _, c := range run.Cores {
		if c.Temp >= run.Target {
			f.State = SmokeReached
			return f, nil
		}
	}
	d, pit, ok := prepare(run)
	if !ok {
		f.State = SmokeTooFew
		return f, nil
	}
	f.Pit = Fahrenheit(pit.level)
	fits := fitSmoke(d)
	if len(fits) == 0 {
		f.State = SmokeTooFew
		return f, nil
	}
	f.spread(drawFutures(d, fits, pit, float64(run.Target), widenFit))
	if f.State == SmokeComing && stalled(run, pit) {
		f.State = SmokeStalled
	}
	return f, nil
}

// hopeless is the share of draws that must not get to the target for the forecast to
// say so. Below it those draws are left out: nobody hangs meat in a pit that they
// mean to leave too cool, so most of what looks so from early readings is doubt about
// the face, not about the keeper.
const hopeless = 0.85

// spread turns the hours drawn, in order, into a range.
func (f *SmokeForecast) spread(drawn []float64) {
	all := len(drawn)
	for len(drawn) > 0 && math.IsInf(drawn[len(drawn)-1], 1) {
		drawn = drawn[:len(drawn)-1]
	}
	never := 1 - float64(len(drawn))/float64(all)
	if never >= hopeless {
		f.State = SmokeOutOfReach
		return
	}
	at := func(share float64) time.Duration {
		h := drawn[int(share*float64(len(drawn)-1)+0.5)]
		return time.Duration(h * float64(time.Hour)).Round(time.Minute)
	}
	f.State = SmokeComing
	f.Low, f.Typical, f.High = at(lowShare), at(0.5), at(highShare)
	f.OpenEnded = never > 1-highShare
}

// prepare puts a run on the model's even steps; ok is false with too few readings.
func prepare(run SmokeRun) (d *smokeData, outlook pitOutlook, ok bool) {
	first, last := run.Cores[0].At, run.Cores[len(run.Cores)-1].At
	span := last.Sub(first)
	if len(run.Cores) < fewestCores || span < shortestRun || span > horizonLength {
		return nil, outlook, false
	}
	var at, temp []float64
	for _, p := range run.Pits {
		if !p.At.After(last) {
			at, temp = append(at, p.At.Sub(first).Hours()), append(temp, float64(p.Temp))
		}
	}
	if len(at) == 0 || at[len(at)-1] < 0 {
		return nil, outlook, false
	}
	d = &smokeData{half: float64(run.Thickness) / 2000, prior: beforeReadings()}
	if d.half <= 0 {
		d.half = typicalHalf
	}
	for _, c := range run.Cores {
		d.at, d.core = append(d.at, c.At.Sub(first).Hours()), append(d.core, float64(c.Temp))
	}
	steps := int(math.Ceil(span.Hours()/stepHours)) + 1
	for i := range steps {
		d.pit = append(d.pit, interpolate(at, temp, float64(i)*stepHours))
	}
	return d, lookAhead(at, temp), true
}

// interpolate between points in order, level outside them.
func interpolate(x, y []float64, at float64) float64 {
	i, _ := slices.BinarySearch(x, at)
	switch {
	case i == 0:
		return y[0]
	case i == len(x):
		return y[len(y)-1]
	}
	return y[i-1] + (y[i]-y[i-1])*(at-x[i-1])/(x[i]-x[i-1])
}

// The signs of a stall: common practice, no source, in our own figures.
const (
	stallOver  = 75 * time.Minute
	stallRate  = 2.5   // °F an hour and less
	stallSlows = 0.35  // of the quickest it has risen
	stallFrom  = 110.0 // °F
	stallShort = 4.0   // °F below the target: closer it is only the end of the curve
	stallPit   = 8.0   // °F the pit is hotter
)

// stalled says whether the core has all but stopped below its target though the
// pit would warm it.
func stalled(run SmokeRun, pit pitOutlook) bool {
	last := run.Cores[len(run.Cores)-1]
	if float64(last.Temp) < stallFrom || float64(run.Target-last.Temp) < stallShort || pit.level < float64(last.Temp)+stallPit {
		return false
	}
	quickest, recent, seen := 0.0, 0.0, false
	for i, c := range run.Cores[:len(run.Cores)-1] {
		for _, later := range run.Cores[i+1:] {
			if gap := later.At.Sub(c.At); gap >= 45*time.Minute {
				rate := float64(later.Temp-c.Temp) / gap.Hours()
				quickest = math.Max(quickest, rate)
				break
			}
		}
		if gap := last.At.Sub(c.At); gap >= 45*time.Minute && gap <= stallOver+45*time.Minute {
			recent, seen = float64(last.Temp-c.Temp)/gap.Hours(), true
		}
	}
	return seen && recent <= stallRate && recent <= stallSlows*quickest
}

// checkPits holds pit readings to the same sense as core readings; there may be
// none.
func checkPits(rs []PitReading) error {
	var before time.Time
	for i, r := range rs {
		if err := checkReading(i, r.At, before, r.Temp, -60, 700); err != nil {
			return err
		}
		before = r.At
	}
	return nil
}
