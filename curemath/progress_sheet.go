package curemath

import "math"

// A sheet is the shape of one diffusion problem in a plane sheet, in
// dimensionless form. The Fourier number fo is D·t ÷ l², where l is half the
// thickness with both faces open and the whole thickness with one face sealed.
// The place x runs from 0 (mid-plane, or the sealed face) to 1 (the open face).
// Every answer is a share of the final, even state: 1 is "where it will end".
//
// Source of all three shapes: Crank, The Mathematics of Diffusion, 2nd edition
// (1975), plane sheet: constant surface concentration, diffusion from a
// well-stirred solution of limited volume, and the reflected instantaneous
// source.
type sheet interface {
	// at is the concentration at place x.
	at(fo, x float64) float64
	// mean is the average over the thickness, which is also the uptake so far.
	mean(fo float64) float64
}

// shortTime is the Fourier number below which the short-time forms (images) are
// used: the series in exponentials converges slowly there, the images at once.
const shortTime = 0.05

// negligible is the exponent past which exp(-x) no longer moves a double.
const negligible = 40

// constantSheet is model A: the surface stands at its final strength from the
// start, as under a large brine.
type constantSheet struct{}

func (constantSheet) at(fo, x float64) float64 {
	if fo <= 0 {
		return 0
	}
	sum, sign := 0.0, 1.0
	if fo < shortTime {
		root := 2 * math.Sqrt(fo)
		for n := 0; n < 8; n++ {
			odd := float64(2*n + 1)
			sum += sign * (math.Erfc((odd-x)/root) + math.Erfc((odd+x)/root))
			sign = -sign
		}
		return sum
	}
	for n := 0; ; n++ {
		odd := float64(2*n + 1)
		decay := odd * odd * math.Pi * math.Pi * fo / 4
		if !(decay <= negligible) {
			return 1 - 4/math.Pi*sum
		}
		sum += sign / odd * math.Exp(-decay) * math.Cos(odd*math.Pi*x/2)
		sign = -sign
	}
}

func (constantSheet) mean(fo float64) float64 {
	if fo <= 0 {
		return 0
	}
	sum, sign := 0.0, -1.0
	if fo < shortTime {
		for n := 1; n < 8; n++ {
			sum += sign * erfcIntegral(float64(n)/math.Sqrt(fo))
			sign = -sign
		}
		return 2 * math.Sqrt(fo) * (1/math.Sqrt(math.Pi) + 2*sum)
	}
	for n := 0; ; n++ {
		odd := float64(2*n + 1)
		decay := odd * odd * math.Pi * math.Pi * fo / 4
		if !(decay <= negligible) {
			return 1 - sum
		}
		sum += 8 / (odd * odd * math.Pi * math.Pi) * math.Exp(-decay)
	}
}

// erfcIntegral is ierfc, the integral of erfc from z to infinity.
func erfcIntegral(z float64) float64 {
	return math.Exp(-z*z)/math.Sqrt(math.Pi) - z*math.Erfc(z)
}

// doseSheet is model C: the whole weighed dose lies on the open faces at the
// start and nothing leaves, as in a tight bag. Its surface starts without bound
// and falls to 1.
type doseSheet struct{}

func (doseSheet) at(fo, x float64) float64 {
	if fo <= 0 {
		return 0
	}
	sum := 0.0
	if fo < shortTime {
		for n := -8; n <= 8; n++ {
			gap := float64(2*n+1) - x
			sum += math.Exp(-gap * gap / (4 * fo))
		}
		return sum / math.Sqrt(math.Pi*fo)
	}
	sign := -1.0
	for n := 1; ; n++ {
		decay := float64(n*n) * math.Pi * math.Pi * fo
		if !(decay <= negligible) {
			return 1 + 2*sum
		}
		sum += sign * math.Exp(-decay) * math.Cos(float64(n)*math.Pi*x)
		sign = -sign
	}
}

// mean is 1 from the start: in this shape the dose counts as inside the slab as
// soon as it touches it.
func (doseSheet) mean(fo float64) float64 {
	if fo < 0 {
		return 0
	}
	return 1
}
