package curemath

import "math"

const (
	pitStep   = 12.0 // °F off the level that make a reading part of another level
	pitMemory = 3.0  // hours over which older readings of a level fade
	pitSwing  = 5.0  // °F, the least a pit is taken to swing
	pitWander = 1.5  // °F, how far its level wanders off over the next hours
)

// lookAhead finds the level the pit has held since it was last set, from
// readings at hours at (the last is the newest), and how unsure that is.
func lookAhead(at, temp []float64) pitOutlook {
	n := len(temp)
	sum, weight, sq := 0.0, 0.0, 0.0
	add := func(i int) {
		w := math.Exp((at[i] - at[n-1]) / pitMemory)
		sum += w * temp[i]
		sq += w * w
		weight += w
	}
	off := func(i int) bool { return math.Abs(temp[i]-sum/weight) > pitStep }
	last := n - 1
	// A single low reading at the end is more likely wood being put on than a new
	// level.
	if n >= 3 && temp[n-2]-temp[n-1] > pitStep && math.Abs(temp[n-2]-temp[n-3]) < pitStep {
		last = n - 2
	}
	add(last)
	first := last
	for i := last - 1; i >= 0; i-- {
		if off(i) && (i == 0 || off(i-1)) {
			break
		}
		add(i)
		first = i
	}
	if last < n-1 {
		add(n - 1)
	}
	level := sum / weight
	spread := 0.0
	for i := first; i < n; i++ {
		w := math.Exp((at[i] - at[n-1]) / pitMemory)
		spread += w * (temp[i] - level) * (temp[i] - level)
	}
	count := weight * weight / sq
	swing := math.Sqrt((spread + 2*pitSwing*pitSwing) / (weight + 2))
	return pitOutlook{level: level, spread: math.Hypot(pitWander, swing/math.Sqrt(count))}
}
