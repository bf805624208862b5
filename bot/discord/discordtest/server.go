package discordtest

import (
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"sync"
	"testing"
	"time"
)

// Server is one fake Discord. All its methods may be called from any goroutine,
// except that those which wait or drive may end the test.
type Server struct {
	t     testing.TB
	opt   options
	clock *Clock
	http  *httptest.Server
	spec  *spec

	mu        sync.Mutex
	changed   chan struct{}
	increment int64
	story     []string

	appID  string
	bot    *Person
	people map[string]*Person
	guilds []*Guild

	channels     map[string]*Channel
	files        map[string]File
	fetched      int
	nonces       map[string]sentNonce
	interactions map[string]*interaction
	global       []*command
	overwrites   []CommandOverwrite
	creates      map[string][]time.Time

	gateway  gatewayState
	requests []Request
	faults   []*Fault

	checks     checkCount
	verdict    sync.Mutex
	violations []string
	ended      bool
	closing    chan struct{}
	sockets    sync.WaitGroup
}

// New starts a fake Discord that stops when the test ends.
func New(t testing.TB, opts ...Option) *Server {
	t.Helper()
	s := &Server{
		t: t,
		opt: options{
			token: "fake-token", patience: time.Minute, heartbeat: 41250 * time.Millisecond,
			shards: 1, maxConcurrency: 1, specs: os.Getenv("LARDERHAND_SPECS"),
		},
		clock:        NewClock(time.Date(2026, time.March, 2, 8, 0, 0, 0, time.UTC)),
		changed:      make(chan struct{}),
		people:       map[string]*Person{},
		channels:     map[string]*Channel{},
		files:        map[string]File{},
		nonces:       map[string]sentNonce{},
		interactions: map[string]*interaction{},
		creates:      map[string][]time.Time{},
		closing:      make(chan struct{}),
	}
	for _, o := range opts {
		o(&s.opt)
	}
	if s.opt.now == nil {
		s.opt.now = s.clock.Now
	}
	if s.opt.specs != "" {
		var err error
		if s.spec, err = openSpec(s.opt.specs); err != nil {
			t.Fatalf("discordtest: %v", err)
		}
	}
	s.gateway.init()
	s.appID = s.newID()
	s.bot = &Person{s: s, ID: s.newID(), Name: "Larderhand", bot: true, locale: "en-US"}
	s.people[s.bot.ID] = s.bot
	s.listen()
	t.Cleanup(s.close)
	return s
}

func (s *Server) listen() {
	s.http = httptest.NewUnstartedServer(s.handler())
	if s.opt.addr != "" {
		l, err := net.Listen("tcp", s.opt.addr)
		if err != nil {
			s.t.Fatalf("discordtest: %v", err)
		}
		s.http.Listener.Close()
		s.http.Listener = l
	}
	s.http.Start()
}

func (s *Server) close() {
	s.mu.Lock()
	close(s.closing)
	s.dropAll()
	s.mu.Unlock()
	s.http.Close()
	s.sockets.Wait()
	s.verdict.Lock()
	s.ended = true
	s.verdict.Unlock()
}

// URL is the base address, such as "http://127.0.0.1:41234"; the API is served
// under it at /api/v9.
func (s *Server) URL() string { return s.http.URL }

// Token is the bot token that is accepted, without the "Bot " in front.
func (s *Server) Token() string { return s.opt.token }

// AppID is the application's id.
func (s *Server) AppID() string { return s.appID }

// Bot is the bot's own user.
func (s *Server) Bot() *Person { return s.bot }

// Clock is the server's own clock; it decides nothing when WithClock is used.
func (s *Server) Clock() *Clock { return s.clock }

func (s *Server) now() time.Time { return s.opt.now() }

// Transport sends every request to this server, whatever host it names: give it
// to a client whose addresses are fixed.
func (s *Server) Transport() http.RoundTripper { return rewrite{to: s.http.Listener.Addr().String()} }

type rewrite struct{ to string }

func (rw rewrite) RoundTrip(r *http.Request) (*http.Response, error) {
	r = r.Clone(r.Context())
	r.URL.Scheme, r.URL.Host, r.Host = "http", rw.to, rw.to
	return http.DefaultTransport.RoundTrip(r)
}

// violate fails the test: the code under test broke a published rule, or the
// fake itself does not look like the platform.
func (s *Server) violate(format string, args ...any) {
	s.verdict.Lock()
	defer s.verdict.Unlock()
	what := fmt.Sprintf(format, args...)
	s.violations = append(s.violations, what)
	if !s.ended {
		s.t.Errorf("discord: %s", what)
	}
}

// Violations lists the breaches so far; each has failed the test already.
func (s *Server) Violations() []string {
	s.verdict.Lock()
	defer s.verdict.Unlock()
	return append([]string(nil), s.violations...)
}
