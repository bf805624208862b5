package scheduler

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"larderhand/scheduler/plan"
	"larderhand/store"
)

const (
	// batchSize is how many chores one claim takes up: enough to spread the cost
	// of the transaction, few enough that a crash repeats little.
	batchSize = 500
	// leaseFor is how long a claim is held. A message that takes longer than
	// this may be said twice.
	leaseFor = 2 * time.Minute
	// mostAttempts is when a chore that keeps failing is given up: with waits
	// that grow to an hour that is over a day.
	mostAttempts = 40
)

// Scheduler takes up what is due.
type Scheduler struct {
	Due     Due
	Reach   Reach
	Deliver Deliverer
	Lease   func() string // makes a name nobody else holds a claim under
	Log     *slog.Logger
}

// Tick has everything said that is due at now, and returns how many messages
// that made. One conversation's failure stops no other.
func (s *Scheduler) Tick(ctx context.Context, now time.Time) (messages int, err error) {
	for ctx.Err() == nil {
		chores, err := s.Due.Claim(ctx, now, s.Lease(), now.Add(leaseFor), batchSize)
		if err != nil || len(chores) == 0 {
			return messages, err
		}
		groups := plan.Merge(chores, func(c store.Chore) int64 { return c.Conversation },
			func(a, b store.Chore) int { return b.Urgency - a.Urgency })
		for _, g := range groups {
			if err := s.one(ctx, now, g.Items); err != nil {
				return messages, err
			}
			messages++
		}
	}
	return messages, ctx.Err()
}

// one delivers a conversation's chores and decides what a failure means. Its own
// error is one of the store.
func (s *Scheduler) one(ctx context.Context, now time.Time, chores []store.Chore) error {
	err := s.Deliver.Deliver(ctx, now, chores)
	if err == nil {
		return nil
	}
	s.Log.WarnContext(ctx, "a ping was not delivered", "conversation", chores[0].Conversation, "chores", len(chores), "error", err)
	var f *store.Failure
	if !errors.As(err, &f) {
		f = &store.Failure{Kind: store.Unknown, Cause: err}
	}
	switch f.Kind {
	case store.Gone:
		return s.Reach.Park(ctx, now, chores[0].Conversation, f.Error())
	case store.Moved:
		if err := s.Reach.Move(ctx, now, chores[0].Conversation, f.To); err != nil {
			return err
		}
		return s.Due.Retry(ctx, now, chores, now, f.Error())
	case store.Refused:
		return s.Due.GiveUp(ctx, now, chores, f.Error())
	}
	if chores[0].Attempts >= mostAttempts {
		return s.Due.GiveUp(ctx, now, chores, f.Error())
	}
	return s.Due.Retry(ctx, now, chores, now.Add(wait(f, chores[0].Attempts)), f.Error())
}
