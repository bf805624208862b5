package plan

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// The steps are our own: common practice, no source.
func TestSmokeInterval(t *testing.T) {
	for _, c := range []struct {
		left  time.Duration
		known bool
		want  time.Duration
	}{
		{0, false, time.Hour},
		{20 * time.Hour, false, time.Hour},
		{12 * time.Hour, true, 2 * time.Hour},
		{6*time.Hour + 1, true, 2 * time.Hour},
		{6 * time.Hour, true, time.Hour},
		{3*time.Hour + 1, true, time.Hour},
		{3 * time.Hour, true, 30 * time.Minute},
		{time.Hour + 1, true, 30 * time.Minute},
		{time.Hour, true, 15 * time.Minute},
		{0, true, 15 * time.Minute},
		{-2 * time.Hour, true, 15 * time.Minute}, // past the target
	} {
		if got := SmokeInterval(c.left, c.known); got != c.want {
			t.Errorf("%v left (known %v): %v, want %v", c.left, c.known, got, c.want)
		}
	}
}

// Readings asked for at that pace, with a true estimate, come ever closer
// together, end within a quarter of an hour of the target and stay few.
func TestSmokeIntervalReachesTheTarget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		left := time.Duration(rapid.Int64Range(0, int64(48*time.Hour)).Draw(t, "left"))
		asked, was := 0, time.Duration(1<<62)
		for left > 0 {
			wait := SmokeInterval(left, true)
			if wait > was || wait <= 0 {
				t.Fatalf("%v after %v with %v left", wait, was, left)
			}
			left, was = left-wait, wait
			asked++
		}
		if left <= -15*time.Minute || asked > 40 {
			t.Fatalf("%d readings, the last %v past the target", asked, -left)
		}
	})
}

func TestReping(t *testing.T) {
	for n, want := range map[int]int{-1: 1, 0: 1, 1: 1, 2: 1, 3: 3, 4: 3, 100: 3} {
		if got := Reping(n); got != want {
			t.Errorf("after %d unanswered: %d days, want %d", n, got, want)
		}
		if got := AskToStop(n); got != (n >= 3) {
			t.Errorf("after %d unanswered: ask to stop %v", n, got)
		}
	}
}
