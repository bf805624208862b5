package plan

import (
	"errors"
	"fmt"
	"time"
)

// ErrDate is what ParseDate wraps when the text is not a date.
var ErrDate = errors.New("not a date like 2027-03-01")

// Date is a civil date: a day on somebody's calendar, with no zone and no time.
// The zero Date is no date at all.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// DateOf gives the date the calendar shows at t in loc.
func DateOf(t time.Time, loc *time.Location) Date {
	y, m, d := t.In(orUTC(loc)).Date()
	return Date{y, m, d}
}

// ParseDate reads the form String writes, years 0001 to 9999. A date that is on
// no calendar ("2027-02-29") is refused, never moved to the next month.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil || t.Year() < 1 {
		return Date{}, fmt.Errorf("%q: %w", s, ErrDate)
	}
	return DateOf(t, time.UTC), nil
}

// String writes the date as ISO 8601 does, "2027-03-01", which sorts as text.
func (d Date) String() string {
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, int(d.Month), d.Day)
}

// IsZero says whether d is the zero Date.
func (d Date) IsZero() bool { return d == Date{} }

// AddDays gives the date n days on, or back when n is negative.
func (d Date) AddDays(n int) Date {
	y, m, day := time.Date(d.Year, d.Month, d.Day+n, 0, 0, 0, 0, time.UTC).Date()
	return Date{y, m, day}
}

// Before says whether d is an earlier date than other.
func (d Date) Before(other Date) bool { return d.Compare(other) < 0 }

// After says whether d is a later date than other.
func (d Date) After(other Date) bool { return d.Compare(other) > 0 }

// Compare gives -1, 0 or 1 as d is before, the same as, or after other.
func (d Date) Compare(other Date) int { return d.midnight().Compare(other.midnight()) }

// DaysSince gives the number of calendar days from earlier to d: 1 from one day
// to the next whatever the clocks did, negative when d is the earlier one.
func (d Date) DaysSince(earlier Date) int {
	return int((d.midnight().Unix() - earlier.midnight().Unix()) / secondsPerDay)
}

// Weekday gives the day of the week.
func (d Date) Weekday() time.Weekday { return d.midnight().Weekday() }

// midnight is the start of the date on a clock that never changes.
func (d Date) midnight() time.Time {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC)
}

const secondsPerDay = 24 * 60 * 60

func orUTC(loc *time.Location) *time.Location {
	if loc == nil {
		return time.UTC
	}
	return loc
}
