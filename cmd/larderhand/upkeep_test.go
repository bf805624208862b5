package main

import (
	"context"
	"errors"
	"log/slog"
	"path/filepath"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/scheduler"
	"larderhand/store"
)

func TestRulesOfZonesAreTheSameTwice(t *testing.T) {
	if a, b := rulesOfZones(), rulesOfZones(); a != b || a == "" {
		t.Errorf("%q and %q", a, b)
	}
}

// A chore planned by rules that hold no more, or hidden by a ping from a clock that
// was ahead, is planned anew.
func TestUpkeepPlansAnew(t *testing.T) {
	clock := &scheduler.HandClock{At: time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)}
	log := slog.New(slog.DiscardHandler)
	a, err := newApp(t.Context(), filepath.Join(t.TempDir(), "a.db"), clock, time.UTC, senders{}, log)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = a.Close() })
	for _, line := range []string{"open 5 lb juniper 1.5 in", "yes"} {
		a.bot.Handle(t.Context(), bot.Message{Conversation: "test:1", Direct: true, Sender: bot.Person{Key: "ines", Name: "Ines", Admin: true}, Text: line})
	}
	due := func() time.Time {
		t.Helper()
		next, err := a.db.Upcoming(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		return next["test"]
	}
	right := time.Date(2027, 3, 2, 8, 0, 0, 0, time.UTC)
	if got := due(); !got.Equal(right) {
		t.Fatalf("planned for %v", got)
	}
	// An hour off, as by the rules of another year.
	err = a.db.Update(t.Context(), clock.At, func(tx *store.Tx) error {
		have, err := tx.Chores(1)
		if err != nil {
			return err
		}
		return tx.Reconcile(1, 1, have, []store.Want{{Kind: "flip", Slot: "2027-03-02", Due: right.Add(time.Hour)}})
	})
	if err != nil {
		t.Fatal(err)
	}
	tidied := 0
	failing := func(context.Context) error { tidied++; return errors.New("made to fail") }
	u := upkeep{db: a.db, bot: a.bot, log: log, tidy: []func(context.Context) error{failing, failing}}
	if err := u.Daily(t.Context(), clock.At); err != nil {
		t.Fatal(err)
	}
	if tidied != 2 {
		t.Errorf("%d of 2 platforms forgot what is old", tidied)
	}
	if got := due(); !got.Equal(right) {
		t.Errorf("after new rules: planned for %v", got)
	}
	// The ping goes out on a clock a year ahead, which then is set right.
	ahead := clock.At.AddDate(1, 0, 0)
	claimed, err := a.db.Claim(t.Context(), ahead, "test", "the-only-lease", ahead.Add(time.Minute), 10)
	if err != nil || len(claimed) != 1 {
		t.Fatal(claimed, err)
	}
	claimed[0].State = store.StateSent
	if err := a.sched.Deliver.Settle(t.Context(), ahead, claimed); err != nil {
		t.Fatal(err)
	}
	if got := due(); got.Equal(right.AddDate(0, 0, 1)) {
		t.Fatal("the wrong clock hides nothing, so there is nothing to test")
	}
	if err := u.SetBack(t.Context(), clock.At); err != nil {
		t.Fatal(err)
	}
	if got := due(); !got.Equal(right.AddDate(0, 0, 1)) {
		t.Errorf("with the clock right again: planned for %v", got)
	}
}
