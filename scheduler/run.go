package scheduler

import (
	"context"
	"fmt"
	"time"

	"github.com/robfig/cron/v3"
)

// Run ticks once at once, to catch up, and then every minute until ctx ends; it
// returns once the tick under way is over. There is one cron entry however many
// batches there are.
func (s *Scheduler) Run(ctx context.Context, now func() time.Time) error {
	logger := cronLog{s}
	c := cron.New(cron.WithLocation(time.UTC), cron.WithChain(cron.Recover(logger), cron.SkipIfStillRunning(logger)))
	tick := func() {
		if _, err := s.Tick(ctx, now()); err != nil && ctx.Err() == nil {
			s.Log.ErrorContext(ctx, "a tick failed", "error", err)
		}
	}
	if _, err := c.AddFunc("* * * * *", tick); err != nil {
		return fmt.Errorf("heartbeat: %w", err)
	}
	tick()
	c.Start()
	<-ctx.Done()
	<-c.Stop().Done()
	return nil
}

// cronLog hands the cron library's words to our log.
type cronLog struct{ s *Scheduler }

func (l cronLog) Info(msg string, kv ...any) { l.s.Log.Debug(msg, kv...) }

func (l cronLog) Error(err error, msg string, kv ...any) {
	l.s.Log.Error(msg, append(kv, "error", err)...)
}
