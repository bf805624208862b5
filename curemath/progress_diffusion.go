package curemath

import "math"

// diffusivity is a range of salt diffusion coefficients in m²/s.
type diffusivity struct{ low, typical, high float64 }

// saltInLean is salt in lean pork at fridge temperature: 1 to 4 × 10⁻¹⁰ m²/s,
// middle 2.5. From memory, scaled down from the 3–7 × 10⁻¹⁰ of warmer published
// work (Meat Science 80 (2008) 851–856, abstract, second-hand).
func saltInLean() diffusivity { return diffusivity{low: 1e-10, typical: 2.5e-10, high: 4e-10} }

const (
	// diffusionReference is the middle of the 2–5 °C that saltInLean stands for.
	diffusionReference Celsius = 3.5
	// diffusionActivation in J/mol is the one published for nitrate across the
	// fibre in pork (J. Food Eng. 214 (2017) 69–78, abstract: 24.7 kJ/mol), used
	// for salt for want of a figure of its own: from memory.
	diffusionActivation = 24700.0
	gasConstant         = 8.314462618 // J/(mol·K), exact in the SI since 2019
	kelvinOffset        = 273.15

	// Salt in back fat moves several to ten times slower than in lean: from
	// memory, no published figure at hand.
	fatSlowingTypical = 3.0
	fatSlowingMost    = 10.0
)

// warmed scales the range to another temperature by Arrhenius' law.
func (d diffusivity) warmed(t Celsius) diffusivity {
	here, there := float64(t)+kelvinOffset, float64(diffusionReference)+kelvinOffset
	f := math.Exp(-diffusionActivation / gasConstant * (1/here - 1/there))
	return diffusivity{d.low * f, d.typical * f, d.high * f}
}

// throughFat slows the range for a share of fat in the slab. Belly lies in
// layers along its face, so lean and fat resist one after the other and their
// resistances add (layers in series). At the quick end the salt is let around
// the fat through the lean streaks, side by side. The spread of the slowing and
// the spread of the lean figure are independent, so they join as the root of
// the sum of squares of their logarithms.
func (d diffusivity) throughFat(fat Percent) diffusivity {
	share := fat.Proportion()
	series := func(slowing float64) float64 { return 1 / (1 - share + share*slowing) }
	beside := 1 - share + share/fatSlowingTypical

	middle := series(fatSlowingTypical)
	down := math.Hypot(math.Log(d.typical/d.low), math.Log(middle/series(fatSlowingMost)))
	up := math.Hypot(math.Log(d.high/d.typical), math.Log(beside/middle))
	typical := d.typical * middle
	return diffusivity{typical * math.Exp(-down), typical, typical * math.Exp(up)}
}
