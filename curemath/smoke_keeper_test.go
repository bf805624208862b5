package curemath

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// BenchmarkForecastAfterEarlierSmokes tells what a keeper's earlier smokes would be
// worth to the forecast. Each keeper has one pit (its heat transfer, emissivity,
// vapour and walls stay, all else is drawn anew), finishes five smokes in it and is
// forecast in a sixth. A smoke's parameters are taken as z = u + v, both normal, u
// shared by the smokes of a pit, v the belly's own; every finished smoke's fit tells
// of u, and the sixth is fitted with what is then held likely. How the spread divides
// between the two is found on pits of the wider population and other seeds.
//
// It is kept because it looks like an easy gain and is none, which is why ForecastSmoke
// learns nothing from smoke to smoke. Over 300 keepers the median error at a quarter,
// half and three quarters was 24.6, 17.9 and 14.0 % of what is left in the first smoke,
// 23.2, 17.7 and 15.0 % after three and 21.8, 18.0 and 14.7 % after five. The pit is
// learned (its vapour is known well after five smokes); it is the belly that decides.
func BenchmarkForecastAfterEarlierSmokes(b *testing.B) {
	shares := []float64{0.25, 0.5, 0.75}
	for b.Loop() {
		split := splitSpread(b, finishedFits(b, rand.New(rand.NewPCG(501, 502)), practised(), 150, 4), 40)
		random := rand.New(rand.NewPCG(3001, 77))
		judged := judged()
		table := make(map[int][]judgement)
		for range 150 {
			house := judged.draw(random)
			var seen []smokeTold
			for len(seen) < 5 {
				run, _ := judged.finished(random, house)
				seen = append(seen, told(b, run))
			}
			whole, total := judged.finished(random, house)
			for _, earlier := range []int{0, 1, 3, 5} {
				if table[earlier] == nil {
					table[earlier] = make([]judgement, len(shares))
				}
				prior := split.priorAfter(b, seen[:earlier])
				for k, share := range shares {
					table[earlier][k].add(upTo(whole, share*total), total, prior)
				}
			}
		}
		for _, earlier := range []int{0, 1, 3, 5} {
			line := ""
			for k, j := range table[earlier] {
				line += fmt.Sprintf("; at %2.0f %%: %4.1f %%, range holds %2.0f %% of %d", 100*shares[k], 100*j.median(), 100*j.coverage(), j.n)
			}
			b.Logf("median error after %d smokes%s", earlier, line)
		}
		b.ReportMetric(100*table[0][1].median(), "%median-error-first")
		b.ReportMetric(100*table[3][1].median(), "%median-error-after-3")
	}
}

// finished draws a smoke in a keeper's pit that comes to its target.
func (p population) finished(r *rand.Rand, pit smokehouse) (SmokeRun, float64) {
	for {
		s := p.draw(r)
		s.convect, s.emit, s.vapour, s.wall = pit.convect, pit.emit, pit.vapour, pit.wall
		truth := s.run()
		total, ok := s.reached(truth)
		if !ok || float64(len(truth))*simStep/3600 > smokeHorizon {
			continue
		}
		cores, pits := p.log(r, s, truth)
		if len(cores) >= 6 {
			return SmokeRun{Cores: cores, Pits: pits, Target: Fahrenheit(s.target), Thickness: Millimetres(2000 * s.half)}, total
		}
	}
}

// upTo is a run as far as it was read by an hour.
func upTo(whole SmokeRun, hour float64) SmokeRun {
	n := 0
	for n < len(whole.Cores) && whole.Cores[n].At.Sub(smokeDay).Hours() <= hour {
		n++
	}
	whole.Cores, whole.Pits = whole.Cores[:n], whole.Pits[:n]
	return whole
}

// add judges a forecast made with a prior of its own.
func (j *judgement) add(run SmokeRun, total float64, prior *smokePrior) {
	if len(run.Cores) == 0 {
		return
	}
	d, pit, ok := prepare(run)
	if !ok {
		return
	}
	d.prior = prior
	var f SmokeForecast
	if fits := fitSmoke(d); len(fits) > 0 {
		f.spread(drawFutures(d, fits, pit, float64(run.Target), widenFit))
	}
	left := total - run.Cores[len(run.Cores)-1].At.Sub(smokeDay).Hours()
	j.n++
	if f.Typical == 0 {
		j.errs = append(j.errs, 1)
		return
	}
	j.errs = append(j.errs, math.Abs(f.Typical.Hours()-left)/left)
	if f.Low.Hours() <= left && left <= f.High.Hours() {
		j.inside++
	}
}

// smokeTold is what the readings of a smoke alone, without the prior, say of its
// parameters: a normal likelihood of precision info and mean info⁻¹·pull.
type smokeTold struct {
	info *mat.SymDense
	pull *mat.VecDense
}

func told(tb testing.TB, run SmokeRun) smokeTold {
	tb.Helper()
	d, _, ok := prepare(run)
	if !ok {
		tb.Fatal("a whole smoke cannot be prepared")
	}
	fits := fitSmoke(d)
	if len(fits) == 0 {
		tb.Fatal("a whole smoke cannot be fitted")
	}
	best := fits[0]
	for _, f := range fits[1:] {
		if f.loss+f.spread.LogDet()/2 < best.loss+best.spread.LogDet()/2 {
			best = f
		}
	}
	var info mat.SymDense
	best.spread.ToSym(&info)
	var pull mat.VecDense
	pull.MulVec(&info, mat.NewVecDense(smokeDim, best.best[:]))
	for i := range smokeDim { // the prior's own part
		info.SetSym(i, i, info.At(i, i)-1)
	}
	return smokeTold{&info, &pull}
}

func finishedFits(tb testing.TB, r *rand.Rand, p population, pits, smokes int) [][]smokeTold {
	out := make([][]smokeTold, pits)
	for i := range out {
		pit := p.draw(r)
		for range smokes {
			run, _ := p.finished(r, pit)
			out[i] = append(out[i], told(tb, run))
		}
	}
	return out
}
