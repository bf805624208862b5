package curemath

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/mat"
)

const (
	// smokeSamples is how many futures are drawn for a range.
	smokeSamples = 96
	// smokeHorizon is how far ahead they are followed, in hours.
	smokeHorizon = 36.0
	// widenFit is how much wider than the fit says the parameters are drawn: the
	// model is simpler than meat. Set on simulated smokes other than those it is
	// judged on.
	widenFit = 1.2
	// lowShare and highShare are the ends of the range.
	lowShare, highShare = 0.10, 0.90
)

// drawFutures follows the slab into the future for sets of parameters drawn around
// the fits and pit levels drawn around the recent one, and gives the hours until the
// target in order, +Inf past the horizon. The draw is always the same for the same
// readings.
func drawFutures(d *smokeData, fits []smokeFit, pit pitOutlook, target, widen float64) []float64 {
	random := rand.New(rand.NewPCG(0x51ab, 0xc04e))
	uppers := make([]mat.TriDense, len(fits))
	upTo := make([]float64, len(fits))
	total := 0.0
	for i, share := range evidence(fits) {
		fits[i].spread.UTo(&uppers[i])
		total += share
		upTo[i] = total
	}
	out := make([]float64, smokeSamples)
	predicted := make([]float64, len(d.at))
	var z [smokeDim]float64
	for k := range out {
		sign := 1.0
		if k%2 == 1 { // each draw and its mirror image: fewer draws say as much
			sign = -1
		} else {
			for i := range z {
				z[i] = random.NormFloat64()
			}
		}
		which, u := 0, (float64(k/2)+0.5)/float64(smokeSamples/2)*total
		for which < len(fits)-1 && upTo[which] < u {
			which++
		}
		// x = best + U⁻¹ z has the inverse information as its covariance.
		var step mat.VecDense
		if err := step.SolveVec(&uppers[which], mat.NewVecDense(smokeDim, slices.Clone(z[:]))); err != nil {
			step = *mat.NewVecDense(smokeDim, nil)
		}
		p := fits[which].best
		for i := range p {
			p[i] = min(max(p[i]+sign*widen*step.AtVec(i), -4), 4)
		}
		level := pit.level + pit.spread*random.NormFloat64()
		m, state := d.follow(&p, predicted)
		shift := anchor(d, predicted)
		for i := range state.temp {
			state.temp[i] += shift
		}
		out[k] = m.ahead(state, d.pit[len(d.pit)-1], level, target)
	}
	slices.Sort(out)
	return out
}

// evidence is how likely each fit is against the others; a fit that is the same as
// one before it counts for nothing.
func evidence(fits []smokeFit) []float64 {
	out := make([]float64, len(fits))
	best := math.Inf(-1)
	for i, f := range fits {
		out[i] = -f.loss - f.spread.LogDet()/2
		for j := range fits[:i] {
			apart := 0.0
			for k := range f.best {
				apart += math.Abs(f.best[k] - fits[j].best[k])
			}
			if apart < 0.3 {
				out[i] = math.Inf(-1)
			}
		}
		best = math.Max(best, out[i])
	}
	for i := range out {
		out[i] = math.Exp(out[i] - best)
	}
	return out
}

// anchor is how far the model misses the last readings, which the future starts
// from: recent ones count more.
func anchor(d *smokeData, predicted []float64) float64 {
	now := float64(len(d.pit)-1) * stepHours
	sum, weight := 0.0, 0.0
	for i, t := range d.at {
		w := math.Exp((t - now) / 0.5)
		sum += w * (d.core[i] - predicted[i])
		weight += w
	}
	return sum / weight
}

// ahead follows the model from a state with the pit going to a level, and gives the
// hours until the core is at its target, or +Inf past the horizon.
func (m slabModel) ahead(s slabState, pit, level, target float64) float64 {
	settle := math.Exp(-stepHours / 0.5)
	for t := 0.0; t < smokeHorizon; t += stepHours {
		before := s.core()
		next := level + (pit-level)*settle
		m.step(&s, (pit+next)/2)
		pit = next
		if now := s.core(); now >= target && now > before {
			return t + stepHours*min(1, max(0, (target-before)/(now-before)))
		}
	}
	return math.Inf(1)
}

// pitOutlook is the level the pit is expected to hold and how unsure that is.
type pitOutlook struct{ level, spread float64 }
