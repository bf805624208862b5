package main

import (
	"errors"
	"fmt"
	"net/url"
	"regexp"
	"time"

	"golang.org/x/time/rate"

	"larderhand/bot/telegram"
	"larderhand/scheduler"
	"larderhand/store"
)

// telegramFlags say how to be on Telegram.
type telegramFlags struct {
	Token   string `name:"telegram-token" env:"TELEGRAM_TOKEN" hidden:"" help:"Token of the Telegram bot; from the environment only."`
	APIURL  string `name:"telegram-api-url" env:"TELEGRAM_API_URL" placeholder:"URL" help:"Bot API server, such as http://127.0.0.1:8081. Default: Telegram's own."`
	Webhook string `name:"telegram-webhook-url" env:"TELEGRAM_WEBHOOK_URL" placeholder:"URL" help:"Public HTTPS address Telegram sends updates to. Default: updates are fetched, which needs no address."`
	Listen  string `name:"telegram-webhook-listen" env:"TELEGRAM_WEBHOOK_LISTEN" default:"127.0.0.1:8443" help:"Where the webhook listens, behind whatever ends HTTPS."`
	Secret  string `name:"telegram-webhook-secret" env:"TELEGRAM_WEBHOOK_SECRET" hidden:"" help:"What Telegram sends along to the webhook; from the environment only. Default: made from the token."`
}

var webhookSecret = regexp.MustCompile(`^[A-Za-z0-9_-]{0,256}$`)

// validate names the variable that is wrong.
func (f telegramFlags) validate() error {
	if _, err := address("TELEGRAM_API_URL", f.APIURL); err != nil {
		return err
	}
	if !webhookSecret.MatchString(f.Secret) {
		return errors.New("TELEGRAM_WEBHOOK_SECRET: up to 256 letters, digits, - and _ are allowed")
	}
	_, err := address("TELEGRAM_WEBHOOK_URL", f.Webhook)
	return err
}

func address(name, text string) (*url.URL, error) {
	if text == "" {
		return nil, nil
	}
	u, err := url.Parse(text)
	if err != nil || u.Host == "" || u.Scheme != "http" && u.Scheme != "https" {
		return nil, fmt.Errorf("%s: %q is no http or https address", name, text)
	}
	return u, nil
}

func (f telegramFlags) config() telegram.Config {
	return telegram.Config{Token: f.Token, APIURL: f.APIURL,
		Webhook: telegram.Webhook{URL: f.Webhook, Listen: f.Listen, Secret: f.Secret}}
}

// telegramLimits is how fast Telegram takes pings: about 30 messages a second in
// all, one a second in a chat and 20 a minute in a group
// (https://core.telegram.org/bots/faq#my-bot-is-hitting-limits-how-do-i-avoid-this,
// second-hand, not checked against the text).
func telegramLimits() scheduler.Limits {
	return scheduler.Limits{All: scheduler.Rate{Limit: 29, Burst: 1}, Chat: func(a store.Address) (string, scheduler.Rate) {
		chat, group := telegram.Chat(a)
		if group {
			return string(chat), scheduler.Rate{Limit: rate.Every(time.Minute / 19), Burst: 1}
		}
		return string(chat), scheduler.Rate{Limit: 1, Burst: 1}
	}}
}
