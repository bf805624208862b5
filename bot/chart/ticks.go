package chart

import (
	"math"
	"strconv"
	"time"

	"gonum.org/v1/plot"
)

// niceSteps are the steps people count in, for each power of ten.
func niceStep(span float64, most int) float64 {
	if !(span > 0) || math.IsInf(span, 0) {
		return 1
	}
	rough := span / float64(most)
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, m := range []float64{1, 2, 2.5, 5, 10} {
		if m*power >= rough*0.999 {
			return m * power
		}
	}
	return 10 * power
}

// numberTicks are round numbers from low to high, most of them at most.
func numberTicks(low, high float64, most int) []plot.Tick {
	step := niceStep(high-low, most)
	decimals := 0
	for s := step; decimals < 3 && math.Abs(s-math.Round(s)) > 1e-9; s *= 10 {
		decimals++
	}
	var out []plot.Tick
	first := math.Ceil(low/step - 1e-9)
	for i := range most + 2 {
		v := (first + float64(i)) * step
		if v > high+step*1e-9 {
			break
		}
		out = append(out, plot.Tick{Value: v, Label: minus(strconv.FormatFloat(v, 'f', decimals, 64))})
	}
	return out
}

// timeScale puts instants on an axis as seconds after a start.
type timeScale struct {
	style      Style
	start, end time.Time
}

func (s timeScale) at(t time.Time) float64 { return t.Sub(s.start).Seconds() }

// A tick on a time axis carries the day under it where a day begins.
type timeTick struct {
	at       time.Time
	midnight bool
}

// ticks are round clock times in the conversation's zone, most at most, walked
// by local date and hour so that they stay round across a change of the clocks.
func (s timeScale) ticks(most int) []timeTick {
	span := s.end.Sub(s.start)
	for _, minutes := range []int{1, 2, 5, 10, 15, 30, 60, 120, 180, 240, 360, 720, 1440} {
		if span <= time.Duration(minutes*most)*time.Minute {
			return s.walk(minutes, 1)
		}
	}
	days := int(math.Ceil(span.Hours() / 24 / float64(most)))
	return s.walk(24*60, days)
}

// walk visits each days-th local date and, on it, each minutes-th minute.
func (s timeScale) walk(minutes, days int) []timeTick {
	var out []timeTick
	d := day(s.style.local(s.start))
	zone := s.style.local(s.start).Location()
	for {
		for m := 0; m < 24*60; m += minutes {
			t := time.Date(d.year, d.month, d.day, m/60, m%60, 0, 0, zone)
			skipped := t.Hour() != m/60 // the clocks jump over this time
			if skipped && m == 0 {
				t = time.Date(d.year, d.month, d.day, 1, 0, 0, 0, zone) // then the day begins at one
			}
			if t.After(s.end) {
				return out
			}
			if t.Before(s.start) || skipped && m > 0 || len(out) > 0 && !t.After(out[len(out)-1].at) {
				continue
			}
			out = append(out, timeTick{at: t, midnight: m == 0})
		}
		next := time.Date(d.year, d.month, d.day+days, 12, 0, 0, 0, zone)
		d = day(next)
	}
}

// midnights are the starts of local days inside the scale.
func (s timeScale) midnights() []time.Time {
	days := max(1, int(s.end.Sub(s.start).Hours()/24/60))
	var out []time.Time
	for _, t := range s.walk(24*60, days) {
		out = append(out, t.at)
	}
	return out
}
