package plan

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestLate(t *testing.T) {
	due := instant(t, "2027-03-01T08:00:00+01:00")
	for _, c := range []struct {
		now   string
		want  Lateness
		worth bool
	}{
		{"2027-03-01T08:00:00+01:00", Lateness{}, false},
		{"2027-03-01T07:00:00+01:00", Lateness{}, false}, // early
		{"2027-03-01T08:00:59+01:00", Lateness{}, false},
		{"2027-03-01T08:04:59+01:00", Lateness{Minutes: 4}, false},
		{"2027-03-01T08:05:00+01:00", Lateness{Minutes: 5}, true},
		{"2027-03-01T11:20:00+01:00", Lateness{Hours: 3, Minutes: 20}, true},
		{"2027-03-01T11:20:00Z", Lateness{Hours: 4, Minutes: 20}, true}, // another zone
		{"2027-03-03T09:01:00+01:00", Lateness{Days: 2, Hours: 1, Minutes: 1}, true},
	} {
		got := Late(due, instant(t, c.now))
		if got != c.want || got.Worth() != c.worth {
			t.Errorf("at %s: %+v, worth telling %v", c.now, got, got.Worth())
		}
	}
}

func TestLatePartsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		due := time.Unix(rapid.Int64().Draw(t, "due"), 0)
		now := time.Unix(rapid.Int64().Draw(t, "now"), 0)
		if rapid.Bool().Draw(t, "near") {
			now = due.Add(time.Duration(rapid.Int64().Draw(t, "after")))
		}
		l := Late(due, now)
		if l.Days < 0 || l.Hours < 0 || l.Hours > 23 || l.Minutes < 0 || l.Minutes > 59 {
			t.Fatalf("%+v", l)
		}
		if delay := max(now.Sub(due), 0); l.Duration() != delay.Truncate(time.Minute) {
			t.Fatalf("%+v for %v", l, delay)
		}
	})
}
