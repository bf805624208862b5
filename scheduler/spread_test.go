package scheduler_test

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"larderhand/store"
)

// What fails together is not tried again together: of 50 second tries no two thirds
// come within the same second.
func TestSecondTriesSpread(t *testing.T) {
	const chores = 50
	d := newDesk(t)
	for i := range chores {
		d.plant(store.Address(fmt.Sprintf("a:%d", i)), "flip", start, store.Routine)
	}
	var second []time.Duration
	tries := map[store.Address]int{}
	d.answer = func(_ context.Context, m message) error {
		if tries[m.to]++; tries[m.to] == 1 {
			return errors.New("connection refused")
		}
		second = append(second, m.at.Sub(start))
		return nil
	}
	d.advance(time.Minute)
	if len(second) != chores {
		t.Fatalf("%d second tries", len(second))
	}
	in := map[time.Duration]int{}
	for _, after := range second {
		in[after.Truncate(time.Second)]++
	}
	for at, n := range in {
		if n > chores*2/3 { // 5 s with 30 % jitter either way: about 17 a second
			t.Errorf("%d of %d second tries came within the second after %v", n, chores, at)
		}
	}
}
