package scheduler_test

import (
	"fmt"
	"runtime"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"larderhand/store"
)

// A thousand chores to come are waited for by no more goroutines than one: there is
// one heartbeat and one timer however many batches there are.
func TestWaitingCostsTheSameForAny(t *testing.T) {
	waiting := map[int]int{}
	for _, chores := range []int{1, 1000} {
		synctest.Test(t, func(t *testing.T) {
			d := newDesk(t)
			for i := range chores {
				d.plant(store.Address(fmt.Sprintf("a:%d", i)), "flip", time.Now().Add(24*time.Hour), store.Routine)
			}
			stop := d.live(new(atomic.Int64))
			defer stop()
			<-time.After(3 * time.Hour)
			synctest.Wait()
			waiting[chores] = runtime.NumGoroutine()
			if n := len(d.messages()); n != 0 {
				t.Errorf("%d messages before anything was due", n)
			}
		})
	}
	if waiting[1000] > waiting[1]+2 { // the database's own may differ by one or two
		t.Errorf("goroutines by chores: %v", waiting)
	}
}
