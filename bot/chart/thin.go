package chart

import (
	"cmp"
	"math"
	"slices"
	"time"

	"larderhand/curemath"
)

// Reading is one temperature at one time.
type Reading struct {
	At   time.Time
	Temp curemath.Celsius
}

// Temperatures outside these are a broken probe, not a pit; drawn to scale they
// would flatten every curve. From memory: type K thermometers give up far above.
const (
	coldest curemath.Celsius = -60
	hottest curemath.Celsius = 600
)

// How many readings are drawn at most, of one curve and of all together. Past two
// a pixel column nothing more can be seen, and a stroke's cost grows faster than
// its length.
const (
	mostOfCurve = 800
	leastOfMany = 70
	mostOfAll   = 2000
)

// given tells a time from none. A year no batch can be from counts as none: one
// such time would squeeze all others into a corner.
func given(t time.Time) bool { return t.Year() >= 1970 && t.Year() < 2200 }

// tidy sorts readings by time and leaves out those without a time or a possible
// temperature. Of several at one instant the last given counts.
func tidy(in []Reading) []Reading {
	out := make([]Reading, 0, len(in))
	for _, r := range in {
		if given(r.At) && r.Temp >= coldest && r.Temp <= hottest {
			out = append(out, r)
		}
	}
	byTime := func(a, b Reading) int { return a.At.Compare(b.At) }
	if !slices.IsSortedFunc(out, byTime) {
		slices.SortStableFunc(out, byTime)
	}
	n := 0
	for i := range out {
		if n > 0 && out[n-1].At.Equal(out[i].At) {
			n--
		}
		out[n] = out[i]
		n++
	}
	return out[:n]
}

// thin keeps the first, the last, and the lowest and highest reading of equal
// stretches of time, so that no peak is lost. It wants tidy readings.
func thin(in []Reading, most int) []Reading {
	if len(in) <= most || most < 4 {
		return in
	}
	first, last := in[0], in[len(in)-1]
	parts := most/2 - 1
	length := last.At.Sub(first.At).Seconds() / float64(parts)
	out := []Reading{first}
	for i := 1; i < len(in)-1; {
		part := partOf(in[i].At.Sub(first.At), length)
		low, high, j := i, i, i
		for ; j < len(in)-1 && partOf(in[j].At.Sub(first.At), length) == part; j++ {
			if in[j].Temp < in[low].Temp {
				low = j
			}
			if in[j].Temp > in[high].Temp {
				high = j
			}
		}
		out = append(out, in[min(low, high)])
		if low != high {
			out = append(out, in[max(low, high)])
		}
		i = j
	}
	return append(out, last)
}

func partOf(d time.Duration, length float64) int { return int(d.Seconds() / length) }

// finite keeps numbers that can be drawn between two bounds.
func finite(v, lowest, highest float64) (float64, bool) {
	if math.IsNaN(v) {
		return 0, false
	}
	return min(max(v, lowest), highest), true
}

// spreadOut moves places apart to stand at least gap from each other, as little
// as it can, in their order, inside lowest to highest. If there is not room for
// all, the gap gives way. It returns the new places in the order given.
func spreadOut(want []float64, gap, lowest, highest float64) []float64 {
	n := len(want)
	if n == 0 {
		return nil
	}
	if n > 1 {
		gap = min(gap, (highest-lowest)/float64(n-1))
	}
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(want[a], want[b]) })
	out := make([]float64, n)
	floor := lowest
	for _, i := range order {
		out[i] = max(want[i], floor)
		floor = out[i] + gap
	}
	ceiling := highest
	for _, i := range slices.Backward(order) {
		out[i] = min(out[i], ceiling)
		ceiling = out[i] - gap
	}
	return out
}
