package scheduler

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"time"

	"github.com/robfig/cron/v3"

	"larderhand/store"
)

// beat starts the cron heartbeat: one entry however many batches there are. It
// only wakes the loop in Run, whose own timer takes over where cron would sleep
// for as long as a clock was set back.
func (s *Scheduler) beat(ctx context.Context) (*cron.Cron, error) {
	log := cronLog{ctx: ctx, log: s.Log}
	c := cron.New(cron.WithLocation(time.UTC), cron.WithLogger(log), cron.WithChain(cron.Recover(log), cron.SkipIfStillRunning(log)))
	if _, err := c.AddFunc("* * * * *", s.poke); err != nil {
		return nil, fmt.Errorf("heartbeat: %w", err)
	}
	c.Start()
	return c, nil
}

// cronLog hands the cron library's words to our log.
type cronLog struct {
	ctx context.Context
	log *slog.Logger
}

func (l cronLog) Info(msg string, kv ...any) { l.log.DebugContext(l.ctx, msg, kv...) }

func (l cronLog) Error(err error, msg string, kv ...any) {
	l.log.ErrorContext(l.ctx, msg, append(kv, "error", err)...)
}

const (
	// heartbeat is the longest pause between two ticks. It is measured on the
	// machine's own time, so that a wall clock set back, forward or stopped in a
	// suspend costs at most one.
	heartbeat = time.Minute
	// landFor is how long messages on their way may take when the program ends.
	landFor = 10 * time.Second
)

// Run ticks at once, to catch up, and then whenever something is due, until ctx
// ends. It returns once what was on its way has arrived and is recorded, or its
// time for that is over. There is one timer however many batches there are.
func (s *Scheduler) Run(ctx context.Context, now func() time.Time) error {
	s.now, s.wake = now, make(chan struct{}, 1)
	air, down := context.WithCancel(context.WithoutCancel(ctx))
	defer down()
	beat, err := s.beat(ctx)
	if err != nil {
		return err
	}
	defer func() { <-beat.Stop().Done() }()
	timer := time.NewTimer(0)
	defer timer.Stop()
	said := ""
	keep := upkeep{s: s, ctx: air}
	for ctx.Err() == nil {
		select {
		case <-ctx.Done():
			continue
		case <-timer.C:
		case <-s.wake:
		}
		at := now()
		keep.look(at)
		next, err := s.Tick(air, at)
		said = s.complain(ctx, err, said)
		pause := heartbeat
		if !next.IsZero() {
			pause = max(0, min(heartbeat, next.Sub(at)))
		}
		timer.Reset(pause)
	}
	return s.land(down)
}

// land waits for what is on its way and records it.
func (s *Scheduler) land(down context.CancelFunc) error {
	landed := make(chan struct{})
	go func() { s.flights.Wait(); close(landed) }()
	late := time.NewTimer(landFor)
	defer late.Stop()
	select {
	case <-landed:
	case <-late.C:
		down() // the senders' contexts end; they return then
		<-landed
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	ctx, now := context.Background(), s.now()
	var errs []error
	if len(s.settled) > 0 {
		errs = append(errs, s.settleNow(ctx, now))
	}
	for _, l := range s.lanes {
		for _, t := range l.queue {
			errs = append(errs, s.Due.Release(ctx, now, t.chores, now))
		}
		l.queue = nil
	}
	return errors.Join(errs...)
}

// complain logs an error once while it stays the same. A broken file has been
// spoken of by the store.
func (s *Scheduler) complain(ctx context.Context, err error, said string) string {
	if err == nil {
		return ""
	}
	var b *store.Broken
	if errors.As(err, &b) || err.Error() == said {
		return err.Error()
	}
	s.Log.ErrorContext(ctx, "a tick failed", "error", err)
	return err.Error()
}
