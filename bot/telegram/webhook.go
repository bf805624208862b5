package telegram

import (
	"context"
	"crypto/hmac"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"time"

	"github.com/cenkalti/backoff/v5"
)

// SecretHeader carries the webhook's secret (Bot API, setWebhook).
const SecretHeader = "X-Telegram-Bot-Api-Secret-Token"

// updateMost bounds an update's body. A message is a few kilobytes.
const updateMost = 1 << 20

// secret is what the platform has to send along with each update.
func (a *Adapter) secret() string {
	if a.cfg.Webhook.Secret != "" {
		return a.cfg.Webhook.Secret
	}
	m := hmac.New(sha256.New, []byte(a.cfg.Token))
	m.Write([]byte("larderhand webhook"))
	return hex.EncodeToString(m.Sum(nil))
}

// serveWebhook listens for updates and asks the platform to send them. The webhook
// stays set at the end: what comes meanwhile is kept for us.
func (a *Adapter) serveWebhook(ctx context.Context, box *mailbox) error {
	u, err := url.Parse(a.cfg.Webhook.URL)
	if err != nil {
		return fmt.Errorf("TELEGRAM_WEBHOOK_URL: %w", err)
	}
	path := u.Path
	if path == "" {
		path = "/"
	}
	mux := http.NewServeMux()
	mux.HandleFunc("POST "+path, func(w http.ResponseWriter, r *http.Request) { a.webhook(w, r, box) })
	listen, err := (&net.ListenConfig{}).Listen(ctx, "tcp", a.cfg.Webhook.Listen)
	if err != nil {
		return fmt.Errorf("TELEGRAM_WEBHOOK_LISTEN: %w", err)
	}
	server := &http.Server{Handler: mux, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 30 * time.Second, IdleTimeout: 2 * time.Minute}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listen) }()
	defer func() {
		ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), a.cfg.Drain)
		defer cancel()
		if err := server.Shutdown(ctx); err != nil {
			a.Log.WarnContext(ctx, "the webhook did not close in time", "error", err)
		}
	}()
	if err := a.setWebhook(ctx); err != nil {
		return err
	}
	a.Log.InfoContext(ctx, "listening for Telegram", "at", listen.Addr().String())
	select {
	case <-ctx.Done():
		return nil
	case err := <-failed:
		if errors.Is(err, http.ErrServerClosed) {
			return nil
		}
		return err
	}
}

// setWebhook asks for one connection, so that updates come in their order.
func (a *Adapter) setWebhook(ctx context.Context) error {
	var w worries
	params := map[string]string{"url": a.cfg.Webhook.URL, "secret_token": a.secret(), "max_connections": "1", "allowed_updates": wanted}
	_, err := backoff.Retry(ctx, func() (struct{}, error) {
		err := a.api.call(ctx, "setWebhook", params, nil)
		var p *problem
		if errors.As(err, &p) && p.code == http.StatusBadRequest {
			return struct{}{}, backoff.Permanent(fmt.Errorf("TELEGRAM_WEBHOOK_URL is not taken: %w", err))
		}
		return struct{}{}, again(err)
	}, backoff.WithBackOff(patience()), backoff.WithMaxElapsedTime(0), backoff.WithNotify(w.notify(ctx, a, "the webhook could not be set; trying again")))
	return err
}

// webhook takes an update in, if the secret is the right one.
func (a *Adapter) webhook(w http.ResponseWriter, r *http.Request, box *mailbox) {
	if subtle.ConstantTimeCompare([]byte(r.Header.Get(SecretHeader)), []byte(a.secret())) != 1 {
		a.Log.WarnContext(r.Context(), "an update with a wrong secret was turned away")
		http.Error(w, "wrong secret", http.StatusUnauthorized)
		return
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, updateMost))
	if err != nil {
		http.Error(w, "cannot read the update", http.StatusBadRequest)
		return
	}
	if !json.Valid(body) {
		http.Error(w, "not an update", http.StatusBadRequest)
		return
	}
	box.take(context.WithoutCancel(r.Context()), []json.RawMessage{body})
	w.WriteHeader(http.StatusOK)
}
