package adaptertest

import (
	"context"
	"regexp"
	"strings"
	"testing"

	"larderhand/bot/reply"
	"larderhand/store"
)

// Exercise runs the contract.
func Exercise(t *testing.T, open Open) {
	for _, c := range []struct {
		name string
		run  func(*testing.T, *stage)
	}{
		{"every part of a reply arrives", partsArrive},
		{"marks", marks},
		{"instants", instants},
		{"only those it is for are pinged", pings},
		{"user text is text", userText},
		{"buttons in their rows", buttonRows},
		{"a press does what its line would do", pressed},
		{"a button that asks", asks},
		{"pictures and documents", files},
		{"an answer for the asker alone", alone},
		{"a press answered in place", replaced},
		{"a message changed later", changed},
		{"silent", silent},
		{"in order", inOrder},
		{"the same key twice", sameKey},
		{"long text whole", longText},
		{"nothing to say", nothing},
		{"failures by kind", failures},
		{"no retry of its own", noRetry},
		{"a context that ended", ended},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := &Bot{}
			c.run(t, &stage{t: t, bot: b, Fixture: open(t, b)})
		})
	}
}

// stage is one test under way.
type stage struct {
	t   *testing.T
	bot *Bot
	Fixture
	keys int
}

func (s *stage) send(to store.Address, r reply.Reply) string {
	s.t.Helper()
	s.keys++
	ref, err := s.Sender.Send(context.Background(), to, "key-"+string(rune('a'+s.keys)), r)
	if err != nil {
		s.t.Fatalf("send: %v", err)
	}
	return ref
}

// since gives what was shown after the first n.
func (s *stage) since(at store.Address, n int) []Shown { return s.Shown(at)[n:] }

// joined is all the text of messages, as read, and of the captions in them.
func joined(list []Shown) string {
	var parts []string
	for _, m := range list {
		parts = append(parts, m.Text)
	}
	return tidy(strings.Join(parts, "\n"))
}

// What an adapter may put into user text to keep a platform from making something
// of it: characters that show nothing.
var invisible = regexp.MustCompile("[\u200b\u200c\u2060\u2063\ufeff]")

func tidy(s string) string { return invisible.ReplaceAllString(s, "") }

func (s *stage) want(all string, parts ...string) {
	s.t.Helper()
	at := 0
	for _, p := range parts {
		i := strings.Index(all[at:], tidy(p))
		if i < 0 {
			s.t.Errorf("%q is missing, or not after what should come before it, in:\n%s", p, all)
			continue
		}
		at += i + len(tidy(p))
	}
}

func one(text string) reply.Reply {
	var r reply.Reply
	r.Say(text)
	return r
}
