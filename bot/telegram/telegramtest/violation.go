package telegramtest

import (
	"fmt"
	"strings"
)

// slips are the rules broken so far.
type slips struct {
	all     []string
	allowed []string
	checked int
	seen    int
}

// violate records a broken rule and fails the test. The lock is held.
func (s *Server) violate(method, format string, args ...any) {
	text := method + ": " + fmt.Sprintf(format, args...)
	s.slips.all = append(s.slips.all, text)
	for _, a := range s.slips.allowed {
		if strings.Contains(text, a) {
			return
		}
	}
	if !s.closed {
		s.t.Errorf("telegram: %s", text)
	}
}

// Allow lets violations that contain a text pass, for a test that breaks a rule on
// purpose. They are still in Violations.
func (s *Server) Allow(text string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.slips.allowed = append(s.slips.allowed, text)
}

// Violations lists the rules broken so far, oldest first.
func (s *Server) Violations() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]string(nil), s.slips.all...)
}

// Checked is the number of calls compared with the machine-readable description:
// every call this server got, or none when the description is not at hand.
func (s *Server) Checked() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.slips.checked
}

func (s *Server) summary() string {
	if s.spec == nil {
		return fmt.Sprintf("%d calls checked against the published limits only, %s is not set", s.slips.seen, SpecsVariable)
	}
	return fmt.Sprintf("%d calls checked against the Bot API description", s.slips.checked)
}

// shape compares something the fake itself gives with the description. The lock is
// held.
func (s *Server) shape(what string, problems []string) {
	s.cfg.tally.count(0, 1, 0)
	for _, p := range problems {
		s.violate("the fake", "%s departs from the description: %s", what, p)
	}
}
