package curemath

import "math"

// Scale steps: what a person can read off. Curing mix goes to a tenth of a gram,
// to a hundredth where a tenth would be too coarse.
const (
	tenth      Grams = 0.1
	hundredth  Grams = 0.01
	wholeGram  Grams = 1
	smallPiece Grams = 500
	// coarse is the largest share of a dose that one scale step may be.
	coarse = 0.05
)

// noise is far above what the arithmetic can be off by and far below what a
// scale can show: 1.92 held as 1.9199999999999999 must not go down to 1.91.
const noise = 1e-7

// perGram is the number of steps in a gram, an exact whole number, so that
// rounding multiplies and divides by integers and 4.3 comes out as 4.3.
func perGram(step Grams) float64 { return math.Round(1 / float64(step)) }

// roundDown gives the largest multiple of the step that is not above g.
func roundDown(g, step Grams) Grams {
	n := perGram(step)
	return Grams(math.Floor(float64(g)*n+noise) / n)
}

// roundNear gives the nearest multiple of the step.
func roundNear(g, step Grams) Grams {
	n := perGram(step)
	return Grams(math.Round(float64(g)*n) / n)
}

// mixStep is the scale step for a dose of curing mix on a piece: 0.1 g, and
// 0.01 g under 500 g of meat or where 0.1 g would be more than a twentieth of
// the dose.
func mixStep(dose, meat Grams) Grams {
	if meat < smallPiece || tenth > dose*coarse {
		return hundredth
	}
	return tenth
}

// coarseStep is the step for salt and sugar, which nobody is hurt by: 1 g, and
// 0.1 g for a small piece.
func coarseStep(meat Grams) Grams {
	if meat < smallPiece {
		return tenth
	}
	return wholeGram
}
