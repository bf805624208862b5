package telegram

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"sync"
	"time"

	"github.com/cenkalti/backoff/v5"
	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
)

const (
	drainTime = 15 * time.Second
	// pollTime is how long the platform holds a poll with nothing to say.
	pollTime = 50 * time.Second
)

// Run receives until ctx ends, then works off what it has taken in, within a bound.
// It gives an error only where going on makes no sense: ErrToken, or a webhook that
// cannot be served.
func (a *Adapter) Run(ctx context.Context) error {
	if a.Bot == nil || a.Keep == nil || a.Places == nil {
		return errors.New("telegram: the adapter has no bot, store or places to work with")
	}
	defer a.api.http.CloseIdleConnections()
	defer a.drain(ctx)
	if err := a.identify(ctx); err != nil {
		return ended(ctx, err)
	}
	if err := a.recallMoves(ctx); err != nil {
		a.Log.ErrorContext(ctx, "could not read which groups have moved", "error", err)
	}
	var work sync.WaitGroup
	work.Go(func() { a.introduce(ctx) })
	defer work.Wait()
	box := &mailbox{a: a}
	if err := box.recall(ctx); err != nil {
		a.Log.ErrorContext(ctx, "could not read what is left from before", "error", err)
	}
	if a.cfg.Webhook.URL != "" {
		return ended(ctx, a.serveWebhook(ctx, box))
	}
	return ended(ctx, a.poll(ctx, box))
}

// ended makes an error that only says that ctx ended none at all.
func ended(ctx context.Context, err error) error {
	if ctx.Err() != nil && !errors.Is(err, ErrToken) {
		return nil
	}
	return err
}

func (a *Adapter) drain(ctx context.Context) {
	ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), a.cfg.Drain)
	defer cancel()
	a.inbox.Stop(ctx)
}

func patience() *backoff.ExponentialBackOff {
	b := backoff.NewExponentialBackOff()
	b.InitialInterval, b.MaxInterval = 500*time.Millisecond, 30*time.Second
	return b
}

// identify learns the bot's own name. A platform out of reach is waited for.
func (a *Adapter) identify(ctx context.Context) error {
	var w worries
	self, err := backoff.Retry(ctx, func() (tgbotapi.User, error) {
		var u tgbotapi.User
		err := a.api.call(ctx, "getMe", nil, &u)
		if badToken(err) {
			return u, backoff.Permanent(ErrToken)
		}
		return u, again(err)
	}, backoff.WithBackOff(patience()), backoff.WithMaxElapsedTime(0), backoff.WithNotify(w.notify(ctx, a, "Telegram cannot be reached; trying again")))
	if err != nil {
		return err
	}
	a.self.Store(&self.UserName)
	a.Log.InfoContext(ctx, "connected to Telegram", "bot", "@"+self.UserName)
	return nil
}

// again lets the platform's own waiting time count.
func again(err error) error {
	var p *problem
	if errors.As(err, &p) && p.after > 0 {
		return errors.Join(&backoff.RetryAfterError{Duration: p.after}, err)
	}
	return err
}

// worries says in the log what is wrong, once until it is something else.
type worries struct{ last string }

func (w *worries) notify(ctx context.Context, a *Adapter, what string) backoff.Notify {
	return func(err error, next time.Duration) {
		if text := err.Error(); text != w.last {
			w.last = text
			a.Log.WarnContext(ctx, what, "error", err, "next", next)
		}
	}
}

// poll fetches updates. The library's own loop swallows errors, confirms what was
// not handled and cannot be stopped, so this is ours.
func (a *Adapter) poll(ctx context.Context, box *mailbox) error {
	var w worries
	for ctx.Err() == nil {
		raws, err := backoff.Retry(ctx, func() ([]json.RawMessage, error) { return a.fetch(ctx, box.offset()) },
			backoff.WithBackOff(patience()), backoff.WithMaxElapsedTime(0), backoff.WithNotify(w.notify(ctx, a, "no updates from Telegram; trying again")))
		if err != nil {
			return err
		}
		w.last = ""
		box.take(ctx, raws)
	}
	return nil
}

func (a *Adapter) fetch(ctx context.Context, offset int) ([]json.RawMessage, error) {
	params := map[string]string{"timeout": fmt.Sprint(int(a.cfg.Poll / time.Second)), "allowed_updates": wanted}
	if offset != 0 {
		params["offset"] = fmt.Sprint(offset)
	}
	var raws []json.RawMessage
	err := a.api.callWithin(ctx, a.cfg.Poll+min(a.cfg.Call, 20*time.Second), "getUpdates", params, &raws)
	var p *problem
	if !errors.As(err, &p) {
		return raws, nil
	}
	switch {
	case p.code == http.StatusUnauthorized:
		return nil, backoff.Permanent(ErrToken)
	case p.code == http.StatusConflict && p.says("webhook is active"):
		a.Log.WarnContext(ctx, "a webhook is set for this bot; it is taken down, since TELEGRAM_WEBHOOK_URL is not set here")
		if err := a.api.call(ctx, "deleteWebhook", nil, nil); err != nil {
			return nil, again(err)
		}
	case p.code == http.StatusConflict:
		return nil, fmt.Errorf("another process polls with the same TELEGRAM_TOKEN; stop one of the two: %w", err)
	}
	return nil, again(err)
}
