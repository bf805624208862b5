package curemath

import (
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// steady is a core climbing towards a steady pit by one lag, read at a gap.
func steady(pit, from, hours, lag float64, gap time.Duration) SmokeRun {
	run := SmokeRun{Target: 150, Thickness: 40}
	for t := time.Duration(0); t.Hours() <= hours; t += gap {
		at := smokeDay.Add(t)
		core := pit - (pit-from)*math.Exp(-t.Hours()/lag)
		run.Cores = append(run.Cores, CoreReading{at, Fahrenheit(math.Round(core))})
		run.Pits = append(run.Pits, PitReading{at, Fahrenheit(pit)})
	}
	return run
}

func TestForecastStates(t *testing.T) {
	few := steady(200, 40, 0.4, 3, 12*time.Minute)
	noPit := steady(200, 40, 3, 3, 15*time.Minute)
	noPit.Pits = nil
	there := steady(200, 40, 5, 3, 15*time.Minute)
	cold := steady(130, 40, 9, 2, 30*time.Minute)
	for name, c := range map[string]struct {
		run  SmokeRun
		want SmokeState
	}{
		"too few readings": {few, SmokeTooFew}, "no pit": {noPit, SmokeTooFew}, "reached": {there, SmokeReached},
		"a pit below the target": {cold, SmokeOutOfReach}, "on its way": {steady(200, 40, 2, 3, 15*time.Minute), SmokeComing},
	} {
		f, err := ForecastSmoke(c.run)
		if err != nil || f.State != c.want {
			t.Errorf("%s: state %d, %v; want %d", name, f.State, err, c.want)
		}
		if (f.Typical != 0) != (f.State == SmokeComing || f.State == SmokeStalled) {
			t.Errorf("%s: %v with state %d", name, f.Typical, f.State)
		}
	}
}

// A core that climbs, then stands for two hours under a hotter pit, has stalled; one
// that only slows as it nears its target has not.
func TestStallIsNoticed(t *testing.T) {
	run := SmokeRun{Target: 150, Thickness: 40}
	for i, core := range []Fahrenheit{45, 62, 80, 96, 108, 118, 126, 131, 133, 134, 134, 135} {
		at := smokeDay.Add(time.Duration(i) * 30 * time.Minute)
		run.Cores = append(run.Cores, CoreReading{at, core})
		run.Pits = append(run.Pits, PitReading{at, 185})
	}
	if f, err := ForecastSmoke(run); err != nil || f.State != SmokeStalled {
		t.Errorf("a stall is state %d, %v", f.State, err)
	}
	if f, err := ForecastSmoke(SmokeRun{Target: 150, Thickness: 40, Cores: run.Cores[:8], Pits: run.Pits[:8]}); err != nil || f.State != SmokeComing {
		t.Errorf("before the stall: state %d, %v", f.State, err)
	}
}

// In a stall nobody can say how long it lasts: the range is wider than it was before,
// widens as the stall goes on, and is many times that of a core as warm on its way.
func TestRangeWidensInAStall(t *testing.T) {
	width := func(want SmokeState, cores ...Fahrenheit) time.Duration {
		t.Helper()
		run := SmokeRun{Target: 150, Thickness: 40}
		for i, core := range cores {
			at := smokeDay.Add(time.Duration(i) * 30 * time.Minute)
			run.Cores, run.Pits = append(run.Cores, CoreReading{at, core}), append(run.Pits, PitReading{at, 185})
		}
		f, err := ForecastSmoke(run)
		if err != nil || f.State != want {
			t.Fatalf("%v: state %d, %v; want %d", cores, f.State, err, want)
		}
		return f.High - f.Low
	}
	before := width(SmokeComing, 45, 62, 80, 96, 108, 118, 126)
	stall := width(SmokeStalled, 45, 62, 80, 96, 108, 118, 126, 131, 133, 134, 134)
	longer := width(SmokeStalled, 45, 62, 80, 96, 108, 118, 126, 131, 133, 134, 134, 135)
	goesOn := width(SmokeComing, 45, 62, 80, 96, 108, 118, 126, 133, 139)
	if stall <= before*5/4 || longer <= stall || stall < 5*goesOn {
		t.Errorf("ranges of %v before a stall, %v and %v in it, %v without", before, stall, longer, goesOn)
	}
}

func TestForecastRefusesBadReadings(t *testing.T) {
	good := steady(200, 40, 3, 3, 30*time.Minute)
	bad := func(change func(*SmokeRun)) SmokeRun {
		run := SmokeRun{Target: 150}
		run.Cores = append(run.Cores, good.Cores...)
		run.Pits = append(run.Pits, good.Pits...)
		change(&run)
		return run
	}
	for name, c := range map[string]struct {
		run  SmokeRun
		want ReadingErrorKind
	}{
		"none":        {bad(func(r *SmokeRun) { r.Cores = nil }), ReadingsNone},
		"nan core":    {bad(func(r *SmokeRun) { r.Cores[1].Temp = Fahrenheit(math.NaN()) }), ReadingNotANumber},
		"inf pit":     {bad(func(r *SmokeRun) { r.Pits[1].Temp = Fahrenheit(math.Inf(1)) }), ReadingNotANumber},
		"pit 1480":    {bad(func(r *SmokeRun) { r.Pits[1].Temp = 1480 }), ReadingImplausible},
		"unordered":   {bad(func(r *SmokeRun) { r.Cores[1].At = r.Cores[0].At.Add(-time.Hour) }), ReadingsUnordered},
		"same minute": {bad(func(r *SmokeRun) { r.Pits[1].At = r.Pits[0].At }), ReadingsSameTime},
	} {
		_, err := ForecastSmoke(c.run)
		var e ReadingError
		if !errors.As(err, &e) || e.Kind != c.want {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Whatever is read, a forecast comes or a reason does; its range is in order, and
// the same readings give the same forecast.
func TestForecastHoldsTogether(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		run := SmokeRun{Target: Fahrenheit(rapid.Float64Range(80, 165).Draw(rt, "target")), Thickness: Millimetres(rapid.SampledFrom([]float64{0, 12, 38, 70, 200}).Draw(rt, "thickness"))}
		at := smokeDay
		for range rapid.IntRange(1, 25).Draw(rt, "readings") {
			at = at.Add(time.Duration(rapid.IntRange(1, 120).Draw(rt, "gap")) * time.Minute)
			run.Cores = append(run.Cores, CoreReading{at, Fahrenheit(rapid.Float64Range(-30, 240).Draw(rt, "core"))})
			if rapid.Bool().Draw(rt, "with pit") {
				run.Pits = append(run.Pits, PitReading{at, Fahrenheit(rapid.Float64Range(-50, 690).Draw(rt, "pit"))})
			}
		}
		f, err := ForecastSmoke(run)
		if err != nil {
			rt.Fatal(err)
		}
		again, _ := ForecastSmoke(run)
		if f != again {
			rt.Fatalf("%+v and then %+v", f, again)
		}
		if f.State < SmokeTooFew || f.State > SmokeOutOfReach || f.Low > f.Typical || f.Typical > f.High || f.Low < 0 {
			rt.Fatalf("%+v", f)
		}
	})
}
