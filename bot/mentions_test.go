package bot_test

import (
	"context"
	"fmt"
	"log/slog"
	"slices"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/scheduler"
	"larderhand/store"
)

// outbox keeps what is sent, by where to.
type outbox struct {
	sent []mailed
}

type mailed struct {
	to    store.Address
	reply reply.Reply
}

func (p *outbox) Send(_ context.Context, to store.Address, _ string, r reply.Reply) (string, error) {
	p.sent = append(p.sent, mailed{to, r})
	return fmt.Sprint(len(p.sent)), nil
}

func (p *outbox) Edit(context.Context, store.Address, string, reply.Reply) error { return nil }

// mailUntil lets time pass, with all that falls due in it, and gives what was sent.
func (c *commons) mailUntil(at time.Time) []mailed {
	c.t.Helper()
	var p outbox
	leases := 0
	s := scheduler.Scheduler{Due: c.db, Reach: c.db, Deliver: bot.Deliverer{Bot: c.bot, Sender: &p},
		Log:   slog.New(slog.NewTextHandler(loud{c.t}, &slog.HandlerOptions{Level: slog.LevelError})),
		Lease: func() string { leases++; return fmt.Sprintf("%s-%06d", c.clock.At.Format("01021504"), leases) }}
	if err := s.Advance(context.Background(), c.clock, at); err != nil {
		c.t.Fatal(err)
	}
	return p.sent
}

// saying picks what says something.
func saying(list []mailed, words string) []mailed {
	return slices.DeleteFunc(slices.Clone(list), func(l mailed) bool { return !strings.Contains(l.reply.Text(), words) })
}

// Whoever a message is for is one it may ping, and nobody else is.
func TestMentions(t *testing.T) {
	c := newCommons(t)
	for _, who := range []string{"Ines", "Tobias", "Marit"} {
		c.say(who, "club", "hello")
	}
	c.say("Ines", "club", "open 2 kg juniper 38 mm")
	c.reads("Ines", "club", "yes", "is open")
	c.reads("Ines", "club", "share 1", "card 1")
	c.reads("Tobias", "club", "follow card 1", "tell you once")
	c.reads("Marit", "club", "follow card 1", "tell you once")
	c.reads("Marit", "club", "plan 2 kg honey 38 mm for 20 April", "20 Apr")
	next := func(words string) func() reply.Reply {
		return func() reply.Reply {
			for range 240 {
				if l := saying(c.mailUntil(c.clock.At.Add(6*time.Hour)), words); len(l) > 0 {
					return l[0].reply
				}
			}
			t.Fatalf("nothing said %q", words)
			return reply.Reply{}
		}
	}
	said := func(who, line string) func() reply.Reply {
		return func() reply.Reply { return c.say(who, "club", line) }
	}
	for _, step := range []struct {
		name  string
		do    func() reply.Reply
		words string
		want  []string
	}{
		{"a ping", next("flip it"), "For Ines:", []string{"ines"}},
		{"a question", said("Tobias", "ask 1 which wood?"), "Ines, Tobias asks", []string{"ines"}},
		{"an offer", said("Ines", "hand 1 to @tobias until Thursday 18:00"), "Tobias, will you look after", []string{"tobias"}},
		{"an offer taken", said("Tobias", "accept 1"), "Tobias looks after", nil},
		{"a ping while it is handed over", next("flip it"), "For Tobias:", []string{"tobias"}},
		{"given back", next("is back with"), "For Ines:", []string{"ines"}},
		{"a new keeper", said("Marit", "keeper 1 @tobias"), "is kept by Tobias", []string{"tobias"}},
		{"recorded", said("Tobias", "flip 1"), "flipped", nil},
		{"a ping to the new keeper", next("flip it"), "For Tobias:", []string{"tobias"}},
		{"a question to the new keeper", said("Ines", "ask 1 which salt?"), "Tobias, Ines asks", []string{"tobias"}},
		{"what a follower is told", func() reply.Reply {
			c.reads("Tobias", "club", "close 1 all eaten", "closed")
			return next("You asked to be told")()
		}, "For Marit, Tobias: juniper", []string{"tobias", "marit"}},
		{"the belly is to be bought", next("buy the belly"), "Marit, for bacon on", []string{"marit"}},
		{"the cure is to be made", next("goes into its cure"), "Marit, for bacon on", []string{"marit"}},
		{"a plain answer", said("Ines", "batches"), "", nil},
	} {
		r := step.do()
		if !strings.Contains(r.Text(), step.words) {
			t.Errorf("%s: no %q in\n%s", step.name, step.words, r.Text())
		}
		got := slices.Clone(r.Mentions)
		slices.Sort(got)
		slices.Sort(step.want)
		if !slices.Equal(slices.Compact(got), step.want) {
			t.Errorf("%s pings %v, want %v:\n%s", step.name, r.Mentions, step.want, r.Text())
		}
	}
}

// Whoever follows a batch in two groups is told once, where they first followed it; if
// the bot is shut out there, in the other.
func TestFollowerOfTwoCardsIsToldOnce(t *testing.T) {
	for _, shut := range []bool{false, true} {
		c := newCommons(t)
		for _, g := range []string{"club", "garden"} {
			for _, who := range []string{"Ines", "Tobias", "Marit"} {
				c.say(who, g, "hello")
			}
		}
		c.say("Ines", "", "open 2 kg juniper 38 mm")
		c.say("Ines", "", "yes")
		c.reads("Ines", "", "share 1 in club", "card 1")
		c.reads("Ines", "", "share 1 in garden", "card 2")
		c.reads("Tobias", "garden", "follow card 2", "tell you once")
		c.reads("Tobias", "club", "follow card 1", "tell you once")
		c.reads("Marit", "garden", "follow card 2", "tell you once")
		c.mailUntil(c.clock.At.Add(time.Hour))
		if shut {
			err := c.db.Update(context.Background(), c.clock.At, func(tx *store.Tx) error {
				conv, err := tx.Conversation("lane:club")
				if err != nil {
					return err
				}
				conv.Parked = "shut out"
				_, err = tx.SaveConversation(conv)
				return err
			})
			if err != nil {
				t.Fatal(err)
			}
		}
		c.reads("Ines", "", "close 1 all eaten", "closed")
		told := map[string]string{}
		for _, l := range saying(c.mailUntil(c.clock.At.Add(30*time.Hour)), "You asked to be told") {
			for _, who := range l.reply.Mentions {
				told[who] += string(l.to) + " "
			}
		}
		want := map[string]string{"tobias": "lane:club ", "marit": "lane:garden "}
		if shut {
			want["tobias"] = "lane:garden "
		}
		if fmt.Sprint(told) != fmt.Sprint(want) {
			t.Errorf("shut out: %v; told %v, want %v", shut, told, want)
		}
	}
}
