package course

import (
	"time"

	"larderhand/curemath"
)

// Outlook is how a piece's smoke stands as of its last reading.
type Outlook struct {
	Core     curemath.CoreReading // the last; zero if none
	Pit      curemath.PitReading  // the last; zero if none
	CoreHour float64              // °F an hour, over the last hour or so
	PitHour  float64
	HasTrend bool
	Reached  bool      // the core has been at its target
	Falling  bool      // the core falls though the pit is well above it
	FireOut  bool      // the pit has fallen far, and was not brought up again
	OutSince time.Time // when it was first read so
	Relit    time.Time // when a fire that was out was first read to burn again
	Over     bool      // the pit is over what it is kept under
	Rendered bool      // the pit is where the fat renders
	Stalled  bool      // the core stands though the pit is well above it
	TooCool  bool      // the pit is no warmer than the target: the core never gets there
}

// trendOver is how far back a trend looks: long enough that the swing of a lid
// opened does not make it, short enough to be of now. Our own choice, common
// practice, no source.
const trendOver = 75 * time.Minute

// noWarmer is how little under its target a pit may be read and be warm enough, as a
// thermometer wanders by that: our own choice, common practice, no source.
const noWarmer curemath.Fahrenheit = 2

// warmUp is how long a pit may take to come up before it is called too cool: our
// own choice, common practice, no source.
const warmUp = 2 * time.Hour

// The signs of a fire gone out: common practice, no source.
const (
	fireOutBelow  curemath.Fahrenheit = 110
	fireOutUnder  curemath.Fahrenheit = 25 // the target, which a pit that cold never reaches
	fireOutFallen curemath.Fahrenheit = 20
	relitBy       curemath.Fahrenheit = 15 // over the coldest since it was out
)

// The signs of a core that cannot be what the meat does: common practice, no source.
const (
	coreFallsHour                     = -2.0 // °F an hour
	coreFallsBy   curemath.Fahrenheit = 2    // in all, more than a thermometer wanders
)

// Outlook reads the readings of a piece since it went into the smoke.
func (s State) Outlook(letter string) Outlook {
	var o Outlook
	p, ok := s.Find(letter)
	if !ok {
		return o
	}
	from := p.Marks[Smoking].At
	cores := Since(s.Cores(letter), from)
	if n := len(cores); n > 0 {
		o.Core = cores[n-1]
		at, temp := make([]time.Time, n), make([]float64, n)
		for i, r := range cores {
			at[i], temp[i] = r.At, float64(r.Temp)
			o.Reached = o.Reached || r.Temp >= s.Target()
		}
		o.CoreHour, o.HasTrend = hourly(at, temp)
	}
	o.pit(s, from)
	if !o.Reached && !o.Core.At.IsZero() {
		o.Stalled = s.stalled(cores)
		pit, read := s.pitOver(o.Core.At.Add(-trendOver), o.Core.At)
		lit := latest(from, o.Relit)
		o.TooCool = read && max(pit, o.Pit.Temp) <= s.Target()-noWarmer && o.Core.At.Sub(lit) > warmUp
		o.Falling = read && !o.FireOut && o.HasTrend && o.CoreHour <= coreFallsHour && min(pit, o.Pit.Temp)-o.Core.Temp >= stallUnder && s.fell(cores)
	}
	return o
}

// fell says whether the last core is lower than one of those its trend is of by more
// than a thermometer wanders.
func (s State) fell(cores []curemath.CoreReading) bool {
	last := cores[len(cores)-1]
	for i, c := range cores[:len(cores)-1] {
		if (i == len(cores)-2 || last.At.Sub(c.At) <= trendOver) && c.Temp-last.Temp >= coreFallsBy {
			return true
		}
	}
	return false
}

func (o *Outlook) pit(s State, from time.Time) {
	var at []time.Time
	var temp []float64
	high, low := curemath.Fahrenheit(0), curemath.Fahrenheit(0)
	cold := max(fireOutBelow, s.Target()-fireOutUnder)
	for _, r := range s.Pits() {
		if r.At.Before(from) {
			continue
		}
		o.Pit = r
		high = max(high, r.Temp)
		at, temp = append(at, r.At), append(temp, float64(r.Temp))
		hour, _ := hourly(at, temp)
		switch {
		case !o.FireOut && r.Temp < cold && high-r.Temp > fireOutFallen && hour < 0:
			o.FireOut, o.OutSince, low = true, r.At, r.Temp
		case o.FireOut && (r.Temp >= cold || r.Temp > low+relitBy):
			o.FireOut, o.Relit, high = false, r.At, r.Temp
		}
		low = min(low, r.Temp)
	}
	if len(at) == 0 {
		return
	}
	o.PitHour, _ = hourly(at, temp)
	o.Over = o.Pit.Temp > s.Ceiling()
	o.Rendered = o.Pit.Temp > PitRendered
}

// hourly is the slope of the last readings in degrees an hour, by least squares;
// ok is false with fewer than two.
func hourly(at []time.Time, temp []float64) (slope float64, ok bool) {
	n := len(at)
	if n < 2 {
		return 0, false
	}
	first := n - 2
	for first > 0 && at[n-1].Sub(at[first-1]) <= trendOver {
		first--
	}
	var sx, sy, sxx, sxy, k float64
	for i := first; i < n; i++ {
		x := at[i].Sub(at[n-1]).Hours()
		sx, sy, sxx, sxy, k = sx+x, sy+temp[i], sxx+x*x, sxy+x*temp[i], k+1
	}
	det := k*sxx - sx*sx
	if det <= 0 {
		return 0, false
	}
	return (k*sxy - sx*sy) / det, true
}

// Finish is when a piece is expected to reach its target, with the range the
// forecast gives; ok is false where there is none.
func (s State) Finish(letter string) (low, typical, high time.Time, ok bool) {
	f, ok := s.Forecast(letter)
	if !ok || f.Typical <= 0 {
		return low, typical, high, false
	}
	return f.AsOf.Add(f.Low), f.AsOf.Add(f.Typical), f.AsOf.Add(f.High), true
}

// Forecast fits the readings of a piece since it went into the smoke; ok is false
// where there is nothing to fit, or where what is read is no meat warming: a core that
// falls under a hot pit, a pit whose fire is out. It is of the last reading, whatever the time is
// now, so the same journal gives the same forecast.
func (s State) Forecast(letter string) (curemath.SmokeForecast, bool) {
	p, found := s.Find(letter)
	in, smoking := p.Marks[Smoking]
	if !found || !smoking || in.Skipped {
		return curemath.SmokeForecast{}, false
	}
	if o := s.Outlook(letter); o.Falling || o.FireOut {
		return curemath.SmokeForecast{}, false
	}
	run := curemath.SmokeRun{Cores: Since(s.Cores(letter), in.At), Target: s.Target(), Thickness: p.Thickness}
	for _, r := range s.Pits() {
		if !r.At.Before(in.At) {
			run.Pits = append(run.Pits, r)
		}
	}
	if len(run.Cores) == 0 {
		return curemath.SmokeForecast{}, false
	}
	f, err := curemath.ForecastSmoke(run)
	return f, err == nil
}

// InSmokeAt says whether any piece was in the smoke at an instant.
func (s State) InSmokeAt(at time.Time) bool {
	for _, p := range s.Pieces {
		in, ok := p.Marks[Smoking]
		out, done := p.Marks[Smoked]
		if ok && !at.Before(in.At) && (!done || !at.After(out.At)) {
			return true
		}
	}
	return false
}
