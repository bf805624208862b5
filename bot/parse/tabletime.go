package parse

import (
	"strconv"
	"strings"
	"time"

	"larderhand/scheduler/plan"
)

// dated is the shape of a cell that may hold a time.
type dated int

const (
	undated dated = iota
	dateOnly
	dateAndTime
	clockOnly
)

// looksDated tells the shape from the signs in the cell, without parsing it.
func looksDated(s string) dated {
	day := len(s) >= 8 && (strings.ContainsAny(s, "/") || strings.Count(s, "-") >= 2) || len(s) >= 8 && strings.Count(s, ".") >= 2
	clock := strings.Contains(s, ":")
	switch {
	case day && clock:
		return dateAndTime
	case day:
		return dateOnly
	case clock:
		return clockOnly
	}
	return undated
}

// looksTimed says whether a cell is a time or a date of some kind.
func looksTimed(s string) bool {
	if len(s) < 3 || len(s) > 40 || !strings.ContainsAny(s, "0123456789") {
		return false
	}
	if _, ok := epoch(s); ok {
		return true
	}
	return looksDated(s) != undated
}

// epoch reads seconds or milliseconds since 1970.
func epoch(s string) (time.Time, bool) {
	if len(s) < 9 || len(s) > 17 || strings.Trim(s, "0123456789.") != "" {
		return time.Time{}, false
	}
	v, err := strconv.ParseFloat(s, 64)
	switch {
	case err != nil:
		return time.Time{}, false
	case v >= 9e8 && v < 5e9:
		return time.UnixMilli(int64(v * 1000)), true
	case v >= 9e11 && v < 5e12:
		return time.UnixMilli(int64(v)), true
	}
	return time.Time{}, false
}

// stamp is a time cell as it stands: an instant, or a wall clock with or without
// its date.
type stamp struct {
	exact time.Time
	date  plan.Date // zero if it has none
	hour  clockHour
}

// readStamp reads a time cell. In a table the order of day and month is known,
// or was settled for the whole column.
func readStamp(s string, order dateOrder) (stamp, bool) {
	if t, ok := epoch(s); ok {
		return stamp{exact: t}, true
	}
	for _, layout := range [...]string{time.RFC3339, "2006-01-02 15:04:05Z07:00", "2006-01-02 15:04:05 -0700"} {
		if t, err := time.Parse(layout, s); err == nil {
			return stamp{exact: t}, true
		}
	}
	m := moment{line: scan(s)}
	m.order = order
	end, p := m.read(0)
	if p != nil || end < len(m.toks) || !m.hasHour || m.part != noPart || m.day == aShift || m.day == aDate && m.date.Year == 0 {
		return stamp{}, false
	}
	return stamp{date: m.date, hour: m.hour}, true
}

// findTimes gives every row its time.
func (t *tableReader) findTimes() *Problem {
	k := t.column(TimeColumn)
	if k < 0 {
		return notTable("I see no column with times")
	}
	cells := t.cells(k)
	if d := t.column(DateColumn); d >= 0 && !t.mostly(k, func(s string) bool { return looksDated(s) == dateAndTime }) {
		for i, date := range t.cells(d) {
			cells[i] = strings.TrimSpace(date + " " + cells[i])
		}
	}
	t.times = make([]time.Time, len(cells))
	name := foldText(t.columns[k].Name)
	if strings.Contains(name, "elapsed") || t.mostly(k, isCount) {
		return t.countUp(cells, name)
	}
	stamps, ok := t.stamps(cells)
	if !ok {
		return notTable("I can't read the times in it")
	}
	t.setTimes(stamps)
	return nil
}

// cells copies a column.
func (t *tableReader) cells(k int) []string {
	out := make([]string, len(t.data))
	for i, r := range t.data {
		if k < len(r) {
			out[i] = strings.ToUpper(r[k])
		}
	}
	return out
}

// stamps reads the cells, and says whether any could be.
func (t *tableReader) stamps(cells []string) (out []*stamp, ok bool) {
	order, sure := orderOf(cells)
	if !sure {
		t.remark("Day and month could be either way round: read as month/day.")
	}
	out = make([]*stamp, len(cells))
	for i, c := range cells {
		if s, read := readStamp(c, order); read {
			out[i], ok = &s, true
		}
	}
	return out, ok
}

// orderOf finds out from a whole column whether 3/4/2027 is day/month: some row
// has a day over 12. sure is false if none has.
func orderOf(cells []string) (order dateOrder, sure bool) {
	slashed := false
	for _, c := range cells {
		a, rest, ok := strings.Cut(c, "/")
		b, _, two := strings.Cut(rest, "/")
		if !ok || !two || len(a) > 2 || len(b) > 2 {
			continue
		}
		slashed = true
		switch {
		case float(digitsOf(a)) > 12:
			return dayMonth, true
		case float(digitsOf(b)) > 12:
			return monthDay, true
		}
	}
	return monthDay, !slashed
}

func digitsOf(s string) string {
	if strings.Trim(s, "0123456789") != "" {
		return ""
	}
	return s
}

// setTimes gives instants to stamps. Those without a date walk through the days
// such that the last is the latest not after now.
func (t *tableReader) setTimes(stamps []*stamp) {
	loc := t.now.Location()
	var last time.Time
	var open []int
	for i, s := range stamps {
		switch {
		case s == nil:
		case !s.exact.IsZero():
			t.times[i] = s.exact.In(loc)
		case !s.date.IsZero():
			t.times[i] = secondTime(at(s.date, s.hour, loc), last)
		default:
			open = append(open, i)
			continue
		}
		if s != nil {
			last = t.times[i]
		}
	}
	if len(open) > 0 {
		t.placeOpen(stamps, open)
	}
}

// secondTime takes the second of two equal clock times where the first would be
// before the row above: the clocks were set back between them.
func secondTime(at, last time.Time) time.Time {
	again := at.Add(time.Hour)
	if at.Before(last) && !again.Before(last) && again.Format("15:04") == at.Format("15:04") {
		return again
	}
	return at
}

func (t *tableReader) placeOpen(stamps []*stamp, open []int) {
	second := func(i int) int { h := stamps[i].hour; return h.hour*3600 + h.minute*60 + h.second }
	down := 0
	for k := 1; k < len(open); k++ {
		if second(open[k]) < second(open[k-1]) {
			down++
		}
	}
	backward := down*2 > len(open)
	if backward { // newest first
		for i, j := 0, len(open)-1; i < j; i, j = i+1, j-1 {
			open[i], open[j] = open[j], open[i]
		}
	}
	days := make([]int, len(open))
	for k := 1; k < len(open); k++ {
		days[k] = days[k-1]
		if second(open[k]) < second(open[k-1])-3600 {
			days[k]++
		}
	}
	loc := t.now.Location()
	end := plan.DateOf(t.now, loc)
	newest := len(open) - 1
	if at(end, stamps[open[newest]].hour, loc).After(t.now) {
		end = end.AddDays(-1)
	}
	var last time.Time
	for k, i := range open {
		last = secondTime(at(end.AddDays(days[k]-days[newest]), stamps[i].hour, loc), last)
		t.times[i] = last
	}
	t.remark("No date in the file: its last reading is taken as " + last.Format("Monday 2 January 15:04") + ".")
}
