package telegramtest

import (
	"net/http"
	"net/http/httptest"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"

	"larderhand/bot/telegram/telegramtest/internal/describe"
)

// SpecsVariable names the environment variable with the folder that holds the
// machine-readable description of the Bot API.
const SpecsVariable = "LARDERHAND_SPECS"

// Server is one fake Bot API with one bot. Its methods may be called from several
// goroutines; the ones that can fail the test at once (Await…, and anything that
// plays an impossible act) belong to the test's own.
type Server struct {
	t    testing.TB
	cfg  config
	http *httptest.Server
	spec *describe.Description // nil when SpecsVariable is unset
	bot  *User
	done chan struct{}
	work sync.WaitGroup

	methods map[string]handler

	mu      sync.Mutex
	changed chan struct{} // closed and replaced whenever anything below changes
	closed  bool

	people  people
	queue   queue
	hook    webhook
	presses []*query
	files   []*storedFile
	menus   map[menuKey][]Command
	about   map[aboutKey]string
	faults  []*Injection
	calls   []*Call
	slips   slips
	off     string // the method that ended the session: "logout" or "close"
}

// New starts a server and stops it when the test ends.
func New(t testing.TB, opts ...Option) *Server {
	t.Helper()
	cfg := defaults()
	for _, o := range opts {
		o(&cfg)
	}
	s := &Server{
		t: t, cfg: cfg,
		done:    make(chan struct{}),
		changed: make(chan struct{}),
		menus:   map[menuKey][]Command{},
		about:   map[aboutKey]string{},
		methods: handlers(),
	}
	if dir := os.Getenv(SpecsVariable); dir != "" {
		spec, err := cfg.tally.describe(dir)
		if err != nil {
			t.Fatalf("telegram: %s: %v", SpecsVariable, err)
		}
		s.spec = spec
	}
	s.people = newPeople()
	id, _, _ := strings.Cut(cfg.token, ":")
	botID, err := strconv.ParseInt(id, 10, 64)
	if err != nil {
		t.Fatalf("telegram: the token has no bot id before its colon")
	}
	s.bot = s.people.add(User{ID: botID, FirstName: "Larderhand", Username: cfg.username, IsBot: true})
	s.queue.allow(nil)
	s.http = httptest.NewServer(http.HandlerFunc(s.serve))
	s.work.Add(1)
	go s.deliverToWebhook()
	t.Cleanup(s.Close)
	return s
}

// URL is the base address, to which /bot<token>/<method> is appended.
func (s *Server) URL() string { return s.http.URL }

// Token is the bot's token.
func (s *Server) Token() string { return s.cfg.token }

// Username is the bot's name, without the @.
func (s *Server) Username() string { return s.cfg.username }

// BotID is the bot's user id.
func (s *Server) BotID() int64 { return s.bot.ID }

// Close ends every call that still waits and stops the server. New arranges it for
// the end of the test; calling it earlier is a server gone down.
func (s *Server) Close() {
	s.mu.Lock()
	if s.closed {
		s.mu.Unlock()
		return
	}
	s.closed = true
	close(s.done)
	s.touch()
	s.mu.Unlock()
	s.http.Close()
	s.work.Wait()
	s.t.Logf("telegram: %s", s.summary())
}

// touch wakes everything that waits for a change. The lock is held.
func (s *Server) touch() {
	close(s.changed)
	s.changed = make(chan struct{})
}

func (s *Server) date() int64 { return s.cfg.now().Unix() }
