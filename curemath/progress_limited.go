package curemath

import "math"

// limitedSheet is model B: a stirred brine of limited volume that weakens as the
// slab takes up its salt. alpha is the salt-holding volume of the brine over
// that of the slab, so the slab ends with 1 ÷ (1 + alpha) of all the salt.
//
// Crank, The Mathematics of Diffusion, 2nd edition (1975), plane sheet in a
// well-stirred solution of limited volume: q are the positive roots of
// tan q = −alpha·q.
type limitedSheet struct {
	alpha float64
	modes []limitedMode
}

// limitedMode is one term of the series: amplitude in place and in the mean.
type limitedMode struct {
	q, atFace, inMean float64
}

// limitedShort is the Fourier number below which the sheet still looks endless
// from its face (the far side holds less than 1e-60 of the final strength).
const limitedShort = 0.0015

func newLimitedSheet(alpha float64) limitedSheet {
	s := limitedSheet{alpha: alpha}
	for n := 1; ; n++ {
		q := limitedRoot(alpha, n)
		if q*q*limitedShort > negligible {
			return s
		}
		weight := 2 * (1 + alpha) / (1 + alpha + alpha*alpha*q*q)
		s.modes = append(s.modes, limitedMode{
			q:      q,
			atFace: weight / math.Cos(q),
			inMean: weight * alpha,
		})
	}
}

// limitedRoot finds the nth positive root of tan q = −alpha·q, which lies
// between (n − ½)π and nπ. It solves sin q + alpha·q·cos q = 0, the same roots
// without the poles, by Newton steps kept inside the bracket.
func limitedRoot(alpha float64, n int) float64 {
	low, high := (float64(n)-0.5)*math.Pi, float64(n)*math.Pi
	rising := n%2 == 0 // sign of the function at the upper end
	q := (low + high) / 2
	for range 80 {
		sin, cos := math.Sincos(q)
		value := sin + alpha*q*cos
		if (value > 0) == rising {
			high = q
		} else {
			low = q
		}
		next := q - value/((1+alpha)*cos-alpha*q*sin)
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-q) < 1e-15*q {
			return next
		}
		q = next
	}
	return q
}

func (s limitedSheet) at(fo, x float64) float64 {
	if fo <= 0 {
		if x == 1 {
			return (1 + s.alpha) / s.alpha
		}
		return 0
	}
	if fo < limitedShort {
		return (1 + s.alpha) / s.alpha * s.fromFace(fo, 1-x)
	}
	sum := 1.0
	for _, m := range s.modes {
		decay := m.q * m.q * fo
		if decay > negligible {
			break
		}
		sum += m.atFace * math.Exp(-decay) * math.Cos(m.q*x)
	}
	return sum
}

func (s limitedSheet) mean(fo float64) float64 {
	if fo <= 0 {
		return 0
	}
	if fo < limitedShort {
		return (1 + s.alpha) * (1 - s.fromFace(fo, 0))
	}
	sum := 1.0
	for _, m := range s.modes {
		decay := m.q * m.q * fo
		if decay > negligible {
			break
		}
		sum -= m.inMean * math.Exp(-decay)
	}
	return sum
}

// fromFace is the share of the starting brine strength at depth d under the face
// while the far side is still untouched: exp(h·d + h²·fo)·erfc(d/2√fo + h√fo)
// with h = 1/alpha (Crank, the semi-infinite medium with a surface condition of
// the same form).
func (s limitedSheet) fromFace(fo, d float64) float64 {
	h := 1 / s.alpha
	return math.Exp(h*d+h*h*fo) * math.Erfc(d/(2*math.Sqrt(fo))+h*math.Sqrt(fo))
}
