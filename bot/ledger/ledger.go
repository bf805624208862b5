// Package ledger lets the bot keep its books in a store.
package ledger

import (
	"context"
	"time"

	"larderhand/bot"
	"larderhand/store"
)

// Ledger is a bot.Ledger over a store.
type Ledger struct{ DB *store.DB }

var _ bot.Ledger = Ledger{}
var _ bot.Tx = (*store.Tx)(nil)

// Update runs fn in a write transaction.
func (l Ledger) Update(ctx context.Context, now time.Time, fn func(bot.Tx) error) error {
	return l.DB.Update(ctx, now, func(tx *store.Tx) error { return fn(tx) })
}

// View runs fn in a read transaction.
func (l Ledger) View(ctx context.Context, now time.Time, fn func(bot.Tx) error) error {
	return l.DB.View(ctx, now, func(tx *store.Tx) error { return fn(tx) })
}

// Rehearsal is a bot.Rehearsal over a store in memory.
type Rehearsal struct {
	Ledger
	*store.DB
}

var _ bot.Rehearsal = Rehearsal{}

// Rehearse opens empty books that are gone once closed.
func Rehearse(ctx context.Context) (bot.Rehearsal, error) {
	db, err := store.Open(ctx, store.Memory)
	if err != nil {
		return nil, err
	}
	return Rehearsal{Ledger: Ledger{DB: db}, DB: db}, nil
}

// Update runs fn in a write transaction.
func (r Rehearsal) Update(ctx context.Context, now time.Time, fn func(bot.Tx) error) error {
	return r.Ledger.Update(ctx, now, fn)
}

// View runs fn in a read transaction.
func (r Rehearsal) View(ctx context.Context, now time.Time, fn func(bot.Tx) error) error {
	return r.Ledger.View(ctx, now, fn)
}
