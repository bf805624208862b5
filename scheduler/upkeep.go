package scheduler

import (
	"context"
	"sync/atomic"
	"time"
)

const (
	// setBack is by how much a clock has to go back for that to be more than the
	// small steps by which clocks are kept right.
	setBack = 2 * time.Minute
	day     = 24 * time.Hour
)

// upkeep has the upkeep done beside the ticks, one thing at a time.
type upkeep struct {
	s     *Scheduler
	ctx   context.Context // ends when there is no more time for it
	last  time.Time       // the tick before
	daily time.Time       // when the daily was last begun
	back  bool            // the clock was set back and nobody has seen to it yet
	busy  atomic.Bool
}

// look is called at every tick.
func (u *upkeep) look(now time.Time) {
	if u.s.Upkeep == nil {
		return
	}
	u.back = u.back || u.last.Sub(now) > setBack
	u.last = now
	switch {
	case u.busy.Load():
	case u.back:
		u.back, u.daily = false, time.Time{}
		u.begin(now, "planning anew after the clock was set back", u.s.Upkeep.SetBack)
	case u.daily.IsZero() || now.Sub(u.daily) >= day:
		u.daily = now
		u.begin(now, "the daily upkeep", u.s.Upkeep.Daily)
	}
}

func (u *upkeep) begin(now time.Time, what string, do func(context.Context, time.Time) error) {
	u.busy.Store(true)
	u.s.flights.Go(func() {
		defer u.busy.Store(false)
		if err := do(u.ctx, now); err != nil && u.ctx.Err() == nil {
			u.s.Log.ErrorContext(u.ctx, what+" failed", "error", err)
		}
	})
}
