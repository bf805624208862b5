package scheduler_test

import (
	"context"
	"fmt"
	"log/slog"
	"sync"
	"testing"
	"time"

	"larderhand/scheduler"
	"larderhand/store"
)

var start = time.Date(2027, 3, 1, 8, 0, 0, 0, time.UTC)

// message is one delivery as the fake platform saw it.
type message struct {
	at     time.Time
	to     store.Address
	key    string
	chores []string // slots
}

// desk is a scheduler over a store in memory, with a platform that writes down
// what it was sent.
type desk struct {
	t     testing.TB
	db    *store.DB
	clock scheduler.HandClock
	s     *scheduler.Scheduler
	lease int

	mu     sync.Mutex
	now    func() time.Time
	sent   []message
	answer func(ctx context.Context, m message) error // nil: taken
	settle func() error                               // nil: recorded
}

func newDesk(t testing.TB) *desk {
	db, err := store.Open(context.Background(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	d := &desk{t: t, db: db, clock: scheduler.HandClock{At: start}}
	d.now = d.clock.Now
	d.s = d.scheduler()
	return d
}

func (d *desk) scheduler() *scheduler.Scheduler {
	return &scheduler.Scheduler{Due: d.db, Reach: d.db, Deliver: d, Log: slog.New(slog.DiscardHandler),
		Lease: func() string { d.lease++; return fmt.Sprintf("lease%07d", d.lease) }}
}

// Deliver notes the message.
func (d *desk) Deliver(ctx context.Context, _ time.Time, chores []store.Chore) ([]store.Chore, error) {
	m := message{to: chores[0].Address, key: chores[0].Message}
	done := make([]store.Chore, len(chores))
	for i, c := range chores {
		m.chores = append(m.chores, c.Slot)
		c.State = store.StateSent
		done[i] = c
	}
	d.mu.Lock()
	m.at = d.now()
	answer := d.answer
	d.mu.Unlock()
	if answer != nil {
		if err := answer(ctx, m); err != nil {
			return nil, err
		}
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.sent = append(d.sent, m)
	return done, nil
}

// Settle records as the bot does, but plants nothing.
func (d *desk) Settle(ctx context.Context, now time.Time, chores []store.Chore) error {
	if d.settle != nil {
		if err := d.settle(); err != nil {
			return err
		}
	}
	return d.db.Update(ctx, now, func(tx *store.Tx) error {
		for _, c := range chores {
			var err error
			switch c.State {
			case store.StateSent:
				err = tx.MarkSent(c)
			case store.StateGivenUp:
				err = tx.MarkGivenUp(c)
			}
			if err != nil {
				return err
			}
		}
		return nil
	})
}

// plant makes a conversation and something due in it.
func (d *desk) plant(to store.Address, slot string, due time.Time, urgency int) {
	d.t.Helper()
	err := d.db.Update(context.Background(), start, func(tx *store.Tx) error {
		conv, err := tx.Conversation(to)
		if err != nil {
			if conv, err = tx.SaveConversation(store.Conversation{Address: to}); err != nil {
				return err
			}
		}
		return tx.Enqueue(conv.ID, "test", slot, "", due, urgency)
	})
	if err != nil {
		d.t.Fatal(err)
	}
}

func (d *desk) advance(by time.Duration) {
	d.t.Helper()
	if err := d.s.Advance(context.Background(), &d.clock, d.clock.At.Add(by)); err != nil {
		d.t.Fatal(err)
	}
}

func (d *desk) messages() []message {
	d.mu.Lock()
	defer d.mu.Unlock()
	return append([]message(nil), d.sent...)
}

// times counts how often each slot was said.
func (d *desk) times() map[string]int {
	n := map[string]int{}
	for _, m := range d.messages() {
		for _, slot := range m.chores {
			n[slot]++
		}
	}
	return n
}
