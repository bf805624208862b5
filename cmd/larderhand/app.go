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
	db    *store.DB // nil if the file could not be used from the start
	bot   *bot.Bot
	sched *scheduler.Scheduler
}

// newApp opens the store and puts the parts together.
func newApp(ctx context.Context, file string, clock bot.Clock, zone *time.Location, sender bot.Sender, log *slog.Logger, opts ...store.Option) (*app, error) {
	rules, err := curemath.LoadRules()
	if err != nil {
		return nil, fmt.Errorf("read the rule sets: %w", err)
	}
	db, err := store.Open(ctx, file, opts...)
	var broken *store.Broken
	if errors.As(err, &broken) {
		tellBroken(log)(broken)
		b := bot.New(bot.Config{Ledger: lost{broken}, Clock: clock, Zone: zone, Log: log, Rules: rules})
		return &app{bot: b, sched: &scheduler.Scheduler{
			Due: lost{broken}, Reach: lost{broken}, Deliver: bot.Deliverer{Bot: b, Sender: sender}, Lease: rand.Text, Log: log,
		}}, nil
	}
	if err != nil {
		return nil, err
	}
	b := bot.New(bot.Config{Ledger: ledger.Ledger{DB: db}, Clock: clock, Zone: zone, Log: log, Rules: rules})
	return &app{db: db, bot: b, sched: &scheduler.Scheduler{
		Due: db, Reach: db, Deliver: bot.Deliverer{Bot: b, Sender: sender}, Lease: rand.Text, Log: log,
	}}, nil
}

func (a *app) Close() error {
	if a.db == nil {
		return nil
	}
	return a.db.Close()
}

// tellBroken says in the log once that the file can't be used, and once that it
// can be again.
func tellBroken(log *slog.Logger) func(error) {
	return func(err error) {
		if err == nil {
			log.Warn("the database can be written again")
			return
		}
		log.Error("batches can't be read or written; sums still work", "error", err)
	}
}

// wallClock is the machine's clock.
type wallClock struct{}

func (wallClock) Now() time.Time { return time.Now() }
