package plan

import (
	"math"
	"time"
)

// stretch is a span of time over which a zone keeps one offset, so that its wall
// clock runs evenly. Seconds are since the Unix epoch.
type stretch struct {
	from, to int64 // from included, to not
	offset   int64 // local minus UTC
}

// forever stands for the end of a stretch no rule ends.
const forever = int64(math.MaxInt64)

// stretchAt gives the stretch that holds at sec, from sec on.
func stretchAt(sec int64, loc *time.Location) stretch {
	t := time.Unix(sec, 0).In(loc)
	_, offset := t.Zone()
	_, end := t.ZoneBounds()
	s := stretch{from: sec, to: forever, offset: int64(offset)}
	if end.IsZero() {
		return s
	}
	s.to = end.Unix()
	if s.to <= sec {
		// For a zone whose changes follow a yearly rule, ZoneBounds ends every
		// year after 365 days, so on the last UTC day of a leap year the end is
		// not after t. The next year starts with the next UTC day.
		s.to = sec - floorMod(sec, secondsPerDay) + secondsPerDay
	}
	return s
}

// floorMod is a mod b with the sign of b, for instants before 1970.
func floorMod(a, b int64) int64 { return ((a % b) + b) % b }
