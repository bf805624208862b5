package plan

import "time"

// reach is how far from the UTC day of the same name a local date can be, in
// seconds: no place has been more than 16 hours from UTC, and a day's grace
// costs nothing.
const reach = 40 * 60 * 60

// Instant gives the first instant at which the calendar in loc shows d and the
// wall clock shows hm or later. Where clocks went forward over hm that is the
// first instant after the gap; where they went back over it, the first of the
// two.
//
// It never lands on another date. ok is false when no such instant exists: the
// zone left out the whole date (Pacific/Apia, 2011-12-30), or the clocks went
// forward from hm or before to midnight.
func Instant(d Date, hm HourMinute, loc *time.Location) (t time.Time, ok bool) {
	loc = orUTC(loc)
	midnight := d.midnight().Unix()
	wanted, dayEnd := midnight+hm.seconds(), midnight+secondsPerDay
	for at := midnight - reach; at < dayEnd+reach; {
		s := stretchAt(at, loc)
		// In this stretch the wall shows [wanted, dayEnd) over this span.
		from, to := max(s.from, wanted-s.offset), min(s.to, dayEnd-s.offset)
		if from < to {
			return time.Unix(from, 0).In(loc), true
		}
		at = s.to
	}
	return time.Time{}, false
}
