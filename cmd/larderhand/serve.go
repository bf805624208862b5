package main

import (
	"errors"
)

// serveCmd serves the chat platforms.
type serveCmd struct {
	storeFlags
	zoneFlags
	logFlags
	DiscordToken  string `env:"DISCORD_TOKEN" hidden:"" help:"Token of the Discord bot; from the environment only."`
	TelegramToken string `env:"TELEGRAM_TOKEN" hidden:"" help:"Token of the Telegram bot; from the environment only."`
}

// Run says what is missing where no platform can be served.
func (c *serveCmd) Run() error {
	if c.DiscordToken == "" && c.TelegramToken == "" {
		return errors.New("no platform token is set. Put DISCORD_TOKEN or TELEGRAM_TOKEN in the environment or in .env (see .env.example), or run larderhand without \"serve\" to chat in this terminal")
	}
	return errors.New("this build cannot serve a platform yet; run larderhand without \"serve\" to chat in this terminal")
}
