package main

import (
	"context"
	"errors"
	"time"

	"golang.org/x/sync/errgroup"

	"larderhand/scheduler"
	"larderhand/store"
)

// serveCmd serves the chat platforms.
type serveCmd struct {
	storeFlags
	zoneFlags
	logFlags
	Health   string        `env:"LARDERHAND_HEALTH" placeholder:"ADDR" help:"Answer /live, /ready and /metrics there, such as :8080; without a host on this machine only."`
	Operator string        `env:"LARDERHAND_OPERATOR" placeholder:"ADDRESS" help:"Conversation to tell when the database can't be used, such as telegram:12345."`
	Discord  discordFlags  `embed:""`
	Telegram telegramFlags `embed:""`
}

// pingWorkers is how many pings of one platform may be on their way at once: ten
// seconds of the quickest platform's rate, so that a few hundred conversations
// that hang hold up nobody else.
const pingWorkers = 500

// Run serves until ctx ends, or until one of the platforms cannot go on.
func (c *serveCmd) Run(ctx context.Context, s streams) (err error) {
	list, err := c.platforms()
	if err != nil {
		return err
	}
	zone, err := c.location()
	if err != nil {
		return err
	}
	file, err := c.file()
	if err != nil {
		return err
	}
	clearLessOften()
	log := c.logger(s.err)
	to := senders{}
	for _, p := range list {
		to[p.lane] = p.sender
	}
	alarm, seen := newAlarm(log, c.Operator, to), newMetrics()
	a, err := newApp(ctx, file, wallClock{}, zone, to, log, store.OnBroken(alarm.turn), store.OnTransaction(seen.transaction))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, a.Close()) }()
	if a.lost != nil {
		alarm.turn(a.lost)
	}
	a.sched.Limits = map[string]scheduler.Limits{}
	for _, p := range list {
		p.join(a, log.With("platform", p.lane))
		a.sched.Limits[p.lane] = p.limits
	}
	a.sched.Workers, a.sched.Watch = pingWorkers, seen
	if a.lost == nil {
		u := upkeep{db: a.db, bot: a.bot, log: log}
		for _, p := range list {
			if p.tidy != nil {
				u.tidy = append(u.tidy, p.tidy)
			}
		}
		a.sched.Upkeep = u
	}
	seen.registry.MustRegister(newBacklog(a.db, time.Now, log))

	all, ctx := errgroup.WithContext(ctx)
	if c.Health != "" {
		l, err := listen(ctx, c.Health)
		if err != nil {
			return err
		}
		all.Go(func() error { return serveHealth(ctx, l, &health{metrics: seen, broken: a.Broken, now: time.Now}, log) })
	}
	all.Go(func() error { return alarm.Run(ctx) })
	all.Go(func() error { return a.sched.Run(ctx, time.Now) })
	for _, p := range list {
		all.Go(func() error { return p.run(ctx) })
	}
	return all.Wait()
}
