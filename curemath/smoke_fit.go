package curemath

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
)

// What is fitted. Each is a normal variable with the prior's middle and spread; the
// first seven are logarithms, the last two °F.
const (
	atSpread = iota
	atTake
	atWet
	atSupply
	atStore
	atDrop
	atVapour
	atBias
	atStart
	smokeDim
)

type smokeParams [smokeDim]float64

// smokePrior is what is held likely before any reading: x = middle + scale·z with z
// standard normal and scale lower triangular.
type smokePrior struct {
	middle smokeParams
	scale  [smokeDim]smokeParams
}

// values gives the physical parameters of standard ones.
func (pr *smokePrior) values(z *smokeParams) smokeParams {
	x := pr.middle
	for i := range x {
		for j := 0; j <= i; j++ {
			x[i] += pr.scale[i][j] * z[j]
		}
	}
	return x
}

// model unpacks parameters; the bounds keep a wild step of the search in a range
// where the figures mean something.
func (d *smokeData) model(z *smokeParams) slabModel {
	x := d.prior.values(z)
	value := func(i int, low, high float64) float64 { return min(max(math.Exp(x[i]), low), high) }
	return slabModel{
		half:   d.half,
		spread: value(atSpread, 5e-5, 5e-3),
		take:   value(atTake, 3, 300),
		wet:    value(atWet, 1e-3, 2),
		supply: value(atSupply, 0.02, 2000),
		store:  value(atStore, 2, 2000),
		drop:   value(atDrop, 0.01, 50),
		vapour: value(atVapour, 300, 12000),
		bias:   min(max(x[atBias], -30), 30),
	}
}

// smokeData is a smoke prepared for the fit: times in hours from the first core
// reading, temperatures in °F.
type smokeData struct {
	at, core []float64
	pit      pitTrack
	half     float64 // m
	prior    *smokePrior
}

func (d *smokeData) start(z *smokeParams) slabState {
	var s slabState
	inner := d.core[0]
	outer := inner + d.prior.values(z)[atStart]
	for i := range s.temp {
		share := (float64(i) + 0.5) / slabCells
		s.temp[i] = inner + (outer-inner)*share*share
	}
	return s
}

// follow runs the model along the measured pit and gives what the core readings
// would have been, and the state at the end.
func (d *smokeData) follow(z *smokeParams, out []float64) (slabModel, slabState) {
	m, s := d.model(z), d.start(z)
	next := 0
	for i := 0; i+1 < len(d.pit); i++ {
		before, t := s.core(), float64(i)*stepHours
		m.step(&s, (d.pit[i]+d.pit[i+1])/2)
		for next < len(d.at) && d.at[next] <= t+stepHours {
			out[next] = before + (s.core()-before)*max(d.at[next]-t, 0)/stepHours
			next++
		}
	}
	for ; next < len(d.at); next++ {
		out[next] = s.core()
	}
	return m, s
}

// smokeFit is a best set of parameters and how sure it is.
type smokeFit struct {
	loss   float64
	best   smokeParams
	spread *mat.Cholesky // of the information matrix at the best set
}

// startStores are where the search begins along the least certain of the
// parameters: a plateau may be yet to come or be over.
var startStores = [...]float64{-1.2, 1.2}

// fitSmoke finds parameters by nonlinear least squares with the prior as further
// residuals: Newton's method of gonum/optimize on the Gauss–Newton matrix, whose
// derivatives are finite differences.
func fitSmoke(d *smokeData) []smokeFit {
	n := len(d.at)
	rows := n + smokeDim
	residuals := func(z *smokeParams, out []float64) {
		d.follow(z, out[:n])
		for i := range n {
			out[i] = (out[i] - d.core[i]) / readingNoise
		}
		copy(out[n:], z[:])
	}
	base, moved := make([]float64, rows), make([]float64, rows)
	jac := mat.NewDense(rows, smokeDim, nil)
	var at smokeParams
	fresh := false
	linearise := func(x []float64) {
		if fresh && smokeParams(x) == at {
			return
		}
		at, fresh = smokeParams(x), true
		residuals(&at, base)
		const h = 1e-3
		for j := range smokeDim {
			q := at
			q[j] += h
			residuals(&q, moved)
			for i := range rows {
				jac.Set(i, j, (moved[i]-base[i])/h)
			}
		}
	}
	problem := optimize.Problem{
		Func: func(x []float64) float64 {
			z := smokeParams(x)
			residuals(&z, moved)
			sum := 0.0
			for _, r := range moved {
				sum += r * r
			}
			return sum / 2
		},
		Grad: func(grad, x []float64) {
			linearise(x)
			mat.NewVecDense(smokeDim, grad).MulVec(jac.T(), mat.NewVecDense(rows, base))
		},
		Hess: func(h *mat.SymDense, x []float64) {
			linearise(x)
			h.SymOuterK(1, jac.T())
		},
	}
	settings := optimize.Settings{
		MajorIterations:   14,
		GradientThreshold: 1e-3,
		Converger:         &optimize.FunctionConverge{Absolute: 1e-2, Iterations: 2},
	}
	var fits []smokeFit
	for _, store := range startStores {
		x := make([]float64, smokeDim)
		x[atStore] = store
		fresh = false
		result, err := optimize.Minimize(problem, x, &settings, &optimize.Newton{Linesearcher: &optimize.Backtracking{}})
		if result == nil || len(result.X) != smokeDim || (err != nil && math.IsNaN(result.F)) {
			continue
		}
		fit := smokeFit{best: smokeParams(result.X), loss: result.F}
		fresh = false
		linearise(result.X)
		var info mat.SymDense
		info.SymOuterK(1, jac.T())
		fit.spread = new(mat.Cholesky)
		if fit.spread.Factorize(&info) {
			fits = append(fits, fit)
		}
	}
	return fits
}
