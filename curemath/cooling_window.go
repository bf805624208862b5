package curemath

import "time"

// WindowState is how one cooling window stands.
type WindowState int

const (
	// WindowAhead: the core is still above the window.
	WindowAhead WindowState = iota + 1
	// WindowRunning: inside, with time left.
	WindowRunning
	// WindowMet: passed in time.
	WindowMet
	// WindowFailed: readings show it took, or has taken, too long.
	WindowFailed
	// WindowOverdue: the time is up and no reading says whether the core made it.
	WindowOverdue
)

// WindowCheck is one window as the readings show it.
type WindowCheck struct {
	Window CoolingWindow
	State  WindowState
	// Start and End are when the core passed the two temperatures, read off the
	// straight line between readings; zero when it has not. Deadline is Start plus
	// the window's time.
	Start, End, Deadline time.Time
	// Took is from Start to End, or to the last reading while it is not over.
	Took time.Duration
	// Left is from now to the deadline while the window runs.
	Left time.Duration
	// StartUnread: the first reading was already below the window, so Took is a
	// least and the window cannot be shown to be met.
	StartUnread bool
	// Sure is true when the state would be the same wherever between its two
	// readings the core passed each temperature.
	Sure bool
}

// passing is when the core passed a temperature: on the straight line, and the
// two readings that bracket it.
type passing struct{ earliest, at, latest time.Time }

// passingOn reads a passing off a falling line. A reading of exactly that
// temperature leaves nothing open.
func passingOn(s coreSpan, level Fahrenheit) passing {
	at := s.crossing(level)
	if s.from.Temp == level || s.to.Temp == level {
		return passing{at, at, at}
	}
	return passing{s.from.At, at, s.to.At}
}

// findStart finds where the core first came down through a temperature. The
// readings begin where the heat ends. Unread is true when the first of them is
// already below, and nothing says since when.
func findStart(rs []CoreReading, level Fahrenheit, heatOff time.Time, risen bool) (start passing, from int, unread, found bool) {
	if rs[0].Temp < level {
		first := rs[0].At
		switch {
		case !heatOff.IsZero() && !heatOff.After(first):
			// It cannot have begun to cool before the heat was off.
			return passing{heatOff, heatOff, first}, 0, false, true
		case !heatOff.IsZero() || risen:
			// It was below while the heat was on or was seen warming up to here, so
			// the whole time since counts.
			return passing{first, first, first}, 0, false, true
		}
		return passing{first, first, first}, 0, true, true
	}
	for i := 1; i < len(rs); i++ {
		if rs[i].Temp < level {
			return passingOn(coreSpan{rs[i-1], rs[i]}, level), i - 1, false, true
		}
	}
	if last := rs[len(rs)-1]; last.Temp == level {
		return passing{last.At, last.At, last.At}, len(rs) - 1, false, true
	}
	return passing{}, 0, false, false
}

// findEnd finds where the core first came to a temperature, from a reading on.
func findEnd(rs []CoreReading, from int, level Fahrenheit, notBefore time.Time) (passing, bool) {
	if rs[from].Temp <= level {
		return passing{notBefore, rs[from].At, rs[from].At}, true
	}
	for i := from + 1; i < len(rs); i++ {
		if rs[i].Temp <= level {
			return passingOn(coreSpan{rs[i-1], rs[i]}, level), true
		}
	}
	return passing{}, false
}

func checkWindow(w CoolingWindow, rs []CoreReading, heatOff, now time.Time, risen bool) WindowCheck {
	c := WindowCheck{Window: w, State: WindowAhead, Sure: true}
	start, from, unread, begun := findStart(rs, w.From, heatOff, risen)
	if !begun {
		return c
	}
	last := rs[len(rs)-1]
	c.Start, c.Deadline, c.StartUnread = start.at, start.at.Add(w.Within), unread
	if end, done := findEnd(rs, from, w.To, start.at); done {
		c.End, c.Took = end.at, end.at.Sub(start.at)
		c.State = WindowMet
		if c.Took > w.Within {
			c.State = WindowFailed
		}
		shortest, longest := end.earliest.Sub(start.latest), end.latest.Sub(start.earliest)
		c.Sure = !unread && (shortest > w.Within) == (longest > w.Within)
		if unread && c.State == WindowFailed {
			c.Sure = shortest > w.Within
		}
		return c
	}
	c.Took = last.At.Sub(start.at)
	switch {
	case c.Took >= w.Within && (c.Took > w.Within || now.After(c.Deadline)):
		c.State = WindowFailed
		c.Sure = last.At.Sub(start.latest) >= w.Within
	case now.After(c.Deadline):
		c.State = WindowOverdue
		c.Sure = false
	default:
		c.State = WindowRunning
		c.Left = c.Deadline.Sub(now)
		c.Sure = !unread
	}
	return c
}
