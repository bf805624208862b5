package discordtest

import (
	"sync"
	"time"
)

// Clock is a clock that only moves when told. The zero value is not usable;
// see NewClock.
type Clock struct {
	mu  sync.Mutex
	now time.Time
}

// NewClock returns a clock standing at the given instant.
func NewClock(at time.Time) *Clock { return &Clock{now: at} }

// Now returns the instant the clock stands at.
func (c *Clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

// Advance moves the clock forward.
func (c *Clock) Advance(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = c.now.Add(d)
}
