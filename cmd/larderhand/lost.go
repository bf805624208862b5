package main

import (
	"context"
	"time"

	"larderhand/bot"
	"larderhand/store"
)

// lost stands for a store whose file could not be used from the start: everything
// fails, so that sums are answered and nothing else.
type lost struct{ err error }

// Update fails.
func (l lost) Update(context.Context, time.Time, func(bot.Tx) error) error { return l.err }

// View fails.
func (l lost) View(context.Context, time.Time, func(bot.Tx) error) error { return l.err }

// Upcoming fails.
func (l lost) Upcoming(context.Context) (map[string]time.Time, error) { return nil, l.err }

// Claim fails.
func (l lost) Claim(context.Context, time.Time, string, string, time.Time, int) ([]store.Chore, error) {
	return nil, l.err
}

// Release fails.
func (l lost) Release(context.Context, time.Time, []store.Chore, time.Time) error { return l.err }

// Retry fails.
func (l lost) Retry(context.Context, time.Time, []store.Chore, time.Time, string, bool) error {
	return l.err
}

// Park fails.
func (l lost) Park(context.Context, time.Time, int64, string) error { return l.err }

// Move fails.
func (l lost) Move(context.Context, time.Time, int64, store.Address) error { return l.err }
