package curemath

import "time"

// backOver says whether the core, seen to come down to a temperature, was read more
// than a few degrees over it afterwards.
func backOver(rs []CoreReading, level Fahrenheit) bool {
	above, down := false, false
	for _, r := range rs {
		switch {
		case r.Temp > level+rewarming && down:
			return true
		case r.Temp > level:
			above = true
		case above:
			down = true
		}
	}
	return false
}

// warmAgain goes on with a last window the core had come through. From the first
// reading more than a few degrees over its end until one at or under it the core is
// warm again: read, that is the time between the warm readings; at most, from the
// cold reading before to the cold one after.
func (c *WindowCheck) warmAgain(rs []CoreReading, now time.Time) {
	if c.End.IsZero() || c.State == WindowFailed {
		return
	}
	took := c.Took
	if c.State == WindowUnshown { // what it took nobody knows
		took = 0
	}
	cold, first := c.End, time.Time{}
	shown, most := took, took // of the window's time, as read and at most
	for _, r := range rs {
		switch {
		case r.At.Before(c.End):
		case r.Temp <= c.Window.To:
			if !first.IsZero() {
				most += r.At.Sub(cold)
			}
			cold, first = r.At, time.Time{}
		case r.Temp > c.Window.To+rewarming && first.IsZero():
			first = r.At
			c.Spells++
		}
		if !first.IsZero() && r.Temp > c.Window.To && r.At.After(first) {
			shown += r.At.Sub(later(first, lastBefore(rs, r.At)))
		}
		if shown > took && shown >= c.Window.Within {
			c.State, c.Took, c.Sure = WindowFailed, shown, true
			return
		}
	}
	switch {
	case c.Spells == 0:
	case !first.IsZero():
		c.State, c.Sure, c.Warm = WindowWarmAgain, false, first
		c.Start, c.End = cold, time.Time{}
		c.Took = rs[len(rs)-1].At.Sub(cold)
		c.Deadline = cold.Add(max(c.Window.Within-most, 0))
		c.Left = max(c.Deadline.Sub(now), 0)
	case most > c.Window.Within:
		c.State, c.Sure, c.Took = WindowUnshown, false, most
	}
}

// lastBefore is when the core was last read before an instant.
func lastBefore(rs []CoreReading, at time.Time) time.Time {
	last := time.Time{}
	for _, r := range rs {
		if r.At.Before(at) {
			last = r.At
		}
	}
	return last
}
