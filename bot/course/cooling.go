package course

import (
	"time"

	"larderhand/curemath"
)

// lastOfSmoke is how far back before it came out of the smoke a piece's readings
// help to place the start of its cooling: our own choice, common practice, no source.
const lastOfSmoke = 2 * time.Hour

// CoolingOf holds a piece's readings since it came out of the smoke to the cooling
// rule for its cure. With no reading since, and none shortly before, ok is false.
//
// A failure stands until one of the readings that showed it is struck out: what is
// told after it changes nothing, also if it is of an earlier time or of the same
// minute. What was told at once, such as the rows of a file, is judged at once. Where
// two readings of one instant differ, the rule has to hold with either.
func (s State) CoolingOf(letter string, now time.Time) (c curemath.Cooling, ok bool) {
	p, ok := s.Find(letter)
	if !ok {
		return c, false
	}
	off, ok := p.Marks[Smoked]
	if !ok {
		return c, false
	}
	run := curemath.CoolingRun{HeatOff: off.At, Now: now}
	if m, ok := p.Marks[Cooled]; ok {
		run.ChillStarted = m.At
	}
	rule := curemath.CoolingRuleFor(p.Ingoing)
	told := s.coresTold(letter, off.At.Add(-lastOfSmoke))
	cores, until := readingsOf(told), time.Time{}
	for i := 0; i < len(told); {
		next, newest, disorder := i, until, false
		for ; next < len(told) && told[next].recorded.Equal(told[i].recorded); next++ {
			disorder = disorder || !told[next].At.After(until)
			newest = latest(newest, told[next].At)
		}
		if i > 0 && disorder { // only what is told out of order can undo a failure
			if c, ok := coolingBy(rule, run, cores[:i]); ok && c.Verdict == curemath.CoolingFailed {
				return c, true
			}
		}
		i, until = next, newest
	}
	return coolingBy(rule, run, cores)
}

// coolingBy checks readings in the order they were told, the worse way where two of
// one instant differ.
func coolingBy(rule curemath.CoolingRule, run curemath.CoolingRun, told []curemath.CoreReading) (worst curemath.Cooling, ok bool) {
	for _, warm := range []bool{true, false} {
		run.Readings = ofEachInstant(told, warm)
		c, err := curemath.CheckCooling(rule, run)
		if err != nil {
			return curemath.Cooling{}, false
		}
		if !ok || worse(c.Verdict, worst.Verdict) {
			worst, ok = c, true
		}
		if len(run.Readings) == len(told) { // none was told twice
			break
		}
	}
	return worst, ok
}

// worse orders verdicts by what has to be done about them.
func worse(a, b curemath.CoolingVerdict) bool {
	rank := map[curemath.CoolingVerdict]int{curemath.CoolingFailed: 5, curemath.CoolingWarmAgain: 4, curemath.CoolingOverdue: 3,
		curemath.CoolingUnproven: 2, curemath.CoolingRunning: 1, curemath.CoolingPassed: 0}
	return rank[a] > rank[b]
}

// ofEachInstant sorts by time and keeps the warmest or the coldest of each instant.
func ofEachInstant(told []curemath.CoreReading, warm bool) []curemath.CoreReading {
	list := inTime(told, func(r curemath.CoreReading) time.Time { return r.At })
	out := list[:0]
	for _, r := range list {
		if n := len(out); n > 0 && out[n-1].At.Equal(r.At) {
			if (r.Temp > out[n-1].Temp) == warm {
				out[n-1] = r
			}
			continue
		}
		out = append(out, r)
	}
	return out
}
