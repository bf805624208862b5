package parse

import (
	"strings"
	"time"

	"larderhand/scheduler/plan"
)

// dateAt reads a date at token i: 2027-03-01, 24.12.2027, 24.12., 24 December,
// Dec 24 2027, 12/24/2027. The year is 0 if none was said. It gives how many
// tokens the date took, or why it is none.
func (l line) dateAt(i int) (plan.Date, int, string) {
	t := l.at(i)
	switch {
	case t.kind == word:
		return l.monthFirst(i)
	case t.kind != numeric || t.signed:
		return plan.Date{}, 0, ""
	case len(t.text) == 4 && t.num.whole && l.at(i+1).is("-") && l.at(i+1).glued:
		return l.isoDate(i)
	case strings.Count(t.text, ".") == 2, strings.Count(t.text, ".") == 1 && l.at(i+1).is(".") && l.at(i+1).glued, tooLateForTime(t.text):
		return l.dottedDate(i)
	case t.num.base > 0, t.num.whole && l.at(i+1).is("/") && l.at(i+1).glued && l.at(i+2).num.base > 0:
		return l.slashedDate(i)
	case t.num.whole:
		return l.dayFirst(i)
	}
	return plan.Date{}, 0, ""
}

func (l line) isoDate(i int) (plan.Date, int, string) {
	m, dash, d := l.at(i+2), l.at(i+3), l.at(i+4)
	if !m.num.whole || !dash.is("-") || !d.num.whole || len(m.text) != 2 || len(d.text) != 2 {
		return plan.Date{}, 1, "dates go year-month-day, as in 2027-03-01"
	}
	n := 5
	if l.at(i+5).is("t") && l.at(i+6).kind == numeric {
		n++
	}
	return civil(int(l.at(i).num.value), int(m.num.value), int(d.num.value), n)
}

// dottedDate reads day.month. and day.month.year.
func (l line) dottedDate(i int) (plan.Date, int, string) {
	parts := strings.Split(l.at(i).text, ".")
	for _, p := range parts {
		if len(p) == 0 || len(p) > 4 {
			return plan.Date{}, 1, "dates with points go day.month.year, as in 24.12.2027"
		}
	}
	d, m := int(float(parts[0])), int(float(parts[1]))
	if len(parts) == 3 {
		if len(parts[2]) != 4 {
			return plan.Date{}, 1, "write the year with four digits"
		}
		return civil(int(float(parts[2])), m, d, 1)
	}
	if y, ok := l.year(i + 2); ok && l.at(i+2).glued {
		return civil(y, m, d, 3)
	}
	n := 1
	if l.at(i + 1).is(".") {
		n++
	}
	return civil(0, m, d, n)
}

// tooLateForTime says whether 24.12 can only be a date: no clock shows 24.
func tooLateForTime(s string) bool {
	d, m, ok := pointed(s)
	return ok && d > 23 && m >= 1 && m <= 12
}

// dateOrder says which of two numbers is the day, where a whole table tells.
type dateOrder int

const (
	unknownOrder dateOrder = iota
	dayMonth
	monthDay
)

// slashedDate reads 2027/12/24, and 12/24 and 12/24/2027 where only one order
// makes a date, or the order is known.
func (l line) slashedDate(i int) (plan.Date, int, string) {
	t := l.at(i)
	a, b, y, n := t.num.top, t.num.base, 0, 1
	if t.num.base == 0 {
		a, b, y, n = int(t.num.value), l.at(i+2).num.top, l.at(i+2).num.base, 3
		if a >= 1000 { // year first
			return civil(a, b, y, n)
		}
		if y < 1000 {
			return plan.Date{}, n, "write the year with four digits"
		}
	}
	switch {
	case a > 12 && b <= 12, l.order == dayMonth:
		return civil(y, b, a, n)
	case l.order == monthDay:
		return civil(y, a, b, n)
	case b > 12 && a <= 12, a == b:
		return civil(y, a, b, n)
	case a > 12:
		return plan.Date{}, n, "there is no such date"
	}
	return plan.Date{}, n, "that could be two dates; write the month as a word"
}

// dayFirst reads 24 December, 24th of Dec. 2027.
func (l line) dayFirst(i int) (plan.Date, int, string) {
	k := i + 1
	switch l.at(k).text {
	case "st", "nd", "rd", "th":
		k++
	}
	for l.at(k).is("of") || l.at(k).is(".") || l.at(k).is("-") {
		k++
		if k > i+3 {
			return plan.Date{}, 0, ""
		}
	}
	m, ok := month(l.at(k).text)
	if !ok || l.at(k).kind != word || len(l.at(i).text) > 2 {
		return plan.Date{}, 0, ""
	}
	k++
	return l.withYear(int(l.at(i).num.value), m, i, k)
}

// monthFirst reads December 24, Dec. 24th, 2027.
func (l line) monthFirst(i int) (plan.Date, int, string) {
	m, ok := month(l.at(i).text)
	k := i + 1
	if l.at(k).is(".") {
		k++
	}
	d := l.at(k)
	if !ok || d.kind != numeric || !d.num.whole || len(d.text) > 2 || l.at(k+1).is(":") {
		return plan.Date{}, 0, ""
	}
	k++
	switch l.at(k).text {
	case "st", "nd", "rd", "th":
		k++
	}
	return l.withYear(int(d.num.value), m, i, k)
}

func (l line) withYear(d int, m time.Month, i, k int) (plan.Date, int, string) {
	if dot := l.at(k); (dot.is(".") || dot.is("-") && l.at(k+1).glued) && dot.glued {
		k++
	}
	c := k
	if l.at(c).is(",") {
		c++
	}
	if y, ok := l.year(c); ok {
		return civil(y, int(m), d, c+1-i)
	}
	return civil(0, int(m), d, k-i)
}

// year reads four digits that can be a year and are not the start of a weight.
func (l line) year(i int) (int, bool) {
	t := l.at(i)
	if t.kind != numeric || t.signed || !t.num.whole || len(t.text) != 4 {
		return 0, false
	}
	if _, _, unit := l.unitAt(i + 1); unit {
		return 0, false
	}
	return int(t.num.value), true
}

// civil checks that the calendar has the date; without a year any year will do.
func civil(y, m, d, n int) (plan.Date, int, string) {
	check := y
	if y == 0 {
		check = 2000 // a leap year
	}
	t := time.Date(check, time.Month(m), d, 0, 0, 0, 0, time.UTC)
	if m < 1 || m > 12 || d < 1 || t.Day() != d || check < 1000 {
		return plan.Date{}, n, "there is no such date"
	}
	return plan.Date{Year: y, Month: time.Month(m), Day: d}, n, ""
}
