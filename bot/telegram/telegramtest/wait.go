package telegramtest

import (
	"context"
	"errors"
	"fmt"
	"strings"
)

// errClosed ends waits on a server that has stopped.
var errClosed = errors.New("the server was closed")

// until waits for a condition, which it looks at under the lock after every
// change.
func (s *Server) until(ctx context.Context, met func() bool) error {
	for {
		s.mu.Lock()
		ok, changed := met(), s.changed
		s.mu.Unlock()
		if ok {
			return nil
		}
		select {
		case <-changed:
		case <-ctx.Done():
			return ctx.Err()
		case <-s.done:
			return errClosed
		}
	}
}

// must waits for as long as the server's patience lasts and then stops the test.
func (s *Server) must(what string, met func() bool) {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), s.cfg.patience)
	defer cancel()
	if err := s.until(ctx, met); err != nil {
		s.t.Fatalf("telegram: waited in vain for %s (%v)\n%s", what, err, s.state())
	}
}

// state is what a person debugging a test wants to see.
func (s *Server) state() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	var b strings.Builder
	fmt.Fprintf(&b, "%d updates not confirmed; last calls:\n", len(s.queue.pending))
	for _, c := range s.calls[max(0, len(s.calls)-8):] {
		fmt.Fprintf(&b, "  %s -> %d %s\n", c.Method, c.Code, c.Description)
	}
	for _, ch := range s.people.chats {
		fmt.Fprintf(&b, "%s %d %s:\n", ch.kind, ch.id, ch.title)
		for _, m := range ch.messages[max(0, len(ch.messages)-8):] {
			fmt.Fprintf(&b, "  %s\n", strings.ReplaceAll(s.view(m).line(), "\n", "\n    "))
		}
	}
	return b.String()
}

// AwaitCalls waits until the bot has made so many calls of a method and they have
// been answered, and returns them.
func (s *Server) AwaitCalls(method string, n int) []Call {
	s.t.Helper()
	var out []Call
	s.must(fmt.Sprintf("%d calls of %s", n, method), func() bool {
		out = out[:0]
		for _, c := range s.calls {
			if strings.EqualFold(c.Method, method) && c.Code != 0 {
				out = append(out, *c)
			}
		}
		return len(out) >= n
	})
	return out
}
