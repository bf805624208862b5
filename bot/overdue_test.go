package bot_test

import (
	"context"
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

// letters are the messages sent, by conversation.
type letters map[store.Address][]string

func (l letters) Send(_ context.Context, to store.Address, _ string, r reply.Reply) (string, error) {
	l[to] = append(l[to], r.Text())
	return "", nil
}

// The machine sleeps for a day over the pings of several batches: afterwards each
// conversation gets one message, which names them all and says how late it is. With
// the clock set back a day nothing comes, and nothing comes again once it is right.
func TestASleepOfADayIsOneMessage(t *testing.T) {
	c := newCommons(t)
	for _, line := range []string{"open 3 kg juniper 45 mm", "yes", "open 3 kg pepper 45 mm", "open 3 kg honey 45 mm"} {
		c.say("Marit", "club", line)
	}
	c.say("Tobias", "annexe", "open 3 kg coffee 45 mm")
	c.say("Tobias", "annexe", "yes")
	got, n := letters{}, 0
	s := &scheduler.Scheduler{Due: c.db, Reach: c.db, Deliver: bot.Deliverer{Bot: c.bot, Sender: got}, Log: slog.New(slog.DiscardHandler),
		Lease: func() string { n++; return fmt.Sprintf("%012d", n) }}
	tick := func(at time.Time) {
		t.Helper()
		c.clock.At = at
		for range 3 { // heartbeats
			if _, err := s.Tick(t.Context(), c.clock.At); err != nil {
				t.Fatal(err)
			}
			c.clock.At = c.clock.At.Add(time.Minute)
		}
	}
	count := func(when string, club, annexe int) {
		t.Helper()
		if len(got["lane:club"]) != club || len(got["lane:annexe"]) != annexe {
			t.Fatalf("%s: %d and %d messages, want %d and %d: %q", when, len(got["lane:club"]), len(got["lane:annexe"]), club, annexe, got)
		}
	}
	tick(time.Date(2027, 3, 2, 7, 59, 0, 0, time.UTC).Add(-5 * time.Minute))
	count("before eight", 0, 0)
	awake := time.Date(2027, 3, 3, 7, 30, 0, 0, time.UTC) // the ping of the second was due at 8:00
	tick(awake)
	count("after the sleep", 1, 1)
	for _, words := range []string{"Sorry, 23 h 30 min late", "Batch 1 (juniper), day 2", "Batch 2 (pepper), day 2", "Batch 3 (honey), day 2"} {
		if text := got["lane:club"][0]; strings.Count(text, words) != 1 {
			t.Errorf("not once %q in:\n%s", words, text)
		}
	}
	tick(awake.Add(-24 * time.Hour))
	count("set back", 1, 1)
	tick(awake.Add(10 * time.Minute))
	count("set right", 1, 1)
	tick(awake.Add(25 * time.Hour)) // a late one served for the day it came on
	count("the day after", 2, 2)
	if text := got["lane:club"][1]; strings.Count(text, ", day 3 of 10: flip it") != 3 {
		t.Errorf("the next reads:\n%s", text)
	}
}
