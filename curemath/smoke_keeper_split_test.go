package curemath

import (
	"testing"

	"gonum.org/v1/gonum/mat"
)

// spreadSplit is the covariance, in standard parameters, of what the smokes of a pit
// share and of what each has of its own; together they are the identity.
type spreadSplit struct{ shared, own *mat.SymDense }

// symmetric is the symmetric part of a square matrix.
func symmetric(a mat.Matrix) *mat.SymDense {
	n, _ := a.Dims()
	out := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			out.SetSym(i, j, (a.At(i, j)+a.At(j, i))/2)
		}
	}
	return out
}

// sandwich is m·a·mᵀ.
func sandwich(m mat.Matrix, a mat.Symmetric) *mat.SymDense {
	var left, out mat.Dense
	left.Mul(m, a)
	out.Mul(&left, m.T())
	return symmetric(&out)
}

func inverse(tb testing.TB, a mat.Symmetric) *mat.SymDense {
	tb.Helper()
	var c mat.Cholesky
	var out mat.SymDense
	if !c.Factorize(a) || c.InverseTo(&out) != nil {
		tb.Fatal("a covariance has no inverse")
	}
	return &out
}

// pit is the mean and covariance of what the smokes of a pit share, after some.
func (s spreadSplit) pit(tb testing.TB, seen []smokeTold) (*mat.VecDense, *mat.SymDense) {
	tb.Helper()
	info, pull := inverse(tb, s.shared), mat.NewVecDense(smokeDim, nil)
	own := inverse(tb, s.own)
	for _, e := range seen {
		// The belly's own part is integrated out: info − info·(info+own)⁻¹·info.
		var sum mat.SymDense
		var gain, taken mat.Dense
		var pulled mat.VecDense
		sum.AddSym(e.info, own)
		gain.Mul(e.info, inverse(tb, &sum))
		taken.Mul(&gain, e.info)
		taken.Sub(e.info, &taken)
		info.AddSym(info, symmetric(&taken))
		pulled.MulVec(&gain, e.pull)
		pulled.SubVec(e.pull, &pulled)
		pull.AddVec(pull, &pulled)
	}
	cov := inverse(tb, info)
	mean := mat.NewVecDense(smokeDim, nil)
	mean.MulVec(cov, pull)
	return mean, cov
}

// priorAfter is the prior of the next smoke in a pit.
func (s spreadSplit) priorAfter(tb testing.TB, seen []smokeTold) *smokePrior {
	tb.Helper()
	mean, cov := s.pit(tb, seen)
	cov.AddSym(cov, s.own)
	var c mat.Cholesky
	if !c.Factorize(cov) {
		tb.Fatal("a prior has no root")
	}
	var root mat.TriDense
	c.LTo(&root)
	before := beforeReadings()
	after := &smokePrior{middle: before.values((*smokeParams)(mean.RawVector().Data))}
	for i := range smokeDim {
		for j := 0; j <= i; j++ {
			for k := j; k <= i; k++ {
				after.scale[i][j] += before.scale[i][k] * root.At(k, j)
			}
		}
	}
	return after
}

// splitSpread finds the split that makes the smokes told of likeliest, by expectation
// and maximisation, and scales it so that the whole is the identity.
func splitSpread(tb testing.TB, pits [][]smokeTold, rounds int) spreadSplit {
	tb.Helper()
	diagonal := func(v float64) *mat.SymDense {
		out := mat.NewSymDense(smokeDim, nil)
		for i := range smokeDim {
			out.SetSym(i, i, v)
		}
		return out
	}
	split := spreadSplit{diagonal(0.5), diagonal(0.5)}
	for range rounds {
		next, smokes := spreadSplit{diagonal(0), diagonal(0)}, 0.0
		own := inverse(tb, split.own)
		for _, seen := range pits {
			mean, cov := split.pit(tb, seen)
			next.shared.AddSym(next.shared, cov)
			next.shared.SymRankOne(next.shared, 1, mean)
			for _, e := range seen {
				var sum mat.SymDense
				var gain mat.Dense
				var rest, v mat.VecDense
				sum.AddSym(e.info, own)
				spread := inverse(tb, &sum)
				rest.MulVec(e.info, mean)
				rest.SubVec(e.pull, &rest)
				v.MulVec(spread, &rest)
				gain.Mul(spread, e.info)
				next.own.AddSym(next.own, spread)
				next.own.AddSym(next.own, sandwich(&gain, cov))
				next.own.SymRankOne(next.own, 1, &v)
				smokes++
			}
		}
		next.shared.ScaleSym(1/float64(len(pits)), next.shared)
		next.own.ScaleSym(1/smokes, next.own)
		next.shared.AddSym(next.shared, diagonal(1e-4)) // no direction is quite without
		split = next
	}
	var whole, root mat.SymDense
	whole.AddSym(split.shared, split.own)
	if err := root.PowPSD(&whole, -0.5); err != nil {
		tb.Fatal(err)
	}
	return spreadSplit{sandwich(&root, split.shared), sandwich(&root, split.own)}
}
