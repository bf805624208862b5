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
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

// tornBooks fail, if told to, when chores are planned or when the journal is written.
type tornBooks struct {
	ledger.Ledger
	plan, write error
}

type tornTx struct {
	bot.Tx
	books *tornBooks
}

func (b *tornBooks) Update(ctx context.Context, now time.Time, fn func(bot.Tx) error) error {
	return b.Ledger.Update(ctx, now, func(tx bot.Tx) error { return fn(tornTx{tx, b}) })
}

func (t tornTx) Reconcile(conversation, batch int64, have []store.Chore, wants []store.Want) error {
	if err := t.Tx.Reconcile(conversation, batch, have, wants); err != nil {
		return err
	}
	return t.books.plan // after it was done, and nothing of it may stay
}

func (t tornTx) Append(e store.Entry) (store.Entry, error) {
	out, err := t.Tx.Append(e)
	return out, errors.Join(err, t.books.write)
}

// stands writes down a batch's journal and chores.
func (b *tornBooks) stands(t *testing.T) string {
	t.Helper()
	var out []string
	err := b.DB.View(t.Context(), time.Time{}, func(tx *store.Tx) error {
		log, err := tx.Entries(1)
		if err != nil {
			return err
		}
		for _, e := range log {
			out = append(out, e.Kind)
		}
		list, err := tx.Chores(1)
		for _, c := range list {
			out = append(out, fmt.Sprintf("%s %s %s", c.Kind, c.Slot, c.State))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(out, "; ")
}

// What is recorded and the pings that follow from it are one transaction, and so are
// a ping marked as said and the next one: where one half fails, neither is there.
func TestARecordAndItsPingsAreOneTransaction(t *testing.T) {
	db, err := store.Open(t.Context(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	rules, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	books, clock := &tornBooks{Ledger: ledger.Ledger{DB: db}}, &scheduler.HandClock{At: time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)}
	b := bot.New(bot.Config{Ledger: books, Clock: clock, Zone: time.UTC, Rules: rules, Log: slog.New(slog.DiscardHandler)})
	n := 0
	say := func(line string) string {
		n++
		return b.Handle(t.Context(), bot.Message{Event: fmt.Sprint(n), Conversation: "x:1", Direct: true, Sender: bot.Person{Key: "1", Name: "Ines"}, Text: line}).Text()
	}
	is := func(when, want string) {
		t.Helper()
		if got := books.stands(t); got != want {
			t.Errorf("%s it stands\n%s\nwant\n%s", when, got, want)
		}
	}
	say("open 5 lb juniper 1.5 in")
	books.plan = errors.New("no room for chores")
	say("yes")
	is("with no room for its pings", "")
	books.plan, books.write = nil, errors.New("no room for entries")
	say("yes")
	is("with no room for its journal", "")
	books.write = nil
	say("yes")
	is("opened", "open; flip 2027-03-02 due")

	clock.At = clock.At.Add(10 * time.Hour)
	for _, torn := range []struct{ plan, write error }{{plan: errors.New("no room for chores")}, {write: errors.New("no room for entries")}} {
		books.plan, books.write = torn.plan, torn.write
		if said := say("flip 1"); strings.Contains(said, "flipped, day") {
			t.Errorf("it says:\n%s", said)
		}
		is("after a flip that could not be kept", "open; flip 2027-03-02 due")
	}
	books.plan, books.write = nil, nil

	clock.At = clock.At.Add(24 * time.Hour)
	due, err := db.Claim(t.Context(), clock.At, "x", "lease-and-more", clock.At.Add(time.Minute), 10)
	if err != nil || len(due) != 1 {
		t.Fatalf("claimed %v, %v", due, err)
	}
	d := bot.Deliverer{Bot: b, Sender: silence{}}
	done, err := d.Deliver(t.Context(), clock.At, due)
	if err != nil {
		t.Fatal(err)
	}
	books.plan = errors.New("no room for chores")
	if err := d.Settle(t.Context(), clock.At, done); err == nil {
		t.Error("no word of it")
	}
	is("said, with no room for the next", "open; flip 2027-03-02 claimed")
	books.plan = nil
	if err := d.Settle(t.Context(), clock.At, done); err != nil {
		t.Error(err)
	}
	is("said", "open; flip 2027-03-02 sent; flip 2027-03-03 due")
}

// silence takes every message.
type silence struct{}

func (silence) Send(context.Context, store.Address, string, reply.Reply) (string, error) {
	return "", nil
}
