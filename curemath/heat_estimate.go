package curemath

import (
	"math"
	"time"
)

const (
	// lethalityZ is the rise that makes the kill ten times as quick. A straight
	// line through the 28 timed rows of the table gives 10.01 °F for its 6.5-log
	// column and 10.02 °F for its 7-log column (computed).
	lethalityZ = 10.0
	// lethalityReference is the temperature the decimal times are given at.
	lethalityReference Fahrenheit = 140
	// decimalTime is one log reduction at the reference on that line, and
	// cautiousDecimalTime the slowest that any one row of the table gives (142 °F,
	// 8 min for 6.5 log), so that no row is ever credited with more than it
	// prints (both computed from the table).
	decimalTime         = 106 * time.Second
	cautiousDecimalTime = 117100 * time.Millisecond
	// lethalityCap is where the rate stops rising: the table has no time past it.
	lethalityCap Fahrenheit = 158
)

// LethalityEstimate adds up the heat of every moment at 130 °F and over. It is
// an estimate by a formula fitted to the table, not the table, and promises
// nothing.
type LethalityEstimate struct {
	// Logs is the reckoned number of log reductions, Cautious the same with the
	// slowest row of the table.
	Logs, Cautious float64
	// AtReference is the time at 140 °F that would do the same.
	AtReference time.Duration
	// Holding is true when the core stands at 130 °F or over at the last reading;
	// then Missing6_5 and Missing7 are the times still needed there, by the
	// cautious figure, for 6.5 and 7 logs.
	Holding              bool
	Missing6_5, Missing7 time.Duration
}

// estimateLethality integrates 10^((T − 140) ÷ 10) over the readings, exactly
// for straight lines between them. Nothing below 130 °F, no rise of the rate
// past 158 °F, nothing across a gap longer than MaxHeatGap. Source of the form:
// the general method of thermal death time (common knowledge of the trade, from
// memory); z and decimal times computed from FSIS Appendix A.
func estimateLethality(rs []CoreReading) LethalityEstimate {
	seconds := 0.0
	for _, line := range coreSpans(rs) {
		if line.length() > MaxHeatGap {
			continue
		}
		// The part past the cap is credited at the cap's own rate.
		if part, ok := line.within(lethalityFrom, lethalityCap); ok {
			seconds += rateIntegral(part)
		}
		if part, ok := line.within(lethalityCap, 1e6); ok && part.from.Temp+part.to.Temp > 2*lethalityCap {
			seconds += lethalityRate(lethalityCap) * part.length().Seconds()
		}
	}
	e := LethalityEstimate{
		Logs:        seconds / decimalTime.Seconds(),
		Cautious:    seconds / cautiousDecimalTime.Seconds(),
		AtReference: time.Duration(seconds * float64(time.Second)),
	}
	if last := rs[len(rs)-1].Temp; last >= lethalityFrom {
		e.Holding = true
		missing := func(logs float64) time.Duration {
			left := max(0, logs-e.Cautious) * cautiousDecimalTime.Seconds() / lethalityRate(min(last, lethalityCap))
			return time.Duration(math.Ceil(left)) * time.Second
		}
		e.Missing6_5, e.Missing7 = missing(6.5), missing(7)
	}
	return e
}

// lethalityRate is how much quicker than at 140 °F the kill goes.
func lethalityRate(t Fahrenheit) float64 {
	return math.Pow(10, float64(t-lethalityReference)/lethalityZ)
}

// rateIntegral is the integral of the rate over a straight line, in seconds.
func rateIntegral(s coreSpan) float64 {
	rise := math.Ln10 / lethalityZ * float64(s.to.Temp-s.from.Temp)
	growth := 1.0
	if math.Abs(rise) > 1e-12 {
		growth = math.Expm1(rise) / rise
	}
	return s.length().Seconds() * lethalityRate(s.from.Temp) * growth
}
