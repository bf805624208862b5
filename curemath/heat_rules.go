package curemath

import "time"

// PointRule is a rule of one temperature, with or without a rest there, and what
// the readings show of it.
type PointRule struct {
	Core   Fahrenheit
	Rest   time.Duration
	Source Source

	Reached   bool
	ReachedAt time.Time
	// Held is the longest unbroken time at the temperature or over; while the
	// rule is not met, the one that still goes on.
	Held, Missing time.Duration
	Met           bool
	MetAt         time.Time
}

func consumerRule() PointRule {
	return PointRule{
		Core: 145, Rest: 3 * time.Minute,
		Source: Source{Document: "USDA consumer rule for whole cuts of pork", Date: "2011", Status: Found},
	}
}

func homeRule() PointRule {
	return PointRule{
		Core:   160,
		Source: Source{Document: "NCHFP, curing and smoking review", Section: "6.1.3", Status: Found},
	}
}

func readPoint(rs []CoreReading, rule PointRule) PointRule {
	last := rs[len(rs)-1].At
	rule.Missing = rule.Rest
	for _, held := range stretchesAt(rs, rule.Core) {
		if !rule.Reached {
			rule.Reached, rule.ReachedAt = true, held.from
		}
		if held.length() >= rule.Rest {
			rule.Met, rule.MetAt = true, held.from.Add(rule.Rest)
			rule.Held, rule.Missing = held.length(), 0
			return rule
		}
		if held.to.Equal(last) {
			rule.Held, rule.Missing = held.length(), rule.Rest-held.length()
		}
	}
	return rule
}

// ComeUpState is how the time from 50 to 130 °F stands.
type ComeUpState int

const (
	// ComeUpNotBegun: the core is not past 50 °F yet.
	ComeUpNotBegun ComeUpState = iota + 1
	// ComeUpRunning: past 50 °F, not yet at 130, within the time so far.
	ComeUpRunning
	// ComeUpMet: 130 °F was reached in time.
	ComeUpMet
	// ComeUpOver: it took, or has taken, too long.
	ComeUpOver
	// ComeUpUnknown: the first reading was already past 50 °F, so the time shown
	// is only part of it.
	ComeUpUnknown
)

// ComeUp is the time the core took from 50 to 130 °F, held to the 6 hours of the
// FSIS cooking guideline (2021): from memory.
type ComeUp struct {
	State ComeUpState
	// Took is the time from From to To, or to the last reading. With ComeUpUnknown it
	// is counted from the first reading and is a least.
	Took     time.Duration
	From, To Fahrenheit
	Limit    time.Duration
	Source   Source
}

const (
	comeUpFrom  Fahrenheit = 50
	comeUpTo    Fahrenheit = 130
	comeUpLimit            = 6 * time.Hour
)

func readComeUp(rs []CoreReading) ComeUp {
	c := ComeUp{
		State:  ComeUpNotBegun,
		From:   comeUpFrom,
		To:     comeUpTo,
		Limit:  comeUpLimit,
		Source: Source{Document: "FSIS cooking guideline", Date: "2021", Status: FromMemory},
	}
	known := rs[0].Temp <= comeUpFrom
	start, begun := rs[0].At, !known
	end, done := rs[len(rs)-1].At, rs[0].Temp >= comeUpTo
	if done {
		end = rs[0].At
	}
	for _, line := range coreSpans(rs) {
		if !begun && line.to.Temp > comeUpFrom {
			start, begun = line.crossing(comeUpFrom), true
		}
		if !done && line.to.Temp >= comeUpTo {
			end, done = line.crossing(comeUpTo), true
		}
	}
	if !begun {
		return c
	}
	c.Took = end.Sub(start)
	switch {
	case c.Took > comeUpLimit:
		c.State = ComeUpOver
	case !known:
		c.State = ComeUpUnknown
	case done:
		c.State = ComeUpMet
	default:
		c.State = ComeUpRunning
	}
	return c
}
