package discordtest

import (
	"net/http"
	"time"
)

// Fault makes requests go wrong. Inject returns one.
type Fault struct {
	s       *Server
	kind    FaultKind
	on      target
	skip    int
	left    int // how many requests still; below zero without end
	hits    int
	release chan struct{}
	gone    bool
}

// FaultOption narrows a fault.
type FaultOption func(*Fault)

// Times lets a fault strike n requests; once is the default.
func Times(n int) FaultOption { return func(f *Fault) { f.left = n } }

// Always lets a fault strike until Remove.
func Always() FaultOption { return func(f *Fault) { f.left = -1 } }

// After lets n matching requests pass first.
func After(n int) FaultOption { return func(f *Fault) { f.skip = n } }

// Inject makes the coming requests that match go wrong: method and path as in
// Requests, for example
//
//	s.Inject("POST", "/channels/*/messages", RateLimited(50*time.Millisecond))
//
// Of several faults that match, the one injected first strikes. The request is
// recorded and checked all the same.
func (s *Server) Inject(method, glob string, kind FaultKind, opts ...FaultOption) *Fault {
	f := &Fault{s: s, kind: kind, on: target{method, glob}, left: 1, release: make(chan struct{})}
	for _, o := range opts {
		o(f)
	}
	s.locked(func() { s.faults = append(s.faults, f) })
	return f
}

// Hits is how many requests the fault struck.
func (f *Fault) Hits() int {
	f.s.mu.Lock()
	defer f.s.mu.Unlock()
	return f.hits
}

// WaitHits waits until the fault struck n requests.
func (f *Fault) WaitHits(n int) {
	f.s.t.Helper()
	f.s.wait(plural(n, "fault")+" on "+f.on.method+" "+f.on.glob, func() bool { return f.hits >= n })
}

// Release lets go of the requests a Hang or Hold keeps, and of those to come.
func (f *Fault) Release() {
	f.s.locked(func() {
		select {
		case <-f.release:
		default:
			close(f.release)
		}
	})
}

// Remove ends the fault and releases what it holds.
func (f *Fault) Remove() {
	f.s.locked(func() { f.gone = true })
	f.Release()
}

func (s *Server) faultFor(c *call) *Fault {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, f := range s.faults {
		if f.gone || f.left == 0 || !f.on.matches(c.r.Method, c.path) {
			continue
		}
		if f.skip > 0 {
			f.skip--
			continue
		}
		if f.left > 0 {
			f.left--
		}
		f.hits++
		s.note("%s %s: %s", c.r.Method, c.path, f.kind.name)
		s.touch()
		return f
	}
	return nil
}

// play acts the fault out; false means the connection is gone and nothing can
// be answered.
func (f *Fault) play(s *Server, r *http.Request, w http.ResponseWriter) bool {
	switch {
	case f.kind.reset:
		cut(w)
		return false
	case f.kind.hold:
		select {
		case <-f.release:
		case <-s.closing:
			return false
		case <-r.Context().Done():
			return false
		}
	case f.kind.delay > 0:
		late := time.NewTimer(f.kind.delay)
		defer late.Stop()
		select {
		case <-late.C:
		case <-s.closing:
			return false
		case <-r.Context().Done():
			return false
		}
	}
	return true
}

// cut resets the connection: with no lingering close the peer sees RST.
func cut(w http.ResponseWriter) {
	h, ok := w.(http.Hijacker)
	if !ok {
		panic(http.ErrAbortHandler)
	}
	conn, _, err := h.Hijack()
	if err != nil {
		panic(http.ErrAbortHandler)
	}
	if tcp, ok := conn.(interface{ SetLinger(int) error }); ok {
		tcp.SetLinger(0)
	}
	conn.Close()
}
