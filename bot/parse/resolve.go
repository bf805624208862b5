package parse

import (
	"time"

	"larderhand/scheduler/plan"
)

// lateAtMost is how long ago a clock time of yesterday may be to be meant
// without the word: past midnight, "at 23:50" is yesterday's.
const lateAtMost = 12 * time.Hour

// resolve sets the moment against now. why says what is missing or wrong.
func (m *moment) resolve(now time.Time, way lean) (t time.Time, why string) {
	if m.part != noPart && !m.hasHour {
		return t, "which hour?"
	}
	h, why := m.hour.within(m.part)
	if why != "" {
		return t, why
	}
	if !m.hasHour {
		h.hour, h.minute, h.second = now.Clock()
	}
	if m.midnight && m.day != noDay {
		return t, "midnight belongs to two days; say 00:00 or 23:59"
	}
	today := plan.DateOf(now, now.Location())
	on := func(d plan.Date) time.Time { return at(d, h, now.Location()) }
	switch m.day {
	case aShift:
		return on(today.AddDays(m.shift)), ""
	case aDate:
		if m.date.Year > 0 {
			return on(m.date), m.wrongWeekday(m.date)
		}
		d, ok := m.yearFor(today, on, now, way)
		if !ok {
			return t, "there is no such date near this year"
		}
		return on(d), m.wrongWeekday(d)
	case aWeekday:
		return m.onWeekday(today, on, now, way)
	}
	return m.alone(today, on, now, way), ""
}

// alone places a time that was said without a day.
func (m *moment) alone(today plan.Date, on func(plan.Date) time.Time, now time.Time, way lean) time.Time {
	t := on(today)
	switch {
	case (way == forward || way == neutral && m.midnight) && !t.After(now):
		return on(today.AddDays(1))
	case way == backward && t.After(now):
		if y := on(today.AddDays(-1)); now.Sub(y) <= lateAtMost {
			return y
		}
	}
	return t
}

// yearFor finds the year of a date said without one: the coming one, or leaning
// backward the last one. Eight years hold a leap day, even around 2100.
func (m *moment) yearFor(today plan.Date, on func(plan.Date) time.Time, now time.Time, way lean) (plan.Date, bool) {
	step, y := 1, today.Year
	if way == backward {
		step = -1
	}
	for range 9 {
		d, _, why := civil(y, int(m.date.Month), m.date.Day, 0)
		y += step
		switch {
		case why != "":
		case way == backward && on(d).After(now):
		case way == forward && !on(d).After(now):
		case way == neutral && d.Before(today):
		default:
			return d, true
		}
	}
	return plan.Date{}, false
}

// wrongWeekday refuses "friday 24 December" in a year when it is no Friday.
func (m *moment) wrongWeekday(d plan.Date) string {
	if m.named && d.Weekday() != m.weekday {
		return spoken(d) + " is a " + d.Weekday().String()
	}
	return ""
}

func (m *moment) onWeekday(today plan.Date, on func(plan.Date) time.Time, now time.Time, way lean) (time.Time, string) {
	ahead := (int(m.weekday) - int(today.Weekday()) + 7) % 7
	coming := today.AddDays(ahead)
	switch {
	case m.which == "last", m.which == "" && way == backward:
		back := coming.AddDays(-7)
		if m.which == "" && ahead == 0 && !on(today).After(now) {
			back = today
		}
		return on(back), ""
	case m.which == "next" && ahead == 0:
		return on(today.AddDays(7)), ""
	case m.which == "next":
		return time.Time{}, "is that " + spoken(coming) + " or " + spoken(coming.AddDays(7)) + "?"
	case way == forward && !on(coming).After(now):
		return on(coming.AddDays(7)), ""
	}
	return on(coming), ""
}

func spoken(d plan.Date) string {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).Format("2 January")
}

// at gives the instant of a date and time of day: the first after the gap where
// the clocks jump over it, the first of the two where they show it twice.
func at(d plan.Date, h clockHour, loc *time.Location) time.Time {
	hm := plan.HourMinute(h.hour*60 + h.minute)
	t, ok := plan.Instant(d, hm, loc)
	if !ok { // the zone left out the rest of this date
		t, _ = plan.Instant(d.AddDays(1), 0, loc)
		return t
	}
	if plan.HourMinuteOf(t, loc) == hm {
		t = t.Add(time.Duration(h.second) * time.Second)
	}
	return t
}

// shift moves t by calendar days, keeping its clock time to the second.
func shift(t time.Time, days int) time.Time {
	if days == 0 {
		return t
	}
	var h clockHour
	h.hour, h.minute, h.second = t.Clock()
	return at(plan.DateOf(t, t.Location()).AddDays(days), h, t.Location())
}
