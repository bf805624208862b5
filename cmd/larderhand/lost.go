package main

import (
	"context"
	"time"

	"larderhand/bot"
)

// lost stands for the books of a file that could not be used from the start: it
// gives nothing, so that sums are answered and nothing else.
type lost struct{ err error }

// Update fails.
func (l lost) Update(context.Context, time.Time, func(bot.Tx) error) error { return l.err }

// View fails.
func (l lost) View(context.Context, time.Time, func(bot.Tx) error) error { return l.err }
