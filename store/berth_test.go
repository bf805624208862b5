package store

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"
)

// Chores due together lie together, whenever they were planted and whatever they were
// due at before; those of other minutes lie elsewhere, in the order they are due.
func TestChoresDueTogetherLieTogether(t *testing.T) {
	db := pending(t, 300)
	at := func(minute int) time.Time { return benchNow.Add(time.Duration(minute) * time.Minute) }
	var dues []int64
	err := db.Update(t.Context(), benchNow, func(tx *Tx) error {
		for _, id := range []int64{7, 299, 42, 100} {
			if err := planAnew(tx, id, id, Want{Kind: "flip", Slot: "x", Due: at(5000).Add(time.Duration(id) * time.Second / 10)}); err != nil {
				return err
			}
		}
		if err := tx.Enqueue(8, "buy", "1", "", at(5000), Routine); err != nil {
			return err
		}
		var err error
		dues, err = gather(tx, itself[int64], "SELECT due_at / 60000 FROM chore ORDER BY id")
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.IsSorted(dues) || len(dues) != 301 || dues[296] != dues[300] || dues[295] == dues[296] {
		t.Errorf("%d rows, due in minutes %v", len(dues), dues)
	}
}

// Where a minute has no room left, chores are planted all the same.
func TestAFullMinuteHasRoomBehind(t *testing.T) {
	db := pending(t, 3)
	_, to := berth(benchNow)
	err := db.Update(t.Context(), benchNow, func(tx *Tx) error {
		if _, err := tx.exec("UPDATE chore SET id = ? WHERE conversation_id = 1", to); err != nil {
			return err
		}
		for i := range 3 {
			if err := tx.Enqueue(2, "buy", fmt.Sprint(i), "", benchNow, Routine); err != nil {
				return err
			}
			if err := planAnew(tx, 3, 3, Want{Kind: "flip", Slot: "x", Due: benchNow.Add(time.Duration(i))}, Want{Kind: "flip", Slot: fmt.Sprint(i), Due: benchNow}); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	got, err := db.Claim(context.Background(), benchNow, "telegram", "the-only-lease", benchNow.Add(time.Minute), 100)
	if err != nil || len(got) != 5 {
		t.Errorf("claimed %d, want 5: %+v, %v", len(got), got, err)
	}
}

// However odd an instant is, its berth has room and begins behind 0, which is no id.
func TestBerthOfAnyInstant(t *testing.T) {
	for _, due := range []time.Time{{}, time.Unix(0, 0), time.Unix(-1e9, 0), benchNow, time.Date(9999, 12, 31, 23, 59, 0, 0, time.UTC), time.UnixMilli(1 << 62)} {
		from, to := berth(due)
		if from < 1 || to-from != 1<<24-2 {
			t.Errorf("%v: from %d to %d", due, from, to)
		}
	}
}

// What was dropped while it was being said, and is wanted again for another time, is
// recorded as said all the same.
func TestWhatWasSaidMeanwhileIsRecorded(t *testing.T) {
	db := pending(t, 1)
	flip := func(due time.Time) []Want { return []Want{{Kind: "flip", Slot: "x", Due: due}} }
	plan := func(wants ...Want) {
		t.Helper()
		if err := db.Update(t.Context(), benchNow, func(tx *Tx) error { return planAnew(tx, 1, 1, wants...) }); err != nil {
			t.Fatal(err)
		}
	}
	plan(flip(benchNow)...)
	got, err := db.Claim(t.Context(), benchNow, "telegram", "the-only-lease", benchNow.Add(time.Minute), 10)
	if err != nil || len(got) != 1 {
		t.Fatal(got, err)
	}
	plan()
	plan(flip(benchNow.Add(time.Hour))...)
	if err := db.Update(t.Context(), benchNow, func(tx *Tx) error { return tx.MarkSent(got[0]) }); err != nil {
		t.Fatal(err)
	}
	left, err := db.Claim(t.Context(), benchNow.Add(2*time.Hour), "telegram", "another-lease", benchNow.Add(3*time.Hour), 10)
	if err != nil || len(left) != 0 {
		t.Errorf("said again: %+v, %v", left, err)
	}
}
