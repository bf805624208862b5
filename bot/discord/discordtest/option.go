package discordtest

import "time"

// Option changes how a Server is set up.
type Option func(*options)

type options struct {
	token          string
	now            func() time.Time
	patience       time.Duration
	heartbeat      time.Duration
	shards         int
	maxConcurrency int
	limitIdentify  bool
	specs          string
	addr           string
}

// WithToken sets the bot token that is accepted; "fake-token" by default.
func WithToken(token string) Option { return func(o *options) { o.token = token } }

// WithClock reads the time from now, for a test that has its own clock or, with
// time.Now, for a program running against the fake by hand. By default the
// server has a Clock of its own, see Server.Clock.
func WithClock(now func() time.Time) Option { return func(o *options) { o.now = now } }

// WithPatience sets how long waiting methods wait in real time before they end
// the test; 10 s by default.
func WithPatience(d time.Duration) Option { return func(o *options) { o.patience = d } }

// WithHeartbeat sets the heartbeat interval announced in hello; 41.25 s by
// default, so that an ordinary test sees none.
func WithHeartbeat(d time.Duration) Option { return func(o *options) { o.heartbeat = d } }

// WithShards sets the number of shards recommended by /gateway/bot and how many
// may identify at once (max_concurrency).
func WithShards(n, maxConcurrency int) Option {
	return func(o *options) { o.shards, o.maxConcurrency = n, maxConcurrency }
}

// WithIdentifyLimit answers an identify that comes within 5 s of another in the
// same max_concurrency bucket with an invalid session, as the platform does.
// Seconds are the server's clock's.
func WithIdentifyLimit() Option { return func(o *options) { o.limitIdentify = true } }

// WithSpecs reads discord-openapi.json from dir in place of the folder named by
// LARDERHAND_SPECS. An empty dir switches that part of the checking off.
func WithSpecs(dir string) Option { return func(o *options) { o.specs = dir } }

// WithAddress listens on a fixed address such as "127.0.0.1:8082".
func WithAddress(addr string) Option { return func(o *options) { o.addr = addr } }
