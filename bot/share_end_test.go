package bot_test

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/scheduler"
	"larderhand/store"
)

// ends notes who is told that a batch is done, and where.
type ends struct {
	told []string
	fail store.FailureKind // of the first place
	meet func()            // while the first is on its way
}

func (e *ends) Send(_ context.Context, to store.Address, _ string, r reply.Reply) (string, error) {
	if !strings.Contains(r.Text(), "You asked to be told") {
		return "1", nil
	}
	if f := e.fail; f != store.Unknown && to == "lane:club" {
		return "", &store.Failure{Kind: f, Cause: errors.New("made to fail")}
	}
	e.told = append(e.told, string(to)+" "+strings.Join(r.Mentions, ","))
	if e.meet != nil {
		e.meet()
		e.meet = nil
	}
	return "1", nil
}

func (e *ends) run(c *commons) {
	c.t.Helper()
	n := 0
	s := &scheduler.Scheduler{Due: c.db, Reach: c.db, Deliver: bot.Deliverer{Bot: c.bot, Sender: e}, Log: slog.New(slog.DiscardHandler),
		Lease: func() string { n++; return fmt.Sprintf("%s%012d", c.clock.At.Format("150405"), n) }}
	for range 5 {
		if _, err := s.Tick(c.t.Context(), c.clock.At); err != nil {
			c.t.Fatal(err)
		}
		c.clock.At = c.clock.At.Add(time.Minute)
	}
}

// followed is a batch shared in two groups and followed by Tobias in both.
func followed(t *testing.T, e *ends) *commons {
	c := newCommons(t)
	for _, g := range []string{"club", "shed"} {
		for _, who := range []string{"Ines", "Tobias", "Marit"} {
			c.say(who, g, "hello")
		}
	}
	c.say("Ines", "", "open 2 kg juniper 20 mm")
	c.say("Ines", "", "yes")
	c.reads("Ines", "", "share 1 in club", "is shared in club")
	c.reads("Ines", "", "share 1 in shed", "is shared in shed")
	e.run(c)
	c.reads("Tobias", "club", "follow 1", "I'll tell you once")
	c.reads("Tobias", "shed", "follow 2", "I'll tell you once")
	return c
}

// Whoever follows a card that cannot be spoken at is told by the next they follow.
func TestTheNextCardTellsWhomTheFirstCannot(t *testing.T) {
	for kind, want := range map[store.FailureKind]string{store.Unknown: "lane:club tobias", store.Refused: "lane:shed tobias", store.Gone: "lane:shed tobias"} {
		e := &ends{fail: kind}
		c := followed(t, e)
		c.say("Ines", "", "close 1 eaten")
		e.run(c)
		if got := strings.Join(e.told, "; "); got != want {
			t.Errorf("first %v: told %q, want %q", kind, got, want)
		}
	}
}

// Who comes to follow while the others are being told is told by a message of their own.
func TestWhoFollowsMeanwhileIsToldToo(t *testing.T) {
	e := &ends{}
	c := followed(t, e)
	e.meet = func() { c.say("Marit", "club", "follow 1") }
	c.say("Ines", "", "close 1 eaten")
	e.run(c)
	if got, want := strings.Join(e.told, "; "), "lane:club tobias; lane:club marit"; got != want {
		t.Errorf("told %q, want %q", got, want)
	}
}
