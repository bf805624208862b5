package curemath

import "time"

// trail writes out how each rule was read. Times in it are rounded to seconds,
// always to the side of less heat.
func (h Heat) trail() Trail {
	l := newLedger(6)
	for _, t := range []TableHeat{h.Table6_5, h.Table7} {
		l.step("Published table, "+figure(t.Logs, 1)+" log", lethalitySource())
		switch {
		case t.Met:
			l.degrees(t.Row).say(" row asks ").time(t.Needed).say(", held ").time(t.Held).say(": met")
		case t.Row == 0:
			l.say("core under 130 °F now, nothing is credited there")
		default:
			l.degrees(t.Row).say(" row asks ").time(t.Needed).say(", held ").time(t.Held).say(": ").timeUp(t.Missing).say(" missing")
		}
	}
	l.step("Heat added up, z = 10 °F, an estimate", Source{Document: "line through the rows of FSIS Appendix A", Status: Computed}).
		time(h.Estimate.AtReference).say(" at 140 °F ÷ ").time(decimalTime).say(" a log = ").logs(h.Estimate.Logs).
		say(" log (").logs(h.Estimate.Cautious).say(" at the slowest row's ").time(cautiousDecimalTime).say(")")
	l.point("Consumer rule", h.Consumer)
	l.point("Home-preservation rule", h.Home)

	l.step("Come-up, 50 to 130 °F", h.ComeUp.Source)
	switch h.ComeUp.State {
	case ComeUpNotBegun:
		l.say("not begun")
	case ComeUpUnknown:
		l.say("at least ").timeUp(h.ComeUp.Took).say(", the start was not read")
	default:
		l.timeUp(h.ComeUp.Took).say(", at most ").time(h.ComeUp.Limit)
	}
	return l.trail()
}

// logs writes a number of log reductions; past what any table goes to there is nothing
// to be exact about.
func (l *line) logs(n float64) *line {
	if n > 10 {
		return l.say("over 10")
	}
	return l.figure(n, 1)
}

func (l *ledger) point(what string, r PointRule) {
	l.step(what, r.Source).degrees(r.Core)
	if r.Rest > 0 {
		l.say(" held for ").time(r.Rest)
	}
	switch {
	case r.Met:
		l.say(": met")
	case r.Reached:
		l.say(": held ").time(r.Held).say(", ").timeUp(r.Missing).say(" missing")
	default:
		l.say(": not reached")
	}
}

func (l *line) degrees(t Fahrenheit) *line { return l.figure(float64(t), 1).say(" °F") }

// time writes a length of time in hours, minutes and seconds, cut off to seconds.
func (l *line) time(d time.Duration) *line {
	return l.say(spokenTime(d.Truncate(time.Second)))
}

// timeUp is time, rounded up to the next second.
func (l *line) timeUp(d time.Duration) *line {
	if cut := d.Truncate(time.Second); cut < d {
		d = cut + time.Second
	}
	return l.time(d)
}

func spokenTime(d time.Duration) string {
	h, m, s := int(d.Hours()), int(d.Minutes())%60, int(d.Seconds())%60
	switch {
	case h > 0 && s == 0:
		return figure(float64(h), 0) + " h " + figure(float64(m), 0) + " min"
	case h > 0:
		return figure(float64(h), 0) + " h " + figure(float64(m), 0) + " min " + figure(float64(s), 0) + " s"
	case m > 0 && s == 0:
		return figure(float64(m), 0) + " min"
	case m > 0:
		return figure(float64(m), 0) + " min " + figure(float64(s), 0) + " s"
	default:
		return figure(float64(s), 0) + " s"
	}
}
