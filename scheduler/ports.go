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
	// Upcoming gives the instant at which each lane has something to take up
	// next. It costs the same however much is planned.
	Upcoming(ctx context.Context) (map[string]time.Time, error)
	// Claim takes up to about limit due chores of a lane, most urgent first and a
	// conversation's all together, for lease. They come back by themselves at
	// until. Chores with the same Message are said in one. None due is an empty
	// list.
	Claim(ctx context.Context, now time.Time, lane, lease string, until time.Time, limit int) ([]store.Chore, error)
	// Release puts claimed chores back until next as if not taken up.
	Release(ctx context.Context, now time.Time, chores []store.Chore, next time.Time) error
	// Retry puts claimed chores back until next; unsaid means that they certainly
	// did not arrive.
	Retry(ctx context.Context, now time.Time, chores []store.Chore, next time.Time, cause string, unsaid bool) error
}

// Reach is what changes when a conversation cannot be found where it was.
type Reach interface {
	// Park holds a conversation's chores back until it speaks again.
	Park(ctx context.Context, now time.Time, conversation int64, why string) error
	// Move gives a conversation its new address. Moving it again there changes
	// nothing.
	Move(ctx context.Context, now time.Time, conversation int64, to store.Address) error
}

// Deliverer says the chores due in one conversation, and records that they were
// said.
type Deliverer interface {
	// Deliver says chores in one message, under the key they have in Message, and
	// gives them back with what became of them as State: sent, or dropped if it
	// was no longer wanted. It records nothing. It may be called again with the
	// same chores after a crash or when it is not known whether the message
	// arrived. A *store.Failure in its error says what to do; any other error
	// means try again later.
	Deliver(ctx context.Context, now time.Time, chores []store.Chore) ([]store.Chore, error)
	// Settle records what became of chores, as their State says, and plants what
	// comes next, all in one transaction. It may be called again after a failure.
	Settle(ctx context.Context, now time.Time, chores []store.Chore) error
}

// Upkeep is what has to be done besides saying what is due. Each call may take
// long, is made beside everything else, and is made again in a while after a failure.
type Upkeep interface {
	// Daily is called at the start and then once a day.
	Daily(ctx context.Context, now time.Time) error
	// SetBack is called when the clock turns out to have been set back.
	SetBack(ctx context.Context, now time.Time) error
}

// Watch is told what happens. It may be called by several goroutines at once.
type Watch interface {
	Sent(lane string, late time.Duration, chores int)
	Failed(lane string, kind store.FailureKind)
	Ticked(now time.Time, err error)
}

type unwatched struct{}

func (unwatched) Sent(string, time.Duration, int)  {}
func (unwatched) Failed(string, store.FailureKind) {}
func (unwatched) Ticked(time.Time, error)          {}
