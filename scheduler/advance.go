package scheduler

import (
	"context"
	"time"
)

// HandClock is a clock moved by hand, for a simulated run. It is not for use by
// several goroutines.
type HandClock struct{ At time.Time }

// Now is where the clock was moved to.
func (c *HandClock) Now() time.Time { return c.At }

// Advance moves a clock to an instant as it would have passed: it stops at every
// instant at which something is due and ticks there. A clock is never moved back.
func (s *Scheduler) Advance(ctx context.Context, c *HandClock, to time.Time) error {
	for {
		next, err := s.Tick(ctx, c.At)
		if err != nil {
			return err
		}
		if next.IsZero() || next.After(to) {
			break
		}
		c.At = next.In(c.At.Location())
	}
	if to.After(c.At) {
		c.At = to
	}
	return nil
}
