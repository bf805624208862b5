package main

import (
	"context"
	"errors"
	"time"

	"golang.org/x/sync/errgroup"

	"larderhand/bot/telegram"
	"larderhand/scheduler"
	"larderhand/store"
)

// serveCmd serves the chat platforms.
type serveCmd struct {
	storeFlags
	zoneFlags
	logFlags
	Health       string        `env:"LARDERHAND_HEALTH" placeholder:"ADDR" help:"Answer /live, /ready and /metrics there, such as :8080; without a host on this machine only."`
	Operator     string        `env:"LARDERHAND_OPERATOR" placeholder:"ADDRESS" help:"Conversation to tell when the database can't be used, such as telegram:12345."`
	DiscordToken string        `env:"DISCORD_TOKEN" hidden:"" help:"Token of the Discord bot; from the environment only."`
	Telegram     telegramFlags `embed:""`
}

// pingWorkers is how many pings of one platform may be on their way at once: ten
// seconds of the quickest platform's rate, so that a few hundred conversations
// that hang hold up nobody else.
const pingWorkers = 500

// Run serves until ctx ends, or until one of the platforms cannot go on.
func (c *serveCmd) Run(ctx context.Context, s streams) (err error) {
	if c.Telegram.Token == "" {
		return errors.New("no platform token is set. Put DISCORD_TOKEN or TELEGRAM_TOKEN in the environment or in .env (see .env.example), or run larderhand without \"serve\" to chat in this terminal")
	}
	if err := c.Telegram.validate(); err != nil {
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
	log := c.logger(s.err)
	tg := telegram.New(c.Telegram.config())
	to := senders{"telegram": tg}
	alarm, seen := newAlarm(log, c.Operator, to), newMetrics()
	a, err := newApp(ctx, file, wallClock{}, zone, to, log, store.OnBroken(alarm.turn), store.OnTransaction(seen.transaction))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, a.Close()) }()
	if a.lost != nil {
		alarm.turn(a.lost)
	}
	tg.Parts = telegram.Parts{Bot: a.bot, Keep: store.Keeper{DB: a.db}, Places: a.db, Now: time.Now, Log: log.With("platform", "telegram")}
	a.sched.Limits = map[string]scheduler.Limits{"telegram": telegramLimits()}
	a.sched.Workers, a.sched.Watch = pingWorkers, seen
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
	all.Go(func() error { return tg.Run(ctx) })
	return all.Wait()
}
