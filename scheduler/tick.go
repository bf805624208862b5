package scheduler

import (
	"context"
	"maps"
	"slices"
	"time"
)

// Tick has said what is due at now, as far as the limits allow, and gives the
// instant at which there is more to do; zero if nothing is planned. One
// conversation's failure stops no other: the error is always one of the store.
func (s *Scheduler) Tick(ctx context.Context, now time.Time) (next time.Time, err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	defer func() { s.watch().Ticked(now, err) }()
	if err := s.settle(ctx, now); err != nil {
		return now.Add(heartbeat), err
	}
	if !s.queued() { // in the middle of a queue that can wait until what was sent is recorded
		s.changed()
	}
	if err := s.look(ctx, now); err != nil {
		return now.Add(heartbeat), err
	}
	for _, name := range slices.Sorted(maps.Keys(s.due)) {
		s.lane(name)
	}
	for _, name := range slices.Sorted(maps.Keys(s.lanes)) {
		if err := s.work(ctx, now, s.lanes[name]); err != nil {
			return now.Add(heartbeat), err
		}
	}
	if err := s.settle(ctx, now); err != nil {
		return now.Add(heartbeat), err
	}
	if err := s.look(ctx, now); err != nil {
		return now.Add(heartbeat), err
	}
	return s.next(now), nil
}

// work has a lane's messages sent whose time has come, and claims more when none
// is left.
func (s *Scheduler) work(ctx context.Context, now time.Time, l *lane) error {
	for ctx.Err() == nil {
		if l.hold.at(now) {
			return s.release(ctx, now, l)
		}
		if err := s.launch(ctx, now, l); err != nil {
			return err
		}
		if len(l.queue) > 0 || l.hold.at(now) {
			return nil
		}
		if at, ok := s.due[l.name]; !ok || at.After(now) {
			return nil
		}
		// What was said is recorded before more is: a crash then repeats little.
		if err := s.settle(ctx, now); err != nil {
			return err
		}
		if n, err := s.fill(ctx, now, l); err != nil || n == 0 {
			return err
		}
	}
	return nil
}

// fill claims the next messages of a lane and says how many chores that was.
func (s *Scheduler) fill(ctx context.Context, now time.Time, l *lane) (int, error) {
	limit := l.limits.All.ahead()
	if s.Workers > 0 { // what no worker is free for would sit out its lease
		if limit = min(limit, s.Workers-l.flying); limit <= 0 {
			return 0, nil
		}
	}
	chores, err := s.Due.Claim(ctx, now, l.name, s.Lease(), now.Add(leaseFor), limit)
	s.changed()
	if err != nil {
		return 0, err
	}
	l.bulk = len(chores) >= limit
	for _, t := range l.enqueue(now, chores) {
		if err := s.Due.Release(ctx, now, t.chores, t.at); err != nil {
			return 0, err
		}
	}
	return len(chores), nil
}

// release puts back what a lane has claimed but must not send for now.
func (s *Scheduler) release(ctx context.Context, now time.Time, l *lane) error {
	for len(l.queue) > 0 {
		t := l.queue[0]
		if err := s.Due.Release(ctx, now, t.chores, l.hold.until); err != nil {
			return err
		}
		l.queue = l.queue[1:]
		t.chat.busy = false
		s.changed()
	}
	return nil
}

// next is when there is more to do. What waits for a free worker is not counted:
// the worker says when it is.
func (s *Scheduler) next(now time.Time) time.Time {
	var next time.Time
	sooner := func(t time.Time) {
		if next.IsZero() || t.Before(next) {
			next = t
		}
	}
	for name, at := range s.due {
		l, ok := s.lanes[name]
		switch {
		case !ok || len(l.queue) > 0 || s.Workers > 0 && l.flying >= s.Workers:
		case l.hold.at(now) && l.hold.until.After(at):
			sooner(l.hold.until)
		default:
			sooner(at)
		}
	}
	for _, l := range s.lanes {
		if len(l.queue) > 0 && (s.Workers == 0 || l.flying < s.Workers) {
			sooner(l.queue[0].at)
		}
	}
	if len(s.settled) > 0 {
		sooner(s.oldest.Add(settleWithin))
	}
	if !next.IsZero() && !next.After(now) {
		next = now.Add(time.Millisecond)
	}
	return next
}
