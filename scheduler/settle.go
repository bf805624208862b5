package scheduler

import (
	"context"
	"time"

	"larderhand/scheduler/safely"
	"larderhand/store"
)

// settle records what was said, unless much more is about to be and it can wait a
// moment to share a transaction with that.
func (s *Scheduler) settle(ctx context.Context, now time.Time) error {
	if len(s.settled) == 0 || s.canWait(now) {
		return nil
	}
	return s.settleNow(context.WithoutCancel(ctx), now)
}

func (s *Scheduler) settleNow(ctx context.Context, now time.Time) error {
	err := s.record(ctx, now, s.settled)
	if safely.Panicked(err) {
		err = s.settleApart(ctx, now)
	}
	if err != nil {
		return err
	}
	s.settled = nil
	s.changed()
	return nil
}

// record has it recorded what became of chores.
func (s *Scheduler) record(ctx context.Context, now time.Time, chores []store.Chore) error {
	return safely.Do("recording pings", func() error { return s.Deliver.Settle(ctx, now, chores) })
}

// settleApart records one chore at a time, so that one that cannot be recorded keeps
// no other from it. That one is left for as long as there is between tries.
func (s *Scheduler) settleApart(ctx context.Context, now time.Time) error {
	for len(s.settled) > 0 {
		one := s.settled[:1]
		err := s.record(ctx, now, one)
		if safely.Panicked(err) {
			s.Log.ErrorContext(ctx, "a ping was said and could not be recorded", "conversation", one[0].Conversation, "batch", one[0].Batch, "error", err)
			err = s.Due.Retry(ctx, now, one, now.Add(wait(&store.Failure{}, mostAttempts)), "recording it panicked", false)
		}
		if err != nil {
			return err
		}
		s.settled = s.settled[1:]
	}
	return nil
}

func (s *Scheduler) canWait(now time.Time) bool {
	since := now.Sub(s.oldest)
	if len(s.settled) >= settleMost || since < 0 || since >= settleWithin {
		return false
	}
	for _, l := range s.lanes {
		if l.bulk && (len(l.queue) > 0 || l.flying > 0) {
			return true
		}
	}
	return false
}
