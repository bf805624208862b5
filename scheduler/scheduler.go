package scheduler

import (
	"context"
	"log/slog"
	"sync"
	"time"

	"larderhand/store"
)

const (
	// batchSize is how many chores one claim takes up where no limit says fewer:
	// enough to spread the cost of the transaction, few enough that a crash
	// repeats little.
	batchSize = 500
	// leaseFor is how long a claim is held.
	leaseFor = 2 * time.Minute
	// sendFor is how long one message may take; together with the two seconds it
	// may have to wait it is well below leaseFor.
	sendFor = 30 * time.Second
	// settleWithin and settleMost bound how long what was sent may go unrecorded
	// while more is being sent: a crash repeats no more than that.
	settleWithin = 2 * time.Second
	settleMost   = 100
	// busyAgain is when to look again at a conversation with a message on its way.
	busyAgain = time.Second
	// mostAttempts is when a chore that keeps failing is given up: with waits that
	// grow to an hour that is two weeks, the length of a cure.
	mostAttempts = 14 * 24
)

// Scheduler takes up what is due. Set the fields before its first use.
type Scheduler struct {
	Due     Due
	Reach   Reach
	Deliver Deliverer
	Lease   func() string // makes a name nobody else holds a claim under
	Log     *slog.Logger
	// Limits names the lanes to serve and how fast they may go. Nil serves every
	// lane without a limit.
	Limits map[string]Limits
	// Workers is how many messages of a lane may be on their way at once. With 0
	// each is delivered before the next is looked at, as a simulated clock needs.
	Workers int
	Watch   Watch  // may be nil
	Upkeep  Upkeep // may be nil; done by Run

	mu      sync.Mutex // guards what follows
	lanes   map[string]*lane
	settled []store.Chore // said, not yet recorded
	oldest  time.Time     // since when the first of them waits
	due     map[string]time.Time
	looked  time.Time // when due was read; zero to read it again
	flights sync.WaitGroup
	wake    chan struct{}
	now     func() time.Time // for flights; nil on a simulated clock
}

func (s *Scheduler) watch() Watch {
	if s.Watch == nil {
		return unwatched{}
	}
	return s.Watch
}

// lane gives a lane that is served.
func (s *Scheduler) lane(name string) (*lane, bool) {
	if l, ok := s.lanes[name]; ok {
		return l, true
	}
	limits, ok := s.Limits[name]
	if !ok && s.Limits != nil {
		return nil, false
	}
	if s.lanes == nil {
		s.lanes = map[string]*lane{}
	}
	l := newLane(name, limits)
	s.lanes[name] = l
	return l, true
}

// look reads when each lane has something due next, if that may have changed.
func (s *Scheduler) look(ctx context.Context, now time.Time) error {
	if !s.looked.IsZero() && !now.Before(s.looked) && now.Sub(s.looked) < heartbeat {
		return nil
	}
	due, err := s.Due.Upcoming(ctx)
	if err != nil {
		return err
	}
	s.due, s.looked = due, now
	for _, l := range s.lanes {
		l.forget(now)
	}
	return nil
}

// changed says that what is due has to be read again.
func (s *Scheduler) changed() { s.looked = time.Time{} }

func (s *Scheduler) queued() bool {
	for _, l := range s.lanes {
		if len(l.queue) > 0 {
			return true
		}
	}
	return false
}
