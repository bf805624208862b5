package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"time"

	"larderhand/bot"
	"larderhand/bot/ledger"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

// app is everything that is the same whatever the chat: the store, the bot and
// the scheduler.
type app struct {
	db    *store.DB
	bot   *bot.Bot
	sched *scheduler.Scheduler
	lost  error // why the file could not be used from the start; db is in memory then
}

// newApp opens the store and puts the parts together.
func newApp(ctx context.Context, file string, clock bot.Clock, zone *time.Location, sender bot.Sender, log *slog.Logger, opts ...store.Option) (*app, error) {
	rules, err := curemath.LoadRules()
	if err != nil {
		return nil, fmt.Errorf("read the rule sets: %w", err)
	}
	db, err := store.Open(ctx, file, opts...)
	var books bot.Ledger = ledger.Ledger{DB: db}
	var broken *store.Broken
	if errors.As(err, &broken) {
		// Adapters still need a place for their small facts; nothing of a batch
		// goes there.
		books = lost{broken}
		db, err = store.Open(ctx, store.Memory)
	}
	if err != nil {
		return nil, err
	}
	roll, _ := sender.(bot.Roll)
	b := bot.New(bot.Config{Ledger: books, Roll: roll, Clock: clock, Zone: zone, Log: log, Rules: rules, Code: rand.Text, Rehearse: ledger.Rehearse})
	a := &app{db: db, bot: b, sched: &scheduler.Scheduler{
		Due: db, Reach: db, Deliver: bot.Deliverer{Bot: b, Sender: sender}, Lease: rand.Text, Log: log,
	}}
	if broken != nil {
		a.lost = broken
	}
	return a, nil
}

func (a *app) Close() error { return a.db.Close() }

// Broken is why batches can't be read or written, or nil.
func (a *app) Broken() error {
	if a.lost != nil {
		return a.lost
	}
	return a.db.Err()
}

// wallClock is the machine's clock.
type wallClock struct{}

func (wallClock) Now() time.Time { return time.Now() }
