package parse

import (
	"time"

	"larderhand/scheduler/plan"
)

// moment is a time as it was said, before it is set against now.
type moment struct {
	line
	day      daySaid
	date     plan.Date // Year 0 if no year was said
	weekday  time.Weekday
	named    bool   // a weekday was said, perhaps with a date
	which    string // last, next, this
	shift    int    // days from today
	hour     clockHour
	hasHour  bool
	part     dayPart
	midnight bool

	temperatures bool // stand around it, so 12/24 and 24.12 are no dates
}

// daySaid is the way a day was named.
type daySaid int

const (
	noDay daySaid = iota
	aDate
	aWeekday
	aShift // today, yesterday, tomorrow
)

// dayPart is a part of the day, which tells 8 in the morning from 8 at night.
type dayPart int

const (
	noPart dayPart = iota
	morning
	afternoon
	evening
	night
)

func partNamed(s string) dayPart {
	switch s {
	case "morning":
		return morning
	case "afternoon":
		return afternoon
	case "evening":
		return evening
	case "night":
		return night
	}
	return noPart
}

// read takes tokens from i as long as they add to the moment, and gives the
// token after the last one that did.
func (m *moment) read(i int) (int, *Problem) {
	end := i
	for i < len(m.toks) {
		n, why := m.step(i)
		switch {
		case why != "":
			return i, m.notTime(end, i+max(n, 1), why)
		case n > 0:
			i += n
			end = i
		case m.filler(i):
			i++
		default:
			return end, nil
		}
	}
	return end, nil
}

func (m *moment) filler(i int) bool {
	t := m.at(i)
	switch t.text {
	case "at", "on", "the", "of", "in", ",", "@", "around", "about":
		return t.kind != numeric
	}
	return false
}

// step reads one part of the moment at token i: how many tokens it took, or why
// it cannot be.
func (m *moment) step(i int) (int, string) {
	if n, ok := m.dayWord(i); ok {
		return n, ""
	}
	if d, n, why := m.dateAt(i); (n > 0 || why != "") && !m.maybeTemperature(i) {
		if why == "" && m.day != noDay && m.day != aWeekday {
			return n, "that names two days"
		}
		m.day, m.date = aDate, d
		return n, why
	}
	if n, ok := m.namedHour(i); ok {
		return n, ""
	}
	if p := partNamed(m.at(i).text); p != noPart && m.part == noPart {
		m.part = p
		return 1, ""
	}
	if m.hasHour && !m.at(i+1).is(":") && m.meridiemAt(i+1) == "" {
		return 0, ""
	}
	h, n, why := m.hourAt(i, m.day != noDay || m.part != noPart || m.at(i-1).is("at"))
	if n == 0 || why != "" {
		return n, why
	}
	if m.hasHour {
		return n, "that names two times"
	}
	m.hour, m.hasHour = h, true
	return n, ""
}

// maybeTemperature says whether the number at i could be a reading.
func (m *moment) maybeTemperature(i int) bool {
	t := m.at(i)
	return m.temperatures && t.kind == numeric && (t.num.base > 0 || t.num.fault == "" && !t.num.whole)
}

// dayWord reads today, yesterday, tonight, friday, last night and the like.
func (m *moment) dayWord(i int) (int, bool) {
	if m.day != noDay {
		return 0, false
	}
	first, second := m.at(i).text, m.at(i+1).text
	set := func(days, n int) (int, bool) {
		m.day, m.shift = aShift, days
		return n, true
	}
	switch {
	case first == "today":
		return set(0, 1)
	case first == "yesterday":
		return set(-1, 1)
	case first == "tomorrow":
		return set(1, 1)
	case first == "tonight":
		m.part = night
		return set(0, 1)
	case first == "last" && second == "night":
		m.part = night
		return set(-1, 2)
	case first == "this" && partNamed(second) != noPart:
		return set(0, 1)
	case first == "day" && second == "before" && m.at(i+2).is("yesterday"):
		return set(-2, 3)
	case first == "day" && second == "after" && m.at(i+2).is("tomorrow"):
		return set(2, 3)
	}
	if first == "last" || first == "next" || first == "this" {
		if d, ok := weekday(second); ok {
			m.day, m.weekday, m.named, m.which = aWeekday, d, true, first
			return 2, true
		}
		return 0, false
	}
	d, ok := weekday(first)
	if !ok || m.at(i).kind != word {
		return 0, false
	}
	m.day, m.weekday, m.named = aWeekday, d, true
	if dot := m.at(i + 1); dot.is(".") && dot.glued {
		return 2, true
	}
	return 1, true
}

// namedHour reads noon and midnight.
func (m *moment) namedHour(i int) (int, bool) {
	if m.hasHour {
		return 0, false
	}
	switch m.at(i).text {
	case "noon", "midday":
		m.hour, m.hasHour = clockHour{hour: 12, sure: true}, true
		return 1, true
	case "midnight":
		m.hour, m.hasHour, m.midnight = clockHour{sure: true}, true, true
		return 1, true
	}
	return 0, false
}
