package parse

import (
	"strings"
	"time"
)

const (
	timeExample   = "yesterday 18:00"
	comingExample = "tomorrow 08:00"
)

// lean is which way an open time is read: 18:00 may be the last or the next.
type lean int

const (
	neutral lean = iota
	backward
	forward
)

// ClockTime reads a text that is one moment, in the zone of now: 18:00, 8am,
// 8.30 pm, yesterday 18:00, today 7, friday 18:00, 24 December, 24.12.2027,
// 2027-03-01 09:00, RFC 3339, 3h ago, in 2h, now.
//
// A time alone is on the day of now, a weekday alone the coming one (today
// counts), a date without a year the coming one. A day without an hour keeps the
// clock time of now. Days are counted by the calendar, so "in 1d" is the same
// clock time tomorrow. A clock time that the zone skips is the first instant
// after the gap, one that it shows twice is the first of the two. Errors are
// *Problem.
func ClockTime(s string, now time.Time) (time.Time, error) { return clockTime(s, now, neutral) }

// Upcoming reads like ClockTime but leans forward: a time or weekday alone is the
// next one after now, and a moment not after now is a *Problem of kind InPast.
func Upcoming(s string, now time.Time) (time.Time, error) { return clockTime(s, now, forward) }

// Past reads like ClockTime but leans backward: a time alone is today's, or
// yesterday's late one if today's is still to come and yesterday's is no more
// than twelve hours gone; a weekday alone is the last one. A moment after now is
// a *Problem of kind InFuture.
func Past(s string, now time.Time) (time.Time, error) { return clockTime(s, now, backward) }

func clockTime(s string, now time.Time, way lean) (time.Time, error) {
	example := timeExample
	if way == forward {
		example = comingExample
	}
	l, p := open(s, example)
	if p != nil {
		return time.Time{}, p
	}
	var t time.Time
	if exact, err := time.Parse(time.RFC3339, strings.ToUpper(strings.TrimSpace(s))); err == nil {
		t, p = l.direction(exact.In(now.Location()), now, way, 0, len(l.toks))
	} else {
		var next int
		t, next, p = l.momentAt(0, now, way)
		if p == nil && next < len(l.toks) {
			p = l.leftover(next, t.Format("Monday 2 January 2006 15:04"), timeExample)
		}
	}
	if p != nil {
		if p.Example == timeExample {
			p.Example = example
		}
		return time.Time{}, p
	}
	return t, nil
}

// direction refuses a moment on the wrong side of now, or outside the years
// anybody plans in.
func (l line) direction(t, now time.Time, way lean, i, j int) (time.Time, *Problem) {
	p := &Problem{Said: l.said(i, j), Example: timeExample}
	switch {
	case t.Year() < 2000 || t.Year() > 2199:
		p.Kind, p.Why = NotATime, "I only plan from the year 2000 to 2199"
	case way == forward && !t.After(now):
		p.Kind, p.Why, p.Example = InPast, "that time has gone by", comingExample
	case way == backward && t.After(now):
		p.Kind, p.Why = InFuture, "that time is still to come"
	default:
		return t, nil
	}
	return time.Time{}, p
}

// momentAt reads the moment that begins at token i and gives the token after it.
func (l line) momentAt(i int, now time.Time, way lean) (time.Time, int, *Problem) {
	return l.momentAmong(i, now, way, false)
}

// momentAmong reads a moment among temperatures, where 12/24 and 24.12 are no
// dates.
func (l line) momentAmong(i int, now time.Time, way lean, temperatures bool) (time.Time, int, *Problem) {
	if t, next, p, ok := l.relativeAt(i, now); ok {
		if p == nil {
			t, p = l.direction(t, now, way, i, next)
		}
		return t, next, p
	}
	m := moment{line: l, temperatures: temperatures}
	next, p := m.read(i)
	if p != nil {
		return time.Time{}, next, p
	}
	if t := l.at(i); next == i && t.num.whole && t.num.fault == "" && t.num.value < 24 && len(t.text) <= 2 && !t.signed && i+1 == len(l.toks) {
		p := l.notTime(i, i+1, "is that an hour in the morning or in the evening?")
		p.Kind, p.Example = Ambiguous, t.text+":00"
		if way == backward {
			p.Example = "yesterday " + p.Example
		}
		return time.Time{}, i, p
	}
	if next == i {
		return time.Time{}, i, l.notTime(i, len(l.toks), "I see no time there")
	}
	t, why := m.resolve(now, way)
	if why != "" {
		return time.Time{}, next, l.notTime(i, next, why)
	}
	t, p = l.direction(t, now, way, i, next)
	return t, next, p
}

func (l line) notTime(i, j int, why string) *Problem {
	return &Problem{Kind: NotATime, Said: l.said(i, j), Why: why, Example: timeExample}
}

// relativeAt reads "now", "in 2h", "2h ago" and "2h from now".
func (l line) relativeAt(i int, now time.Time) (time.Time, int, *Problem, bool) {
	if l.at(i).is("just") && l.at(i+1).is("now") {
		i++
	}
	if l.at(i).is("now") {
		return now, i + 1, nil, true
	}
	ahead := l.at(i).is("in")
	start := i
	if ahead {
		i++
	}
	q, ok := l.quantityAt(i)
	if !ok || q.unit.dim != span {
		return now, start, nil, false
	}
	s, next, p := l.spanAt(i)
	sign := 1
	switch {
	case ahead:
	case l.at(next).is("ago"):
		sign, next = -1, next+1
	case l.at(next).is("from") && l.at(next+1).is("now"):
		next += 2
	default:
		return now, start, nil, false
	}
	if p != nil {
		p.Example = timeExample
		return now, next, p, true
	}
	return shift(now, sign*s.days).Add(time.Duration(sign) * s.rest), next, nil, true
}
