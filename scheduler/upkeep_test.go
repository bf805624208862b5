package scheduler_test

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"
	"unsafe"
)

// keeping counts what it is asked for, and fails while it is told to.
type keeping struct {
	daily, back atomic.Int32
	fail        atomic.Bool
	panics      bool
}

func (k *keeping) Daily(context.Context, time.Time) error   { k.daily.Add(1); return k.answer() }
func (k *keeping) SetBack(context.Context, time.Time) error { k.back.Add(1); return k.answer() }

func (k *keeping) answer() error {
	switch {
	case !k.fail.Load():
		return nil
	case k.panics:
		panic("no upkeep")
	}
	return errors.New("no upkeep")
}

func (k *keeping) check(t *testing.T, when string, daily, back int32) {
	t.Helper()
	synctest.Wait()
	if k.daily.Load() != daily || k.back.Load() != back {
		t.Errorf("%s: %d daily, %d set back, want %d and %d", when, k.daily.Load(), k.back.Load(), daily, back)
	}
}

func TestUpkeepIsDailyAndAfterTheClockWasSetBack(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		d := newDesk(t)
		k := &keeping{}
		d.s.Upkeep = k
		var skew atomic.Int64
		stop := d.live(&skew)
		defer stop()
		<-time.After(10 * time.Minute)
		k.check(t, "at the start", 1, 0)
		<-time.After(24 * time.Hour)
		k.check(t, "a day later", 2, 0)
		skew.Store(int64(-time.Minute))
		<-time.After(5 * time.Minute)
		k.check(t, "after a small step back", 2, 0)
		skew.Store(int64(-48 * time.Hour))
		<-time.After(5 * time.Minute)
		k.check(t, "after two days back", 3, 1)
		<-time.After(5 * time.Minute)
		k.check(t, "and no more", 3, 1)
	})
}

// wallBack is an instant as a machine gives it whose clock on the wall was set back:
// the reading of the machine's own time, which Sub goes by, stays. The library has
// no way to make one; its first word holds the wall's seconds above 30 bits of
// nanoseconds.
func wallBack(t *testing.T, at time.Time, by time.Duration) time.Time {
	t.Helper()
	back := at
	*(*uint64)(unsafe.Pointer(&back)) -= uint64(by/time.Second) << 30
	if back.Sub(at) != 0 || at.Round(0).Sub(back.Round(0)) != by {
		t.Fatalf("made %v of %v", back, at)
	}
	return back
}

func TestUpkeepSeesTheWallClockAlone(t *testing.T) {
	base := time.Now() // in a bubble instants have no reading of the machine's own time
	synctest.Test(t, func(t *testing.T) {
		begun := time.Now()
		d := newDesk(t)
		k := &keeping{}
		d.s.Upkeep = k
		var back atomic.Int64
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error, 1)
		go func() {
			ended <- d.s.Run(ctx, func() time.Time { return wallBack(t, base.Add(time.Since(begun)), time.Duration(back.Load())) })
		}()
		<-time.After(10 * time.Minute)
		k.check(t, "at the start", 1, 0)
		back.Store(int64(72 * time.Hour))
		<-time.After(10 * time.Minute)
		k.check(t, "after three days back", 2, 1)
		<-time.After(24 * time.Hour)
		k.check(t, "a day later", 3, 1)
		cancel()
		if err := <-ended; err != nil {
			t.Error(err)
		}
	})
}

// Upkeep that fails, or even panics, is tried again soon and with ever longer waits,
// and counts as done once it succeeded.
func TestUpkeepThatFailsIsTriedAgain(t *testing.T) {
	for name, panics := range map[string]bool{"fails": false, "panics": true} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				d := newDesk(t)
				k := &keeping{panics: panics}
				k.fail.Store(true)
				d.s.Upkeep = k
				var skew atomic.Int64
				stop := d.live(&skew)
				defer stop()
				<-time.After(20 * time.Minute)
				synctest.Wait()
				if n := k.daily.Load(); n < 3 || n > 12 {
					t.Errorf("tried %d times in 20 minutes", n)
				}
				k.fail.Store(false)
				<-time.After(time.Hour)
				synctest.Wait()
				n := k.daily.Load()
				<-time.After(22 * time.Hour)
				k.check(t, "once it succeeded", n, 0)
				k.fail.Store(true)
				skew.Store(int64(-48 * time.Hour))
				<-time.After(10 * time.Minute)
				synctest.Wait()
				if b := k.back.Load(); b < 2 {
					t.Errorf("%d tries to see to a clock set back", b)
				}
				k.fail.Store(false)
				<-time.After(time.Hour)
				synctest.Wait()
				after, b := k.daily.Load(), k.back.Load()
				if after <= n {
					t.Error("the daily was not done again once the clock was seen to")
				}
				<-time.After(time.Hour)
				k.check(t, "once both succeeded", after, b)
			})
		})
	}
}
