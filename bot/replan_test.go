package bot_test

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/ledger"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

// watchedBooks counts changes, and has a journal that cannot be read or
// planned by.
type watchedBooks struct {
	ledger.Ledger
	updates int
	journal func(batch int64) error // nil: all can be read
	plan    func(batch int64)       // nil: all can be planned
}

type watchedTx struct {
	bot.Tx
	books *watchedBooks
}

func (w *watchedBooks) Update(ctx context.Context, now time.Time, fn func(bot.Tx) error) error {
	w.updates++
	return w.Ledger.Update(ctx, now, func(tx bot.Tx) error { return fn(watchedTx{tx, w}) })
}

func (w *watchedBooks) View(ctx context.Context, now time.Time, fn func(bot.Tx) error) error {
	return w.Ledger.View(ctx, now, func(tx bot.Tx) error { return fn(watchedTx{tx, w}) })
}

func (w watchedTx) Folders(ids []int64) ([]store.Folder, error) {
	for _, id := range ids {
		if w.books.journal == nil {
			break
		}
		if err := w.books.journal(id); err != nil {
			return nil, err
		}
	}
	return w.Tx.Folders(ids)
}

func (w watchedTx) Reconcile(conversation, batch int64, have []store.Chore, wants []store.Want) error {
	if w.books.plan != nil {
		w.books.plan(batch)
	}
	return w.Tx.Reconcile(conversation, batch, have, wants)
}

// replanning is a bot with five batches, the first of them shared, over books that
// are watched from then on.
func replanning(t *testing.T) (*bot.Bot, *watchedBooks, *scheduler.HandClock, *strings.Builder) {
	t.Helper()
	db, err := store.Open(t.Context(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	rules, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	books, log := &watchedBooks{Ledger: ledger.Ledger{DB: db}}, &strings.Builder{}
	clock := &scheduler.HandClock{At: time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)}
	b := bot.New(bot.Config{Ledger: books, Clock: clock, Zone: time.UTC, Rules: rules, Log: slog.New(slog.NewTextHandler(log, nil))})
	for i := range 5 {
		for _, line := range []string{"open 5 lb juniper 1.5 in", "yes"} {
			b.Handle(t.Context(), bot.Message{Conversation: store.Address(fmt.Sprint("x:", i)), Sender: bot.Person{Key: "1", Name: "Ines"}, Text: line})
		}
	}
	err = db.Update(t.Context(), clock.At, func(tx *store.Tx) error {
		_, err := tx.AddCard(store.Card{Batch: 1, Conversation: 1, Owner: "1", OwnerName: "Ines"})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	books.updates = 0
	return b, books, clock, log
}

// shift moves each batch's flips by an hour, as other rules of its zone would have
// planned them.
func (w *watchedBooks) shift(t *testing.T, at time.Time) {
	t.Helper()
	for id := range int64(5) {
		err := w.DB.Update(t.Context(), at, func(tx *store.Tx) error {
			return planAnew(tx, id+1, id+1, store.Want{Kind: "flip", Slot: "2027-03-02", Due: at.Add(time.Hour)})
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// due gives when each batch's flip is due, and how many chores cards have.
func (w *watchedBooks) due(t *testing.T) (flips string, cards int) {
	t.Helper()
	err := w.DB.View(t.Context(), time.Time{}, func(tx *store.Tx) error {
		for id := range int64(6) {
			list, err := tx.Chores(id)
			if err != nil {
				return err
			}
			for _, c := range list {
				switch {
				case c.Kind == "flip" && c.State == store.StateDue:
					flips += c.Due.Format("2 15:04, ")
				case c.Kind == store.ChoreCard:
					cards++
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return flips, cards
}

func TestReplanChangesNothingThatIsRight(t *testing.T) {
	b, books, clock, _ := replanning(t)
	before, _ := books.due(t)
	if err := b.ReplanAll(t.Context(), clock.At); err != nil {
		t.Fatal(err)
	}
	if after, cards := books.due(t); after != before || cards != 0 || books.updates != 0 {
		t.Errorf("%d changes: flips %s became %s, and %d chores for cards", books.updates, before, after, cards)
	}
	books.shift(t, clock.At)
	if err := b.ReplanAll(t.Context(), clock.At); err != nil {
		t.Fatal(err)
	}
	if after, cards := books.due(t); after != before || cards != 1 || books.updates != 5 {
		t.Errorf("%d changes: flips are %s, want %s, and %d chores for cards", books.updates, after, before, cards)
	}
}

// A batch that cannot be planned is logged, and all others are planned.
func TestReplanPassesABadBatch(t *testing.T) {
	for name, bad := range map[string]func(){"fails": func() {}, "panics": func() { panic("a journal from hell") }} {
		t.Run(name, func(t *testing.T) {
			b, books, clock, log := replanning(t)
			books.shift(t, clock.At)
			books.journal = func(batch int64) error {
				if batch != 2 {
					return nil
				}
				bad()
				return errors.New("unreadable")
			}
			if err := b.ReplanAll(t.Context(), clock.At); err != nil {
				t.Error(err)
			}
			if flips, _ := books.due(t); flips != "2 08:00, 1 10:00, 2 08:00, 2 08:00, 2 08:00, " {
				t.Errorf("flips are %s", flips)
			}
			if !strings.Contains(log.String(), "batch=2") || strings.Contains(log.String(), "batch=3") {
				t.Errorf("logged: %s", log)
			}
		})
	}
	b, books, clock, _ := replanning(t)
	books.journal = func(int64) error { return errors.New("unreadable") }
	if err := b.ReplanAll(t.Context(), clock.At); err == nil {
		t.Error("no batch could be planned, and that was no error")
	}
}

// What was said is recorded even if what comes next in its batch cannot be planned.
func TestSettleRecordsDespiteAPanic(t *testing.T) {
	b, books, clock, log := replanning(t)
	at := clock.At.Add(24 * time.Hour)
	got, err := books.DB.Claim(t.Context(), at, "x", "the-only-lease", at.Add(time.Minute), 100)
	if err != nil || len(got) != 5 {
		t.Fatal(got, err)
	}
	for i := range got {
		got[i].State = store.StateSent
	}
	books.plan = func(batch int64) {
		if batch == 2 {
			panic("a journal from hell")
		}
	}
	if err := (bot.Deliverer{Bot: b}).Settle(t.Context(), at, got); err != nil {
		t.Fatal(err)
	}
	if flips, _ := books.due(t); flips != "3 08:00, 3 08:00, 3 08:00, 3 08:00, " {
		t.Errorf("next flips are %s", flips)
	}
	left, err := books.DB.Claim(t.Context(), at.Add(time.Hour), "x", "another-lease", at.Add(2*time.Hour), 100)
	if err != nil || len(left) != 1 || left[0].Kind != store.ChoreCard {
		t.Errorf("still due: %+v, %v", left, err)
	}
	if !strings.Contains(log.String(), "batch=2") {
		t.Errorf("logged: %s", log)
	}
}

// planAnew makes the open chores of a batch those that are wanted.
func planAnew(tx *store.Tx, conversation, batch int64, wants ...store.Want) error {
	have, err := tx.Chores(batch)
	if err != nil {
		return err
	}
	return tx.Reconcile(conversation, batch, have, wants)
}
