package bot_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/scheduler"
	"larderhand/store"
)

// post keeps what was sent, with where to.
type post struct{ sent []string }

func (p *post) Send(_ context.Context, to store.Address, _ string, r reply.Reply) (string, error) {
	p.sent = append(p.sent, string(to)+": "+r.Text())
	return fmt.Sprint(len(p.sent)), nil
}

// Ines cures in the chat, Marit in a topic of it that is gone one day: "flip 1" is
// Ines's batch as before, and all are told what number Marit's has.
func TestATopicThatIsGoneLeavesTheChatsNumbers(t *testing.T) {
	b := newBench(t, store.Memory)
	say := func(at store.Address, who, line string) string {
		t.Helper()
		b.n++
		return b.bot.Handle(t.Context(), bot.Message{Event: fmt.Sprint(b.n), Conversation: at, Sender: bot.Person{Key: who, Name: who}, Text: line}).Text()
	}
	const chat, topic = "x:-1001", "x:-1001/7"
	say(chat, "Ines", "open 5 lb juniper 1.5 in")
	say(chat, "Ines", "yes")
	say(topic, "Marit", "open 5 lb honey 1.5 in")
	say(topic, "Marit", "yes")
	if err := b.db.MoveChat(t.Context(), b.clock.At, topic, chat); err != nil {
		t.Fatal(err)
	}
	var out post
	n := 0
	s := &scheduler.Scheduler{Due: b.db, Reach: b.db, Deliver: bot.Deliverer{Bot: b.bot, Sender: &out}, Log: b.bot.Log,
		Lease: func() string { n++; return fmt.Sprintf("lease%07d", n) }}
	if err := s.Advance(t.Context(), b.clock, b.clock.At.Add(time.Minute)); err != nil {
		t.Fatal(err)
	}
	said := strings.Join(out.sent, "\n")
	if len(out.sent) != 1 || !strings.HasPrefix(said, chat+": ") || !strings.Contains(said, "batch 1 of the other") || !strings.Contains(said, "batch 2 here") {
		t.Errorf("told %d times:\n%s", len(out.sent), said)
	}
	b.clock.At = b.clock.At.Add(24 * time.Hour)
	for line, want := range map[string]string{"batch 1": "juniper", "batch 2": "honey"} {
		if got := say(chat, "Ines", line); !strings.Contains(got, want) {
			t.Errorf("%s: %s", line, got)
		}
	}
}
