package plan

import "time"

// daysTried bounds the search for a date that has an instant. No zone has left
// out two dates running.
const daysTried = 366

// NextDaily gives the next instant of a daily chore at hm that is strictly after
// `after` and belongs to a date later than last, with the local date it stands
// for. A zero last sets no bound. Dates that were missed meanwhile are skipped:
// they are one late ping, not several.
//
// It gives zeros only for a zone that has no such date within a year, which no
// place on Earth is.
func NextDaily(after time.Time, hm HourMinute, loc *time.Location, last Date) (Date, time.Time) {
	loc = orUTC(loc)
	d := DateOf(after, loc)
	if !last.IsZero() && !last.Before(d) {
		d = last.AddDays(1)
	}
	for range daysTried {
		if t, ok := Instant(d, hm, loc); ok && t.After(after) {
			return d, t
		}
		d = d.AddDays(1)
	}
	return Date{}, time.Time{}
}
