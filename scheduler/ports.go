// Package scheduler takes up what is due and has it said. It knows no chat and
// no wording: what is due comes out of a store, and a deliverer says it.
package scheduler

import (
	"context"
	"time"

	"larderhand/store"
)

// Due is where chores come from and go back to. Every call is a transaction of
// its own.
type Due interface {
	// Claim takes up to about limit due chores, most urgent first and a
	// conversation's all together, for lease. They come back by themselves at
	// until. None due is an empty list.
	Claim(ctx context.Context, now time.Time, lease string, until time.Time, limit int) ([]store.Chore, error)
	// Retry puts claimed chores back until next.
	Retry(ctx context.Context, now time.Time, chores []store.Chore, next time.Time, cause string) error
	// GiveUp ends claimed chores that will never be taken.
	GiveUp(ctx context.Context, now time.Time, chores []store.Chore, cause string) error
}

// Reach is what changes when a conversation cannot be found where it was.
type Reach interface {
	// Park holds a conversation's chores back until it speaks again.
	Park(ctx context.Context, now time.Time, conversation int64, why string) error
	// Move gives a conversation its new address. Moving it again there changes
	// nothing.
	Move(ctx context.Context, now time.Time, conversation int64, to store.Address) error
}

// Deliverer says the chores due in one conversation in one message and records
// that they were said. It may be called again with the same chores after a crash
// or when it is not known whether the message arrived. A *store.Failure in its
// error says what to do; any other error means try again later.
type Deliverer interface {
	Deliver(ctx context.Context, now time.Time, chores []store.Chore) error
}
