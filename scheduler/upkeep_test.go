package scheduler_test

import (
	"context"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"
)

// keeping counts what it is asked for.
type keeping struct{ daily, back atomic.Int32 }

func (k *keeping) Daily(context.Context, time.Time) error   { k.daily.Add(1); return nil }
func (k *keeping) SetBack(context.Context, time.Time) error { k.back.Add(1); return nil }

func TestUpkeepIsDailyAndAfterTheClockWasSetBack(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		d := newDesk(t)
		k := &keeping{}
		d.s.Upkeep = k
		var skew atomic.Int64
		stop := d.live(&skew)
		defer stop()
		check := func(when string, daily, back int32) {
			t.Helper()
			synctest.Wait()
			if k.daily.Load() != daily || k.back.Load() != back {
				t.Errorf("%s: %d daily, %d set back", when, k.daily.Load(), k.back.Load())
			}
		}
		<-time.After(10 * time.Minute)
		check("at the start", 1, 0)
		<-time.After(24 * time.Hour)
		check("a day later", 2, 0)
		skew.Store(int64(-time.Minute))
		<-time.After(5 * time.Minute)
		check("after a small step back", 2, 0)
		skew.Store(int64(-48 * time.Hour))
		<-time.After(5 * time.Minute)
		check("after two days back", 3, 1)
		<-time.After(5 * time.Minute)
		check("and no more", 3, 1)
	})
}
