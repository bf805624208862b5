package scheduler_test

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"larderhand/store"
)

// poison is a deliverer that panics over recording one slot.
type poison struct {
	*desk
	slot string
}

func (p poison) Settle(ctx context.Context, now time.Time, chores []store.Chore) error {
	for _, c := range chores {
		if c.Slot == p.slot {
			panic("poison")
		}
	}
	return p.desk.Settle(ctx, now, chores)
}

// One ping that panics whoever records it ends nothing and holds no other up, and is
// not said all the time.
func TestAPanicInRecordingKeepsTheOthers(t *testing.T) {
	d := newDesk(t)
	d.s.Deliver = poison{d, "b"}
	for _, slot := range []string{"a", "b", "c"} {
		d.plant(store.Address("x:"+slot), slot, start, store.Routine)
	}
	d.advance(30 * time.Minute)
	if n := d.times(); n["a"] != 1 || n["b"] != 1 || n["c"] != 1 {
		t.Errorf("said %v", n)
	}
	d.plant("x:d", "d", d.clock.At, store.Routine)
	d.advance(24 * time.Hour)
	if n := d.times(); n["a"] != 1 || n["d"] != 1 || n["b"] > 36 {
		t.Errorf("said %v", n)
	}
}

func TestAPanicInRecordingEndsNoRun(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		d := newDesk(t)
		d.s.Deliver = poison{d, "b"}
		for _, slot := range []string{"a", "b", "c"} {
			d.plant(store.Address("x:"+slot), slot, time.Now(), store.Routine)
		}
		stop := d.live(new(atomic.Int64))
		<-time.After(20 * time.Minute)
		synctest.Wait()
		stop()
		if n := d.times(); n["a"] != 1 || n["b"] != 1 || n["c"] != 1 {
			t.Errorf("said %v", n)
		}
	})
}

// The same for one that is given up.
func TestAPanicInGivingUpEndsNothing(t *testing.T) {
	d := newDesk(t)
	d.s.Deliver = poison{d, "b"}
	d.answer = func(_ context.Context, m message) error {
		if m.to == "x:b" {
			return &store.Failure{Kind: store.Refused, Cause: errors.New("no")}
		}
		return nil
	}
	for _, slot := range []string{"a", "b", "c"} {
		d.plant(store.Address("x:"+slot), slot, start, store.Routine)
	}
	d.advance(10 * time.Minute)
	if n := d.times(); n["a"] != 1 || n["c"] != 1 {
		t.Errorf("said %v", n)
	}
}
