package curemath

import (
	"math"
	"time"
)

// CurvePoint is the centre of a slab at one time of its course.
type CurvePoint struct {
	Elapsed time.Duration
	Centre  ProgressRange
}

// CureCurve gives evenly spaced points from the start to the end, both included, by the
// formulas of CureProgress and with their source (Crank).
// Errors are ProgressError values.
func CureCurve(c Course, end time.Duration, points int) ([]CurvePoint, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if err := checkElapsed(end); err != nil {
		return nil, err
	}
	if err := checkPoints(points); err != nil {
		return nil, err
	}
	clock := newCureClock(c)
	out := make([]CurvePoint, points)
	for i := range out {
		at := time.Duration(float64(end) * float64(i) / float64(points-1))
		out[i] = CurvePoint{Elapsed: at, Centre: clock.centre(at)}
	}
	return out, nil
}

// DepthPoint is the strength at one depth, as a share of the final strength. It
// passes 100 near an open face that was given a fixed dose.
type DepthPoint struct {
	Depth Millimetres
	Share ProgressRange
}

// CureProfile gives the strength through the whole thickness at one time, evenly
// spaced from the open face (depth 0) to the other. With both faces open the far
// face is open too; with one it is the rind. Low, typical and high follow the
// diffusivity, so near an open face low may stand above high. Errors are
// ProgressError values. Source: Crank, as for CureProgress.
func CureProfile(c Course, elapsed time.Duration, points int) ([]DepthPoint, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if err := checkElapsed(elapsed); err != nil {
		return nil, err
	}
	if err := checkPoints(points); err != nil {
		return nil, err
	}
	clock := newCureClock(c)
	fo := clock.fourier(elapsed)
	out := make([]DepthPoint, points)
	for i := range out {
		share := float64(i) / float64(points-1)
		place := 1 - share // one face open: the rind is at the far side
		if c.Slab.Faces == BothFaces {
			place = math.Abs(1 - 2*share)
		}
		out[i] = DepthPoint{
			Depth: c.Slab.Thickness * Millimetres(share),
			Share: ProgressRange{
				Low:     Percent(100 * max(0, clock.sheet.at(fo.low, place))),
				Typical: Percent(100 * max(0, clock.sheet.at(fo.typical, place))),
				High:    Percent(100 * max(0, clock.sheet.at(fo.high, place))),
			},
		}
	}
	return out, nil
}

func checkPoints(n int) error {
	if n < 2 || n > 2000 {
		return ProgressError{Kind: ProgressBadPoints}
	}
	return nil
}

// CureTime is how long the centre takes to come to a share: quickest for the
// highest diffusivity, longest for the lowest.
type CureTime struct{ Quickest, Typical, Longest time.Duration }

// CureTimeTo finds when the centre comes to a share of its final strength. A
// course that ends frozen, or a share of 100 % and over, is ProgressNever; so is
// anything past a year. Source: Crank, as for CureProgress.
func CureTimeTo(c Course, centre Percent) (CureTime, error) {
	if err := c.check(); err != nil {
		return CureTime{}, err
	}
	if !(centre >= 0 && centre < 100) {
		return CureTime{}, ProgressError{Kind: ProgressNever}
	}
	clock := newCureClock(c)
	find := func(pick func(ProgressRange) Percent) (time.Duration, error) {
		low, high := time.Duration(0), longestCure
		if pick(clock.centre(high)) < centre {
			return 0, ProgressError{Kind: ProgressNever}
		}
		for high-low > time.Second {
			middle := low + (high-low)/2
			if pick(clock.centre(middle)) < centre {
				low = middle
			} else {
				high = middle
			}
		}
		return high, nil
	}
	var t CureTime
	var err error
	if t.Quickest, err = find(func(r ProgressRange) Percent { return r.High }); err != nil {
		return CureTime{}, err
	}
	if t.Typical, err = find(func(r ProgressRange) Percent { return r.Typical }); err != nil {
		return CureTime{}, err
	}
	t.Longest, err = find(func(r ProgressRange) Percent { return r.Low })
	return t, err
}
