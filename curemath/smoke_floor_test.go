package curemath

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// BenchmarkForecastFloor tells how much of the forecast's error no forecaster could
// avoid: at half-way of a smoke it draws many smokes from the very slab and ranges the
// judge draws from, with the belly's thickness and the pit so far given, and takes the
// median finish of those whose cores run like the readings (approximate Bayesian
// computation). It knows what a bot never can, so its error is about the least there
// is; compare it with the second figure, the forecast's own on the same smokes.
func BenchmarkForecastFloor(b *testing.B) {
	const smokes, draws = 30, 1500
	var floor, own []float64
	for b.Loop() {
		floor, own = nil, nil
		random, other := rand.New(rand.NewPCG(2027, 7)), rand.New(rand.NewPCG(99, 98))
		for len(floor) < smokes {
			s := judged().draw(random)
			truth := s.run()
			total, ok := s.reached(truth)
			if !ok {
				continue
			}
			run, seen := firstHalf(judged(), random, s, truth, total)
			if len(seen) < fewestCores {
				continue
			}
			f, err := ForecastSmoke(run)
			if err != nil {
				b.Fatal(err)
			}
			left := total - f.AsOf.Sub(smokeDay).Hours()
			own = append(own, math.Abs(f.Typical.Hours()-left)/left)
			finish := likeliestFinish(judged(), other, s, seen, total/2, draws)
			floor = append(floor, math.Abs(finish-total)/(total/2))
		}
	}
	slices.Sort(floor)
	slices.Sort(own)
	b.ReportMetric(100*floor[len(floor)/2], "%least-error")
	b.ReportMetric(100*own[len(own)/2], "%own-error")
}

// seenCore is a core reading at one of the simulation's half minutes.
type seenCore struct {
	at   int
	temp float64
}

// firstHalf is what was read of a smoke up to half its length.
func firstHalf(p population, random *rand.Rand, s smokehouse, truth []float64, total float64) (SmokeRun, []seenCore) {
	run := SmokeRun{Target: Fahrenheit(s.target), Thickness: Millimetres(2000 * s.half)}
	var seen []seenCore
	cores, pits := p.log(random, s, truth)
	for i, c := range cores {
		hours := c.At.Sub(smokeDay).Hours()
		if hours > total/2 {
			break
		}
		run.Cores, run.Pits = append(run.Cores, c), append(run.Pits, pits[i])
		seen = append(seen, seenCore{int(hours * 3600 / simStep), float64(c.Temp)})
	}
	return run, seen
}

// likeliestFinish is the median finish, in hours, of smokes drawn at random in the
// same pit, weighed by how well their cores fit what was seen up to now.
func likeliestFinish(p population, random *rand.Rand, s smokehouse, seen []seenCore, now float64, draws int) float64 {
	steps := int(now * 3600 / simStep)
	settled := min(int(s.settled*3600/simStep), steps-20)
	level := 0.0
	for _, f := range s.pit[settled:steps] {
		level += f / float64(steps-settled)
	}
	pit := slices.Clone(s.pit)
	for i := steps; i < len(pit); i++ {
		pit[i] = level
	}
	type drawn struct{ misfit, finish float64 }
	var all []drawn
	for range draws {
		q := p.draw(random)
		q.half, q.target, q.start, q.pit = s.half, s.target, s.start, pit
		curve := q.run()
		finish, ok := q.reached(curve)
		if !ok {
			finish = simHours
		}
		if finish <= now {
			continue
		}
		misfit := 0.0
		for _, c := range seen {
			d := curve[min(c.at, len(curve)-1)] - c.temp
			misfit += d * d / float64(len(seen))
		}
		all = append(all, drawn{misfit, finish})
	}
	slices.SortFunc(all, func(a, b drawn) int { return cmp.Compare(a.misfit, b.misfit) })
	best, spread := all[0].misfit, math.Max(all[min(20, len(all)-1)].misfit, 0.3)
	weight := func(d drawn) float64 { return math.Exp(-2 * (d.misfit - best) / spread) }
	sum := 0.0
	for _, d := range all {
		sum += weight(d)
	}
	slices.SortFunc(all, func(a, b drawn) int { return cmp.Compare(a.finish, b.finish) })
	acc := 0.0
	for _, d := range all {
		if acc += weight(d); acc >= sum/2 {
			return d.finish
		}
	}
	return all[len(all)-1].finish
}
