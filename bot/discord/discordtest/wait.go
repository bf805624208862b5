package discordtest

import (
	"fmt"
	"strings"
	"time"
)

// locked runs f on the model and tells everyone who waits.
func (s *Server) locked(f func()) {
	s.mu.Lock()
	defer s.mu.Unlock()
	f()
	s.touch()
}

// touch wakes the waiters; s.mu is held.
func (s *Server) touch() {
	close(s.changed)
	s.changed = make(chan struct{})
}

// wait blocks until cond holds, looking again after each change of the model.
// cond runs with s.mu held.
func (s *Server) wait(what string, cond func() bool) {
	s.t.Helper()
	patience := time.NewTimer(s.opt.patience)
	defer patience.Stop()
	for {
		s.mu.Lock()
		if cond() {
			s.mu.Unlock()
			return
		}
		changed := s.changed
		s.mu.Unlock()
		select {
		case <-changed:
		case <-patience.C:
			s.t.Fatalf("discordtest: waited %s in vain for %s\n%s", s.opt.patience, what, s.Story())
		}
	}
}

// note adds a line to the story; s.mu is held.
func (s *Server) note(format string, args ...any) {
	const kept = 40
	s.story = append(s.story, fmt.Sprintf(format, args...))
	if len(s.story) > kept {
		s.story = s.story[len(s.story)-kept:]
	}
}

// Story tells the latest traffic, one line a request, frame or act of a person:
// what a failing test wants to know first.
func (s *Server) Story() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.story) == 0 {
		return "  (no traffic yet)"
	}
	return "  " + strings.Join(s.story, "\n  ")
}
