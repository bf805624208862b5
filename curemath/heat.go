package curemath

import "time"

// MaxHeatGap is the longest time between two readings across which the core is
// credited with having stayed on the straight line between them (common
// practice, no source).
const MaxHeatGap = time.Hour

// HeatRemark is what keeps a heat figure from saying more.
type HeatRemark int

const (
	// HeatOneReading: a single reading, or a single one at 130 °F or over, shows no
	// time at all and may be a slip.
	HeatOneReading HeatRemark = iota + 1
	// HeatLongGap: readings over 130 °F lie more than MaxHeatGap apart; nothing is
	// credited between them.
	HeatLongGap
	// HeatBelowTable: the core was never shown at 130 °F or over, so the table
	// credits nothing.
	HeatBelowTable
)

// Heat is what core readings show of the heat a piece has had. The table and the
// two plain rules are held to the readings as published; the estimate is a
// model's and unlocks nothing. A dry surface is covered by none of them, so
// "pasteurised" is never the word.
type Heat struct {
	Table6_5, Table7 TableHeat
	Estimate         LethalityEstimate
	// Consumer is the rule for whole cuts of pork: 145 °F, then 3 minutes' rest
	// (USDA 2011). Home is the home-preservation rule for cured and smoked meat:
	// 160 °F at the core (NCHFP 6.1.3). They differ; both are to be said.
	Consumer, Home PointRule
	ComeUp         ComeUp
	Peak           CoreReading
	Remarks        []HeatRemark
	Trail          Trail
}

// HeatSoFar reads core readings against every heat rule. Readings are in order
// of time, each time once. The tables are those of FSIS Appendix A (1999), the single
// temperatures USDA's and NCHFP's; each rule, and each step of the trail, names its own.
// Errors are ReadingError values.
func HeatSoFar(readings []CoreReading) (Heat, error) {
	if err := checkCore(readings); err != nil {
		return Heat{}, err
	}
	h := Heat{
		Table6_5: readTable(readings, 6.5, func(r LethalityRow) time.Duration { return r.Log6_5 }),
		Table7:   readTable(readings, 7, func(r LethalityRow) time.Duration { return r.Log7 }),
		Estimate: estimateLethality(readings),
		Consumer: readPoint(readings, consumerRule()),
		Home:     readPoint(readings, homeRule()),
		ComeUp:   readComeUp(readings),
		Peak:     peakReading(readings),
	}
	h.Remarks = heatRemarks(readings, h.Peak)
	h.Trail = h.trail()
	return h, nil
}

func peakReading(rs []CoreReading) CoreReading {
	best := rs[0]
	for _, r := range rs {
		if r.Temp > best.Temp {
			best = r
		}
	}
	return best
}

func heatRemarks(rs []CoreReading, peak CoreReading) []HeatRemark {
	var out []HeatRemark
	hot := 0
	for _, r := range rs {
		if r.Temp >= lethalityFrom {
			hot++
		}
	}
	if len(rs) == 1 || hot == 1 {
		out = append(out, HeatOneReading)
	}
	for _, line := range coreSpans(rs) {
		if line.length() > MaxHeatGap && max(line.from.Temp, line.to.Temp) >= lethalityFrom {
			out = append(out, HeatLongGap)
			break
		}
	}
	if peak.Temp < lethalityFrom {
		out = append(out, HeatBelowTable)
	}
	return out
}
