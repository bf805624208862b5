package scheduler

import (
	"context"
	"time"
)

// Upcoming says when the next chore is to be taken up.
type Upcoming interface {
	NextDue(ctx context.Context) (at time.Time, ok bool, err error)
}

// HandClock is a clock moved by hand, for a simulated run. It is not for use by
// several goroutines.
type HandClock struct{ At time.Time }

// Now is where the clock was moved to.
func (c *HandClock) Now() time.Time { return c.At }

// Advance moves a clock to an instant as the heartbeat would have done it: it
// stops at every whole minute at which something is due and ticks there. A clock
// is never moved back.
func (s *Scheduler) Advance(ctx context.Context, c *HandClock, u Upcoming, to time.Time) error {
	for {
		at, ok, err := u.NextDue(ctx)
		if err != nil {
			return err
		}
		if at.Before(c.At) {
			at = c.At
		}
		if minute := at.Truncate(time.Minute); minute.Before(at) {
			at = minute.Add(time.Minute)
		}
		if !ok || at.After(to) {
			break
		}
		c.At = at.In(c.At.Location())
		if _, err := s.Tick(ctx, c.At); err != nil {
			return err
		}
	}
	if to.After(c.At) {
		c.At = to
	}
	return nil
}
