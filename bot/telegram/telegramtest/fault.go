package telegramtest

import (
	"fmt"
	"net"
	"net/http"
	"strings"
	"sync"
)

// Trouble is what befalls a call instead of its answer.
type Trouble struct {
	no    *refusal
	html  bool // a proxy's page instead of JSON
	hang  bool
	reset bool
	hold  bool
	lose  bool
}

// RetryAfter is flood control: 429 with parameters.retry_after.
func RetryAfter(seconds int) Trouble {
	return Trouble{no: &refusal{code: 429, text: fmt.Sprintf("Too Many Requests: retry after %d", seconds), wait: seconds}}
}

// Refuse answers any error, such as Refuse(403, "Forbidden: bot was blocked by the
// user").
func Refuse(code int, description string) Trouble {
	return Trouble{no: &refusal{code: code, text: description}}
}

// Moved answers 400 as for a group that has become the supergroup to.
func Moved(to int64) Trouble {
	no := badRequest("group chat was upgraded to a supergroup chat")
	no.movedTo = to
	return Trouble{no: no}
}

// ServerError answers 500.
func ServerError() Trouble { return Refuse(500, "Internal Server Error") }

// Unauthorized answers 401, as for a token that was revoked.
func Unauthorized() Trouble { return Refuse(401, "Unauthorized") }

// Blocked answers 403 as for a person who blocked the bot.
func Blocked() Trouble { return Refuse(403, "Forbidden: bot was blocked by the user") }

// Conflict answers 409, as when a second instance polls.
func Conflict() Trouble { return Trouble{no: conflictPoll} }

// BadGateway is a proxy's own answer: 502 with a page of HTML.
func BadGateway() Trouble { return Trouble{no: &refusal{code: 502}, html: true} }

// Hang never answers: the call waits until Release, which lets it go on as if
// nothing had happened, or until the client gives up, and then nothing was done.
func Hang() Trouble { return Trouble{hang: true} }

// Hold does what the call asks and keeps the answer back until Release.
func Hold() Trouble { return Trouble{hold: true} }

// Reset breaks the connection before anything is done.
func Reset() Trouble { return Trouble{reset: true} }

// LoseAnswer does what the call asks and breaks the connection: the bot cannot
// know.
func LoseAnswer() Trouble { return Trouble{lose: true} }

// Always is the count for trouble that does not pass.
const Always = -1

// Injection is trouble that waits for its calls.
type Injection struct {
	s       *Server
	method  string
	trouble Trouble
	left    int
	hits    int
	chats   map[int64]bool
	open    chan struct{}
	once    sync.Once
}

// Inject makes the next calls of a method ("" for any, Download for files) meet
// trouble, so many times; given rooms, only calls about those chats. Of several
// injections that fit a call the oldest strikes.
func (s *Server) Inject(method string, times int, t Trouble, only ...*Room) *Injection {
	s.mu.Lock()
	defer s.mu.Unlock()
	f := &Injection{s: s, method: strings.ToLower(method), trouble: t, left: times, open: make(chan struct{})}
	for _, r := range only {
		if f.chats == nil {
			f.chats = map[int64]bool{}
		}
		f.chats[r.chat.id] = true
	}
	s.faults = append(s.faults, f)
	return f
}

// Rival is a second instance of the bot: it takes the poll that waits away, and
// every later one, until cleared.
func (s *Server) Rival() *Injection {
	f := s.Inject("getUpdates", Always, Conflict())
	s.mu.Lock()
	defer s.mu.Unlock()
	s.endPoll(conflictPoll)
	return f
}

// Release lets calls that hang or are held go on, now and later.
func (f *Injection) Release() { f.once.Do(func() { close(f.open) }) }

// Clear ends the trouble for calls to come.
func (f *Injection) Clear() {
	f.s.mu.Lock()
	defer f.s.mu.Unlock()
	f.left = 0
}

// Hits is how many calls it has struck.
func (f *Injection) Hits() int {
	f.s.mu.Lock()
	defer f.s.mu.Unlock()
	return f.hits
}

// AwaitHits waits until it has struck so many calls.
func (f *Injection) AwaitHits(n int) {
	f.s.t.Helper()
	f.s.must(fmt.Sprintf("%d calls of %s in trouble", n, f.method), func() bool { return f.hits >= n })
}

func (s *Server) nextFault(method string, chatID int64) *Injection {
	for _, f := range s.faults {
		if f.left == 0 || f.method != "" && f.method != method || f.chats != nil && !f.chats[chatID] {
			continue
		}
		if f.left > 0 {
			f.left--
		}
		f.hits++
		return f
	}
	return nil
}

// strike is trouble before the call is done. It tells whether that was the end of
// it.
func (s *Server) strike(w http.ResponseWriter, c *call, f *Injection) bool {
	if f == nil {
		return false
	}
	switch t := f.trouble; {
	case t.hang:
		return !s.wait(c, f)
	case t.reset:
		breakOff(w)
		return true
	case t.html:
		s.note(c, t.no)
		w.Header().Set("Content-Type", "text/html")
		w.WriteHeader(t.no.code)
		fmt.Fprintf(w, "<html>\r\n<head><title>502 Bad Gateway</title></head>\r\n<body>\r\n<center><h1>502 Bad Gateway</h1></center>\r\n</body>\r\n</html>\r\n")
		return true
	case t.no != nil:
		s.answer(w, c, nil, t.no)
		return true
	}
	return false
}

// afterwards is trouble once the call was done.
func (s *Server) afterwards(w http.ResponseWriter, c *call, f *Injection) bool {
	switch {
	case f == nil:
		return false
	case f.trouble.lose:
		breakOff(w)
		return true
	case f.trouble.hold:
		return !s.wait(c, f)
	}
	return false
}

// wait blocks until the release and tells whether there is still someone to answer.
func (s *Server) wait(c *call, f *Injection) bool {
	select {
	case <-f.open:
		return true
	case <-c.ctx.Done():
		return false
	case <-s.done:
		return false
	}
}

func (s *Server) note(c *call, no *refusal) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.settle(c, no, no.code)
}

// breakOff cuts the connection so that the client sees a reset.
func breakOff(w http.ResponseWriter) {
	conn, _, err := http.NewResponseController(w).Hijack()
	if err != nil {
		panic(http.ErrAbortHandler)
	}
	if tcp, ok := conn.(*net.TCPConn); ok {
		tcp.SetLinger(0)
	}
	conn.Close()
}
