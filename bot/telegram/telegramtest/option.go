package telegramtest

import (
	"net/http"
	"slices"
	"strings"
	"time"
)

type config struct {
	token      string
	username   string
	privacy    bool
	missing    []string
	patience   time.Duration
	retry      time.Duration
	now        func() time.Time
	tally      *Tally
	routes     map[string]string
	hookClient *http.Client
}

// Option changes how New sets the server up.
type Option func(*config)

func defaults() config {
	return config{
		token:      "7000000001:AAF-loopback_token_of_no_use_anywhere",
		username:   "larderhand_test_bot",
		privacy:    true,
		patience:   10 * time.Second,
		retry:      50 * time.Millisecond,
		now:        time.Now,
		tally:      new(Tally),
		routes:     map[string]string{},
		hookClient: http.DefaultClient,
	}
}

// WithUsername names the bot, without the @.
func WithUsername(name string) Option { return func(c *config) { c.username = name } }

// WithPrivacyOff lets the bot read everything said in its groups.
func WithPrivacyOff() Option { return func(c *config) { c.privacy = false } }

// WithoutMethods makes the server one that does not know some methods, as an older
// or self-hosted one may be. It answers 404 and that is no violation.
func WithoutMethods(names ...string) Option {
	return func(c *config) {
		for _, n := range names {
			c.missing = append(c.missing, strings.ToLower(n))
		}
	}
}

// WithClock dates messages. It does not speed up long polls.
func WithClock(now func() time.Time) Option { return func(c *config) { c.now = now } }

// WithPatience bounds every Await; the default is ten seconds. It is an upper
// bound for broken code, no test waits for it to run out.
func WithPatience(d time.Duration) Option { return func(c *config) { c.patience = d } }

// WithTally counts this server's checked calls together with others'.
func WithTally(t *Tally) Option { return func(c *config) { c.tally = t } }

// WithWebhookRoute delivers updates meant for a public address to a local one, as
// a reverse proxy in front of the bot would.
func WithWebhookRoute(public, local string) Option {
	return func(c *config) { c.routes[public] = local }
}

// WithWebhookClient is the client that calls the webhook, for one that trusts a
// test certificate.
func WithWebhookClient(h *http.Client) Option { return func(c *config) { c.hookClient = h } }

// WithWebhookRetry is the pause before an update the webhook refused is tried
// again.
func WithWebhookRetry(d time.Duration) Option { return func(c *config) { c.retry = d } }

func (c config) knows(method string) bool { return !slices.Contains(c.missing, method) }
