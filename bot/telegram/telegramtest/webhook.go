package telegramtest

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"net"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"time"
)

// SecretHeader carries the webhook's secret (Bot API, setWebhook).
const SecretHeader = "X-Telegram-Bot-Api-Secret-Token"

type webhook struct {
	url       string
	secret    string
	most      int64
	failure   string
	failureAt int64
	delivered update // the last one the bot took
}

var secretToken = regexp.MustCompile(`^[A-Za-z0-9_-]{0,256}$`)

// limitWebhook holds setWebhook against the published rules: HTTPS on one of four
// ports. Plain HTTP on loopback is what a self-hosted server in local mode takes.
func limitWebhook(s *Server, c *call) *refusal {
	if !secretToken.MatchString(c.params["secret_token"]) {
		s.violate(c.rec.Method, "secret_token is not 1–256 of A–Z, a–z, 0–9, _ and -")
		return badRequest("secret token contains unallowed characters")
	}
	if n := c.integer("max_connections"); c.has("max_connections") && (n < 1 || n > 100) {
		s.violate(c.rec.Method, "max_connections %d is not within 1–100", n)
	}
	if c.params["url"] == "" {
		return nil
	}
	u, err := url.Parse(c.params["url"])
	if err != nil || u.Host == "" {
		s.violate(c.rec.Method, "%q is no address", c.params["url"])
		return badRequest("invalid webhook URL specified")
	}
	if ip := net.ParseIP(u.Hostname()); ip != nil && ip.IsLoopback() {
		return nil
	}
	if u.Scheme != "https" {
		s.violate(c.rec.Method, "%q is not HTTPS", c.params["url"])
		return badRequest("bad webhook: An HTTPS URL must be provided for webhook")
	}
	switch u.Port() {
	case "", "443", "80", "88", "8443":
		return nil
	}
	s.violate(c.rec.Method, "port %s: webhooks go to 80, 88, 443 or 8443", u.Port())
	return badRequest("bad webhook: Webhook can be set up only on ports 80, 88, 443 or 8443")
}

func (s *Server) setWebhook(c *call) (any, *refusal) {
	if c.params["url"] == "" {
		return s.deleteWebhook(c)
	}
	if c.flag("drop_pending_updates") {
		s.queue.pending = nil
	}
	s.takeAllowed(c)
	s.endPoll(conflictSet)
	s.hook = webhook{url: c.params["url"], secret: c.params["secret_token"], most: 40}
	if c.has("max_connections") {
		s.hook.most = c.integer("max_connections")
	}
	return true, nil
}

func (s *Server) deleteWebhook(c *call) (any, *refusal) {
	if c.flag("drop_pending_updates") {
		s.queue.pending = nil
	}
	s.hook = webhook{}
	return true, nil
}

func (s *Server) getWebhookInfo(*call) (any, *refusal) {
	o := object{"url": s.hook.url, "has_custom_certificate": false, "pending_update_count": len(s.queue.pending)}
	if s.hook.url != "" {
		o["max_connections"] = s.hook.most
	}
	if s.hook.failure != "" {
		o["last_error_date"] = s.hook.failureAt
		o["last_error_message"] = s.hook.failure
	}
	if s.queue.allowed != nil {
		o["allowed_updates"] = slices.Sorted(maps.Keys(s.queue.allowed))
	}
	return o, nil
}

// deliverToWebhook posts pending updates one after another while a webhook is set,
// and tries a refused one again after a pause.
func (s *Server) deliverToWebhook() {
	defer s.work.Done()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	go func() {
		<-s.done
		cancel()
	}()
	for ctx.Err() == nil {
		s.mu.Lock()
		hook, pending, changed := s.hook, s.queue.pending, s.changed
		s.mu.Unlock()
		if hook.url == "" || len(pending) == 0 {
			select {
			case <-changed:
			case <-ctx.Done():
			}
			continue
		}
		code, err := s.postUpdate(ctx, hook.url, hook.secret, pending[0].raw)
		if s.delivered(hook, pending[0], code, err) {
			continue
		}
		pause := time.NewTimer(s.cfg.retry)
		select {
		case <-pause.C:
		case <-ctx.Done():
		}
		pause.Stop()
	}
}

// delivered notes how a delivery went and tells whether the bot took it.
func (s *Server) delivered(hook webhook, u update, code int, err error) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	defer s.touch()
	if s.hook.url != hook.url {
		return true // meanwhile set anew or deleted: whoever comes next gets it
	}
	if err == nil && code/100 == 2 {
		s.hook.delivered = u
		if len(s.queue.pending) > 0 && s.queue.pending[0].id == u.id {
			s.queue.pending = s.queue.pending[1:]
		}
		return true
	}
	s.hook.failureAt = s.date()
	s.hook.failure = "Connection refused"
	if err == nil {
		s.hook.failure = fmt.Sprintf("Wrong response from the webhook: %d %s", code, http.StatusText(code))
	}
	return false
}

func (s *Server) postUpdate(ctx context.Context, to, secret string, raw []byte) (int, error) {
	if local, ok := s.cfg.routes[to]; ok {
		to = local
	}
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, to, bytes.NewReader(raw))
	if err != nil {
		return 0, err
	}
	r.Header.Set("Content-Type", "application/json")
	if secret != "" {
		r.Header.Set(SecretHeader, secret)
	}
	resp, err := s.cfg.hookClient.Do(r)
	if err != nil {
		return 0, err
	}
	defer resp.Body.Close()
	var reply struct {
		Method string `json:"method"`
	}
	body, _ := io.ReadAll(io.LimitReader(resp.Body, 1<<20))
	if json.Unmarshal(body, &reply) == nil && reply.Method != "" {
		s.mu.Lock()
		s.violate(reply.Method, "this fake does not model calls made in the answer to a webhook")
		s.mu.Unlock()
	}
	return resp.StatusCode, nil
}
