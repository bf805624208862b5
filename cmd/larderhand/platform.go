package main

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"larderhand/bot"
	"larderhand/bot/discord"
	"larderhand/bot/telegram"
	"larderhand/scheduler"
	"larderhand/store"
)

// platform is one chat platform served.
type platform struct {
	lane   string // how its addresses begin
	sender bot.Sender
	limits scheduler.Limits
	join   func(*app, *slog.Logger) // gives it the bot and the store, before it runs
	run    func(context.Context) error
	tidy   func(context.Context) error // forgets what is old, once a day; nil: there is nothing
}

// platforms are those whose tokens are set. An error names the variable that is
// wrong.
func (c *serveCmd) platforms() ([]platform, error) {
	var list []platform
	if c.Discord.Token != "" {
		p, err := c.Discord.platform()
		if err != nil {
			return nil, err
		}
		list = append(list, p)
	}
	if c.Telegram.Token != "" {
		if err := c.Telegram.validate(); err != nil {
			return nil, err
		}
		list = append(list, c.Telegram.platform())
	}
	if len(list) == 0 {
		return nil, errors.New("no platform token is set. Put DISCORD_TOKEN or TELEGRAM_TOKEN in the environment or in .env (see .env.example), or run larderhand without \"serve\" to chat in this terminal")
	}
	return list, nil
}

func (f telegramFlags) platform() platform {
	tg := telegram.New(f.config())
	return platform{"telegram", tg, telegramLimits(), func(a *app, log *slog.Logger) {
		tg.Parts = telegram.Parts{Bot: a.bot, Keep: store.Keeper{DB: a.db}, Places: a.db, Now: time.Now, Log: log}
	}, tg.Run, tg.Tidy}
}

func (f discordFlags) platform() (platform, error) {
	cfg, err := f.config()
	if err != nil {
		return platform{}, err
	}
	dc, err := discord.New(cfg)
	if err != nil {
		return platform{}, err
	}
	return platform{"discord", dc, discordLimits(), func(a *app, log *slog.Logger) {
		dc.Parts = discord.Parts{Bot: a.bot, Keep: store.Keeper{DB: a.db}, Now: time.Now, Log: log}
	}, dc.Run, nil}, nil
}
