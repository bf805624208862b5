package course

import (
	"fmt"
	"testing"
	"time"

	"larderhand/store"
)

// Of a smoke nobody answers, "nearly there" apart, no two questions come in one minute, after the third they
// are an hour apart at least, and by day never more than four and a quarter: common
// practice, no source.
func TestASmokeNobodyAnswers(t *testing.T) {
	r := rhythmIn(t, "UTC")
	for _, cores := range [][]float64{{}, {40}, {90, 120, 128, 139}, {90, 120, 133, 136}, {60, 80, 95, 105, 115}, {100, 130, 152}, {120, 119, 119}} {
		list := []told{{string(Smoking), "", "10 08:00", ""}}
		for i, core := range cores {
			list = append(list, readAt(fmt.Sprintf("10 %02d:00", 9+i), 158, core))
		}
		s := smokeState(120, list...)
		var said []store.Chore
		last, before := time.Time{}, ""
		for range 25 {
			var next store.Want
			for _, w := range Wants(s, r, said) {
				if next.Due.IsZero() || w.Due.Before(next.Due) {
					next = w
				}
			}
			if next.Due.IsZero() {
				t.Fatal(cores, ": silent, with meat in the smoke")
			}
			at := latest(next.Due, last)
			if !last.IsZero() && next.Kind != NearlyThere && before != NearlyThere {
				gap := at.Sub(last)
				if gap < 5*time.Minute || len(said) > patience && gap < slowest {
					t.Fatalf("%s %v after the ping before, %d unanswered: %v", next.Kind, gap, len(said), said)
				}
				if night := at.Day() != last.Day() || at.Hour() >= 22 || last.Hour() < 8; gap > mostApart+together && !night && len(said) > patience {
					t.Fatalf("%s only %v after the ping before", next.Kind, gap)
				}
			}
			last, before = at, next.Kind
			said = append(said, store.Chore{Kind: next.Kind, Piece: next.Piece, Slot: next.Slot, Due: next.Due, Sent: at, State: store.StateSent})
		}
		s.Muted = true
		for _, w := range Wants(s, r, said) {
			if w.Kind == AskReading || w.Kind == string(Smoked) {
				t.Fatalf("told to stop, and asks on: %v", w)
			}
		}
	}
}
