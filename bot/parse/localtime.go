package parse

import "time"

// local gives the instant of a local date and time. Where the clocks jump over
// it, that is the first instant after the jump; where they show it twice, the
// first of the two. time.Date alone promises neither.
func local(y int, mo time.Month, d, h, mi, s int, loc *time.Location) time.Time {
	t := time.Date(y, mo, d, h, mi, s, 0, loc)
	wall := time.Date(y, mo, d, h, mi, s, 0, time.UTC)
	start, end := t.ZoneBounds()
	if jumped(end, wall) {
		return end
	}
	if jumped(start, wall) {
		return start
	}
	if !start.IsZero() {
		_, before := start.Add(-time.Nanosecond).Zone()
		_, offset := t.Zone()
		first := t.Add(time.Duration(offset-before) * time.Second)
		if before > offset && first.Before(start) {
			return first
		}
	}
	return t
}

// jumped says whether the change of clocks at an instant leaves out the wall
// time.
func jumped(change, wall time.Time) bool {
	if change.IsZero() {
		return false
	}
	_, before := change.Add(-time.Nanosecond).Zone()
	_, after := change.Zone()
	face := change.UTC()
	from := face.Add(time.Duration(before) * time.Second)
	to := face.Add(time.Duration(after) * time.Second)
	return !wall.Before(from) && wall.Before(to)
}
