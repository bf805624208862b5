package curemath

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

const (
	floorSmokes = 20
	floorDraws  = 900
	// floorNearest of the draws are what the least error is taken from.
	floorNearest = 200
	// floorGroups is how many groups the readings seen are put in, in order of time.
	floorGroups = 10
	// floorAhead is how far ahead draws are followed, in hours.
	floorAhead = 14
	// roundingNoise is the spread of a reading rounded to a degree.
	roundingNoise = 0.29
)

// BenchmarkForecastFloor tells how much of the forecast's error no forecaster could
// avoid: at half-way of a smoke it draws many smokes from the very slab and ranges the
// judge draws from, with the belly's thickness and the pit's air so far given, and takes
// the median finish of those whose cores run like the readings. It knows what a bot never
// can, so its error is about the least there is; compare it with the forecast's own on
// the same smokes. A third figure is the least error where the pit's heat transfer,
// emissivity, vapour and walls are known too, as from any number of earlier smokes in
// it. With so few smokes each is good to about six points.
func BenchmarkForecastFloor(b *testing.B) {
	var floor, known, own []float64
	for b.Loop() {
		floor, known, own = nil, nil, nil
		random, other := rand.New(rand.NewPCG(2027, 7)), rand.New(rand.NewPCG(99, 98))
		for len(floor) < floorSmokes {
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
			miss := func(pitKnown bool) float64 {
				finish := likeliestFinish(judged(), other, s, pitKnown, seen, total/2)
				return math.Abs(finish-total) / (total / 2)
			}
			floor, known = append(floor, miss(false)), append(known, miss(true))
		}
	}
	b.ReportMetric(100*median(floor), "%least-error")
	b.ReportMetric(100*median(known), "%least-error-pit-known")
	b.ReportMetric(100*median(own), "%own-error")
}

func median(x []float64) float64 {
	x = slices.Clone(x)
	slices.Sort(x)
	return x[len(x)/2]
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

// pitAsSeen is the pit's air up to now and then at the level it has held since it
// settled.
func pitAsSeen(s smokehouse, now float64) []float64 {
	steps := int(now * 3600 / simStep)
	settled := min(int(s.settled*3600/simStep), steps-20)
	level := 0.0
	for _, f := range s.pit[settled:steps] {
		level += f / float64(steps-settled)
	}
	pit := slices.Clone(s.pit[:min(steps+floorAhead*3600/simStep, len(s.pit))])
	for i := steps; i < len(pit); i++ {
		pit[i] = level
	}
	return pit
}

// drawnSmoke is a smoke drawn at random against one that was seen.
type drawnSmoke struct {
	misses []float64 // °F it is off the readings, by groups in order of time
	weight float64
	left   float64 // logarithm of the hours left
}

// likeliestFinish is the median finish, in hours, of smokes drawn at random in the same
// air. The nearest to what was seen count, each corrected for what it still misses by
// (approximate Bayesian computation with regression adjustment: Beaumont, Zhang and
// Balding 2002, from memory).
func likeliestFinish(p population, random *rand.Rand, s smokehouse, pitKnown bool, seen []seenCore, now float64) float64 {
	pit := pitAsSeen(s, now)
	all := make([]drawnSmoke, floorDraws)
	for i := range all {
		q := p.draw(random)
		q.half, q.target, q.start, q.pit = s.half, s.target, s.start, pit
		if pitKnown {
			q.convect, q.emit, q.vapour, q.wall = s.convect, s.emit, s.vapour, s.wall
		}
		curve := q.run()
		finish, ok := q.reached(curve)
		if !ok {
			finish = float64(len(pit)) * simStep / 3600
		}
		d := &all[i]
		// One that was done before now is far from the readings; it only needs a
		// logarithm.
		d.left = math.Log(math.Max(finish-now, simStep/3600))
		d.misses = make([]float64, min(floorGroups, len(seen)))
		for g := range d.misses {
			from, to := g*len(seen)/len(d.misses), (g+1)*len(seen)/len(d.misses)
			for _, c := range seen[from:to] {
				read := curve[min(c.at, len(curve)-1)] + math.Hypot(p.coreNoise, roundingNoise)*random.NormFloat64()
				d.misses[g] += (read - c.temp) / float64(to-from)
			}
			d.weight += d.misses[g] * d.misses[g]
		}
	}
	slices.SortFunc(all, func(a, b drawnSmoke) int { return cmp.Compare(a.weight, b.weight) })
	reach := all[floorNearest].weight
	all = all[:floorNearest]
	for i := range all {
		all[i].weight = 1 - all[i].weight/reach
	}
	adjust(all)
	slices.SortFunc(all, func(a, b drawnSmoke) int { return cmp.Compare(a.left, b.left) })
	sum, acc := 0.0, 0.0
	for _, d := range all {
		sum += d.weight
	}
	i := 0
	for acc = all[0].weight; acc < sum/2; acc += all[i].weight {
		i++
	}
	return now + math.Exp(all[i].left)
}

// adjust takes from each draw's time left what a weighed linear regression lays to its
// misses; a small ridge holds groups that run together.
func adjust(all []drawnSmoke) {
	n := len(all[0].misses) + 1
	normal, right := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for j := 1; j < n; j++ {
		normal.SetSym(j, j, 1)
	}
	for _, d := range all {
		row := mat.NewVecDense(n, append([]float64{1}, d.misses...))
		normal.SymRankOne(normal, d.weight, row)
		right.AddScaledVec(right, d.weight*d.left, row)
	}
	var slope mat.VecDense
	if slope.SolveVec(normal, right) != nil {
		return
	}
	for i, d := range all {
		for j, m := range d.misses {
			all[i].left -= slope.AtVec(j+1) * m
		}
	}
}
