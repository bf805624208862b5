package scheduler

import (
	"context"
	"errors"
	"time"

	"larderhand/scheduler/safely"
	"larderhand/store"
)

// launch sends a lane's messages whose time has come.
func (s *Scheduler) launch(ctx context.Context, now time.Time, l *lane) error {
	for {
		t, ok := l.next(now, s.Workers)
		if !ok {
			return nil
		}
		if s.Workers == 0 {
			done, err := s.deliver(ctx, now, t)
			l.landed(t)
			if err != nil {
				h, err := s.fail(ctx, now, l.name, t, err)
				s.holdOff(l, t, h)
				if err != nil {
					return err
				}
				continue
			}
			s.said(now, l, done)
			continue
		}
		s.flights.Go(func() { s.fly(ctx, l, t) })
	}
}

// fly delivers one message beside all others.
func (s *Scheduler) fly(ctx context.Context, l *lane, t turn) {
	bounded, cancel := context.WithTimeout(ctx, sendFor)
	defer cancel()
	done, err := s.deliver(bounded, s.now(), t)
	now := s.now()
	var h holds
	if err != nil {
		var ferr error
		// What became of it is recorded even if there is no more time to send.
		if h, ferr = s.fail(context.WithoutCancel(ctx), now, l.name, t, err); ferr != nil {
			s.Log.WarnContext(ctx, "a failed ping could not be put back; its claim runs out by itself", "error", ferr)
		}
	}
	s.mu.Lock()
	l.landed(t)
	if err != nil {
		s.holdOff(l, t, h)
	} else {
		s.said(now, l, done)
	}
	s.mu.Unlock()
	s.poke()
}

// poke has the loop look at once; several pokes before it does are one.
func (s *Scheduler) poke() {
	select {
	case s.wake <- struct{}{}:
	default:
	}
}

func (s *Scheduler) deliver(ctx context.Context, now time.Time, t turn) (done []store.Chore, err error) {
	err = safely.Do("composing a ping", func() error {
		done, err = s.Deliver.Deliver(ctx, now, t.chores)
		return err
	})
	return done, err
}

// said takes up chores that have to be recorded.
func (s *Scheduler) said(now time.Time, l *lane, done []store.Chore) {
	if len(s.settled) == 0 {
		s.oldest = now
	}
	s.settled = append(s.settled, done...)
	n, late := 0, time.Duration(0)
	for _, c := range done {
		if c.State == store.StateSent {
			n++
			late = max(late, c.Late(now))
		}
	}
	if n > 0 {
		s.watch().Sent(l.name, late, n)
	}
}

// holds is what a failure means for what comes after it.
type holds struct{ chat, lane hold }

func (s *Scheduler) holdOff(l *lane, t turn, h holds) {
	s.changed()
	if !h.chat.until.IsZero() {
		t.chat.hold = h.chat
	}
	if !h.lane.until.IsZero() {
		l.hold = h.lane
	}
}

// fail decides what a failure means. Its own error is one of the store.
func (s *Scheduler) fail(ctx context.Context, now time.Time, lane string, t turn, err error) (holds, error) {
	var f *store.Failure
	if !errors.As(err, &f) {
		f = &store.Failure{Kind: store.Unknown, Cause: err}
	}
	chores, first := t.chores, t.chores[0]
	s.watch().Failed(lane, f.Kind)
	s.Log.WarnContext(ctx, "a ping was not delivered", "lane", lane, "conversation", first.Conversation, "chores", len(chores), "attempts", first.Attempts, "error", err)
	switch {
	case f.Kind == store.Gone:
		return holds{}, s.Reach.Park(ctx, now, first.Conversation, f.Error())
	case f.Kind == store.Moved && first.Attempts <= mostMoves:
		if err := s.Reach.Move(ctx, now, first.Conversation, f.To); err != nil {
			return holds{}, err
		}
		return holds{}, s.Due.Retry(ctx, now, chores, now, f.Error(), true)
	case f.Kind == store.Refused || first.Attempts >= mostAttempts:
		lost := make([]store.Chore, len(chores))
		for i, c := range chores {
			c.State, c.Cause = store.StateGivenUp, f.Error()
			lost[i] = c
		}
		rerr := s.record(ctx, now, lost)
		if !safely.Panicked(rerr) {
			return holds{}, rerr
		}
		s.Log.ErrorContext(ctx, "a ping was given up and that could not be recorded", "conversation", first.Conversation, "error", rerr)
	}
	until := wholeMillis(now.Add(wait(f, first.Attempts)))
	h := holds{}
	if f.Kind == store.Wait {
		h.chat = hold{now, until}
		if f.Wide {
			h.lane = h.chat
		}
	}
	return h, s.Due.Retry(ctx, now, chores, until, f.Error(), f.Kind == store.Wait)
}

// mostMoves is how often a message follows its conversation to a new address
// before that is taken for a failure like another.
const mostMoves = 5
