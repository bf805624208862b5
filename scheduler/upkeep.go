package scheduler

import (
	"context"
	"sync"
	"time"

	"larderhand/scheduler/safely"
	"larderhand/store"
)

const (
	// setBack is by how much a clock has to go back for that to be more than the
	// small steps by which clocks are kept right.
	setBack = 2 * time.Minute
	day     = 24 * time.Hour
)

// upkeep has the upkeep done beside the ticks, one thing at a time.
type upkeep struct {
	s    *Scheduler
	ctx  context.Context // ends when there is no more time for it
	last time.Time       // the tick before

	mu      sync.Mutex // guards what follows
	busy    bool
	backs   int       // how often the clock was set back
	seenTo  int       // how many of those were seen to
	daily   time.Time // when the daily that succeeded last was begun
	setting tries     // of seeing to a clock set back
	days    tries     // of the daily
}

// tries is what failed since it succeeded last.
type tries struct {
	n     int
	again time.Time // not before then
}

// look is called at every tick.
func (u *upkeep) look(now time.Time) {
	if u.s.Upkeep == nil {
		return
	}
	u.mu.Lock()
	defer u.mu.Unlock()
	// Sub goes by the machine's own time where both have it, and that is never set
	// back; what counts here is what the clock on the wall showed.
	wall := now.Round(0)
	if u.last.Sub(wall) > setBack {
		u.backs++
		// Nothing that was waited for by the wrong clock is.
		u.daily, u.setting, u.days = time.Time{}, tries{}, tries{}
	}
	u.last = wall
	switch {
	case u.busy:
	case u.backs > u.seenTo && !now.Before(u.setting.again):
		u.begin(now, "planning anew after the clock was set back", &u.setting, u.s.Upkeep.SetBack, func(backs int) { u.seenTo = backs })
	case (u.daily.IsZero() || wall.Sub(u.daily) >= day) && !now.Before(u.days.again):
		u.begin(now, "the daily upkeep", &u.days, u.s.Upkeep.Daily, func(backs int) {
			if backs == u.backs { // or it was begun by a clock that was wrong
				u.daily = wall
			}
		})
	}
}

// begin has something done, and afterwards done with or tried again in a while. done
// is told how often the clock had been set back when it was begun.
func (u *upkeep) begin(now time.Time, what string, t *tries, do func(context.Context, time.Time) error, done func(backs int)) {
	u.busy = true
	backs := u.backs
	u.s.flights.Go(func() {
		err := safely.Do(what, func() error { return do(u.ctx, now) })
		u.mu.Lock()
		defer u.mu.Unlock()
		u.busy = false
		if err == nil {
			*t = tries{}
			done(backs)
			return
		}
		t.n++
		t.again = u.s.now().Add(wait(&store.Failure{}, t.n))
		if u.ctx.Err() == nil {
			u.s.Log.ErrorContext(u.ctx, what+" failed", "error", err)
		}
	})
}
