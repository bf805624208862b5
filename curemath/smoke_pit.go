package curemath

import "math"

const (
	pitStep   = 12.0 // °F off the level that make a reading part of another level
	pitGone   = 30.0 // °F under the level that are no dip any more
	pitMemory = 3.0  // hours over which older readings of a level fade
	pitSwing  = 5.0  // °F, the least a pit is taken to swing
	pitWander = 1.5  // °F, how far its level wanders off over the next hours
)

// lookAhead finds the level the pit has held since it was last set, from
// readings at hours at (the last is the newest), and how unsure that is.
func lookAhead(at, temp []float64) pitOutlook {
	n := len(temp)
	sum, weight, sq := 0.0, 0.0, 0.0
	var used []int
	fade := func(i int) float64 { return math.Exp((at[i] - at[n-1]) / pitMemory) }
	add := func(i int) {
		w := fade(i)
		sum += w * temp[i]
		sq += w * w
		weight += w
		used = append(used, i)
	}
	off := func(i int) bool { return math.Abs(temp[i]-sum/weight) > pitStep }
	gone := func(i int) bool { return sum/weight-temp[i] > pitGone }
	last := n - 1
	// A single reading somewhat low at the end is more likely wood being put on than a
	// new level.
	if n >= 3 && math.Abs(temp[n-2]-temp[n-3]) < pitStep {
		if fell := temp[n-2] - temp[n-1]; fell > pitStep && fell <= pitGone {
			last = n - 2
		}
	}
	add(last)
	for i := last - 1; i >= 0; i-- {
		if off(i) && (i == 0 || off(i-1)) {
			break
		}
		if !gone(i) { // a fire that went out and burns again says nothing of its level
			add(i)
		}
	}
	if last < n-1 {
		add(n - 1)
	}
	level := sum / weight
	spread := 0.0
	for _, i := range used {
		spread += fade(i) * (temp[i] - level) * (temp[i] - level)
	}
	count := weight * weight / sq
	swing := math.Sqrt((spread + 2*pitSwing*pitSwing) / (weight + 2))
	return pitOutlook{level: level, spread: math.Hypot(pitWander, swing/math.Sqrt(count))}
}
