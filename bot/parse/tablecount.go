package parse

import (
	"slices"
	"strconv"
	"strings"
	"time"
)

// isCount says whether a cell counts from a start and is no clock time.
func isCount(s string) bool {
	if _, ok := epoch(s); ok {
		return false
	}
	_, ok := cellTemperature(s)
	return ok
}

// countUp places rows that count from the start of the file: their last is taken
// as now.
func (t *tableReader) countUp(cells []string, heading string) *Problem {
	var step time.Duration
	for _, w := range headingWords(heading) {
		if u, ok := timeUnit(w); ok {
			step = time.Duration(u.factor * float64(time.Second))
		}
		if w == "ms" {
			step = time.Millisecond
		}
	}
	since := make([]time.Duration, len(cells))
	ok := make([]bool, len(cells))
	var longest time.Duration
	for i, c := range cells {
		switch d, clock := hoursMinutes(c); {
		case clock:
			since[i], ok[i] = d, true
		case step > 0:
			since[i], ok[i] = counted(c, step)
		case isCount(c):
			p := notTable("it counts from a start, but not whether in seconds or minutes")
			p.Kind, p.Example = NoUnit, "elapsed min,pit,core\n0,148,121\n30,151,124"
			return p
		}
		longest = max(longest, since[i])
	}
	if !slices.Contains(ok, true) {
		return notTable("I can't read the times in it")
	}
	for i := range cells {
		if ok[i] {
			t.times[i] = t.now.Add(since[i] - longest)
		}
	}
	t.remark("The file counts from its own start: its last reading is taken as now.")
	return nil
}

func counted(s string, step time.Duration) (time.Duration, bool) {
	c, ok := cellTemperature(s)
	d := c.value * float64(step)
	if !ok || d < 0 || d > float64(longestSpan) {
		return 0, false
	}
	return time.Duration(d), true
}

// hoursMinutes reads 1:05 and 26:05:30 as a length of time.
func hoursMinutes(s string) (time.Duration, bool) {
	parts := strings.Split(s, ":")
	if len(parts) < 2 || len(parts) > 3 {
		return 0, false
	}
	var d time.Duration
	unit := time.Hour
	for _, p := range parts {
		n, err := strconv.ParseUint(p, 10, 16)
		if err != nil || unit != time.Hour && n > 59 || n > 9999 {
			return 0, false
		}
		d += time.Duration(n) * unit
		unit /= 60
	}
	return d, true
}
