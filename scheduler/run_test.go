package scheduler_test

import (
	"context"
	"errors"
	"fmt"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"larderhand/scheduler"
	"larderhand/store"
)

// live runs a scheduler on the bubble's own clock, moved by skew, until the
// returned function has ended it.
func (d *desk) live(skew *atomic.Int64) (stop func()) {
	d.s.Workers = 8
	d.now = func() time.Time { return time.Now().Add(time.Duration(skew.Load())) }
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- d.s.Run(ctx, d.now) }()
	return func() {
		cancel()
		if err := <-ended; err != nil {
			d.t.Error(err)
		}
	}
}

func TestAStuckConversationDelaysNoOther(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		d := newDesk(t)
		for i := range 5 {
			d.plant(store.Address(fmt.Sprintf("a:stuck%d", i)), fmt.Sprintf("stuck%d", i), time.Now(), store.Urgent)
		}
		for i := range 100 {
			d.plant(store.Address(fmt.Sprintf("a:%d", i)), fmt.Sprint(i), time.Now(), store.Routine)
		}
		begun := time.Now()
		d.answer = func(ctx context.Context, m message) error {
			if len(m.to) > 7 && m.to[:7] == "a:stuck" {
				<-ctx.Done() // hangs until it is cut off
				return ctx.Err()
			}
			return nil
		}
		stop := d.live(new(atomic.Int64))
		defer stop()
		<-time.After(25 * time.Second)
		synctest.Wait()
		if n := len(d.messages()); n != 100 {
			t.Errorf("%d of 100 arrived while others hung", n)
		}
		for _, m := range d.messages() {
			if m.at.Sub(begun) > time.Second {
				t.Errorf("%s waited %v", m.to, m.at.Sub(begun))
			}
		}
		// A hanging conversation is tried again, never twice at a time, and what it
		// missed comes in the end.
		d.mu.Lock()
		d.answer = nil
		d.mu.Unlock()
		<-time.After(5 * time.Minute)
		synctest.Wait()
		for i := range 5 {
			if n := d.times()[fmt.Sprintf("stuck%d", i)]; n != 1 {
				t.Errorf("stuck%d came %d times", i, n)
			}
		}
	})
}

func TestASlowPlatformDelaysNoOther(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		d := newDesk(t)
		for i := range 50 {
			d.plant(store.Address(fmt.Sprintf("slow:%d", i)), fmt.Sprint("s", i), time.Now(), store.Routine)
			d.plant(store.Address(fmt.Sprintf("quick:%d", i)), fmt.Sprint("q", i), time.Now(), store.Routine)
		}
		begun := time.Now()
		d.answer = func(ctx context.Context, m message) error {
			if m.to.Lane() == "slow" {
				<-time.After(20 * time.Second)
			}
			return nil
		}
		stop := d.live(new(atomic.Int64))
		defer stop()
		<-time.After(10 * time.Minute)
		synctest.Wait()
		if n := len(d.times()); n != 100 {
			t.Errorf("%d of 100 arrived", n)
		}
		for slot, n := range d.times() {
			if n != 1 {
				t.Errorf("%s came %d times", slot, n)
			}
		}
		for _, m := range d.messages() {
			if m.to.Lane() == "quick" && m.at.Sub(begun) > time.Second {
				t.Errorf("%s waited %v", m.to, m.at.Sub(begun))
			}
		}
	})
}

func TestTheEndWaitsForWhatIsOnItsWayButNotForEver(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		d := newDesk(t)
		d.plant("a:1", "takes 5 s", time.Now(), store.Routine)
		d.plant("a:2", "hangs", time.Now(), store.Routine)
		d.answer = func(ctx context.Context, m message) error {
			if m.to == "a:2" {
				<-ctx.Done()
				return ctx.Err()
			}
			select {
			case <-time.After(5 * time.Second):
				return nil
			case <-ctx.Done():
				return ctx.Err()
			}
		}
		stop := d.live(new(atomic.Int64))
		<-time.After(time.Second)
		begun := time.Now()
		stop()
		if took := time.Since(begun); took > 11*time.Second {
			t.Errorf("it took %v to end", took)
		}
		if n := d.times(); n["takes 5 s"] != 1 || n["hangs"] != 0 {
			t.Errorf("said: %v", n)
		}
		// The next process says the other, and only that.
		d.answer = nil
		d.s = d.scheduler()
		stop = d.live(new(atomic.Int64))
		<-time.After(5 * time.Minute)
		stop()
		if n := d.times(); n["takes 5 s"] != 1 || n["hangs"] != 1 {
			t.Errorf("said in the end: %v", n)
		}
	})
}

func TestTheClockJumps(t *testing.T) {
	const day = 24 * time.Hour
	for _, jump := range []time.Duration{day, -day, 365 * day, -365 * day, time.Hour, -time.Hour} {
		if testing.Short() && jump > 0 && jump != day {
			continue
		}
		t.Run(jump.String(), func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				d := newDesk(t)
				d.s.Limits = map[string]scheduler.Limits{"a": {All: scheduler.Rate{Limit: 29, Burst: 1},
					Chat: func(a store.Address) (string, scheduler.Rate) { return string(a), scheduler.Rate{Limit: 1, Burst: 1} }}}
				for i := range 12 {
					d.plant("a:1", fmt.Sprint(i), time.Now().Add(time.Duration(i)*time.Hour), store.Routine)
				}
				failed := false
				d.answer = func(context.Context, message) error {
					if !failed {
						failed = true
						return &store.Failure{Kind: store.Wait, After: 90 * time.Second, Cause: errors.New("429")}
					}
					return nil
				}
				var skew atomic.Int64
				stop := d.live(&skew)
				<-time.After(10*time.Minute + 30*time.Second)
				synctest.Wait()
				before := len(d.messages())
				if before != 1 {
					t.Fatalf("%d messages before the jump", before)
				}
				skew.Store(int64(jump))
				<-time.After(5 * time.Minute)
				synctest.Wait()
				after := len(d.messages()) - before
				switch {
				case jump < 0 && after != 0:
					t.Errorf("%d messages although the clock was set back", after)
				case jump > 0 && after != 1:
					t.Errorf("%d messages where all that came due makes one", after)
				}
				// Set right again, nothing is lost and nothing comes twice.
				skew.Store(0)
				<-time.After(13 * time.Hour)
				stop()
				if n := len(d.times()); n != 12 {
					t.Errorf("%d of 12 were said", n)
				}
				for slot, n := range d.times() {
					if n != 1 {
						t.Errorf("%s was said %d times", slot, n)
					}
				}
			})
		})
	}
}
