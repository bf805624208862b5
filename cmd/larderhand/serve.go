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
	DiscordToken string        `env:"DISCORD_TOKEN" hidden:"" help:"Token of the Discord bot; from the environment only."`
	Telegram     telegramFlags `embed:""`
}

// pingWorkers is how many pings of one platform may be on their way at once.
const pingWorkers = 32

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
	a, err := newApp(ctx, file, wallClock{}, zone, senders{"telegram": tg}, log)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, a.Close()) }()
	tg.Parts = telegram.Parts{Bot: a.bot, Keep: store.Keeper{DB: a.db}, Places: a.db, Now: time.Now, Log: log.With("platform", "telegram")}
	a.sched.Limits = map[string]scheduler.Limits{"telegram": telegramLimits()}
	a.sched.Workers = pingWorkers

	all, ctx := errgroup.WithContext(ctx)
	all.Go(func() error { return a.sched.Run(ctx, time.Now) })
	all.Go(func() error { return tg.Run(ctx) })
	return all.Wait()
}
