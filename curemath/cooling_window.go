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
	// WindowUnshown: the core came to the end of the window, but no reading in time
	// says so; on the straight line between the readings it was in time.
	WindowUnshown
	// WindowWarmAgain: met once, and since read more than a few degrees over its end.
	WindowWarmAgain
)

// WindowCheck is one window as the readings show it. Where a temperature was passed
// between two readings the cautious side is taken: the time counts from the last
// reading at or above the window's start, or from the end of the heat if that was
// later, and only a reading at or under its end stops it.
type WindowCheck struct {
	Window CoolingWindow
	State  WindowState
	// Start is what the time counts from; zero while the core is above the window.
	// End is the first reading at or under the window's end; zero without one.
	Start, End time.Time
	// Deadline is Start plus the window's time; while the core is above the window,
	// the earliest it can come to be: the last reading plus the window's time.
	Deadline time.Time
	// Took is from Start to End, so at most what the core needed, or to the last
	// reading while it is not over.
	Took time.Duration
	// Left is from now to the deadline while the window runs.
	Left time.Duration
	// StartUnread: the first reading was already below the window, so Took is a
	// least and the window cannot be shown to be met.
	StartUnread bool
	// Warm is the first reading of a core warm again, with WindowWarmAgain; Start is
	// then the last cold one before it, and Deadline when what is left of the
	// window's time is up. Spells is how often it has been warm again.
	Warm   time.Time
	Spells int
	// ByLine is true where it failed because even the straight line between the
	// readings was too slow: it was read under its end, but too late to show more.
	ByLine bool
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

// notBefore moves a passing to an instant before which it cannot have been.
func (p passing) notBefore(t time.Time) passing {
	return passing{later(p.earliest, t), later(p.at, t), later(p.latest, t)}
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
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
			return passingOn(coreSpan{rs[i-1], rs[i]}, level).notBefore(heatOff), i - 1, false, true
		}
	}
	if last := rs[len(rs)-1]; last.Temp == level {
		return passing{last.At, last.At, last.At}.notBefore(heatOff), len(rs) - 1, false, true
	}
	return passing{}, 0, false, false
}

// ending is where the core first came to a temperature: the passing, the first
// reading there, and the last before it.
type ending struct {
	passing
	read, before CoreReading
}

// findEnd finds it, from a reading on.
func findEnd(rs []CoreReading, from int, level Fahrenheit, notBefore time.Time) (ending, bool) {
	if first := rs[from]; first.Temp <= level {
		return ending{passing{notBefore, first.At, first.At}, first, first}, true
	}
	for i := from + 1; i < len(rs); i++ {
		if rs[i].Temp <= level {
			return ending{passingOn(coreSpan{rs[i-1], rs[i]}, level), rs[i], rs[i-1]}, true
		}
	}
	return ending{}, false
}

func checkWindow(w CoolingWindow, rs []CoreReading, heatOff, now time.Time, risen bool) WindowCheck {
	c := WindowCheck{Window: w, State: WindowAhead, Sure: true}
	last := rs[len(rs)-1]
	start, from, unread, begun := findStart(rs, w.From, heatOff, risen)
	if !begun {
		// Unread since, it may have come into the window the moment after.
		c.Deadline = later(last.At, heatOff).Add(w.Within)
		if now.After(c.Deadline) {
			c.State, c.Sure = WindowOverdue, false
		}
		return c
	}
	c.Start, c.Deadline, c.StartUnread = start.earliest, start.earliest.Add(w.Within), unread
	if end, done := findEnd(rs, from, w.To, start.earliest); done {
		c.end(w, start, end)
		return c
	}
	c.Took = max(last.At.Sub(c.Start), 0)
	switch {
	case c.Took >= w.Within:
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

// end judges a window the core has come through: met only if a reading in time says
// so; missed if the last reading above its end came too late, or if even the
// straight line from a reading in the window did. A line from above the window says
// nothing of it: what is hot falls fast at first.
func (c *WindowCheck) end(w CoolingWindow, start passing, end ending) {
	c.End = end.read.At
	c.Took = max(c.End.Sub(c.Start), 0)
	shortest := end.earliest.Sub(start.latest)
	stillAbove := end.before.Temp > w.To && !end.before.At.Before(c.Deadline)
	switch {
	case c.Took <= w.Within:
		c.State, c.Sure = WindowMet, !c.StartUnread
	case stillAbove || end.before.Temp <= w.From && end.at.Sub(start.at) > w.Within:
		c.State, c.Sure, c.ByLine = WindowFailed, shortest > w.Within, !stillAbove
	default:
		c.State, c.Sure = WindowUnshown, false
	}
}
