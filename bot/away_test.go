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

// herald notes of each ping when it came, whom it calls and what it is about.
type herald struct {
	clock *scheduler.HandClock
	said  []string
}

func (h *herald) Send(_ context.Context, _ store.Address, _ string, r reply.Reply) (string, error) {
	about := ""
	for _, w := range []struct{ text, name string }{{"Batch 1 (juniper), day", "1"}, {"Batch 2 (pepper), day", "2"}, {"Batch 1 (juniper) is back with Marit", "back"}} {
		if strings.Contains(r.Text(), w.text) {
			about += " " + w.name
		}
	}
	h.said = append(h.said, fmt.Sprintf("%s %v%s", h.clock.At.Format("Mon 15:04"), r.Mentions, about))
	return "", nil
}

// until lets time go by and gives what was said meanwhile.
func (c *commons) until(at time.Time) string {
	c.t.Helper()
	h, n := &herald{clock: c.clock}, 0
	s := &scheduler.Scheduler{Due: c.db, Reach: c.db, Deliver: bot.Deliverer{Bot: c.bot, Sender: h}, Log: slog.New(slog.DiscardHandler),
		Lease: func() string { n++; return fmt.Sprintf("%s-%06d", c.clock.At.Format("01021"), n) }}
	if err := s.Advance(c.t.Context(), c.clock, at); err != nil {
		c.t.Fatal(err)
	}
	return strings.Join(h.said, "\n")
}

// While the keeper is away, whoever was named is called, each day and for what was
// handed to them only; nobody else is, and the keeper is again from the hour named.
func TestAwayWithAHelper(t *testing.T) {
	c := newCommons(t)
	march := func(day, hour int) time.Time { return time.Date(2027, 3, day, hour, 0, 0, 0, time.UTC) }
	c.say("Tobias", "club", "batches")
	for _, line := range []string{"open 3 kg juniper 45 mm", "yes", "open 3 kg pepper 45 mm"} {
		c.say("Marit", "club", line)
	}
	if got, want := c.until(march(2, 12)), "Tue 08:00 [marit] 1 2"; got != want {
		t.Errorf("before she goes:\n%s\nwant\n%s", got, want)
	}
	r := c.reads("Marit", "club", "set away until Sunday 18:00", "away is until Sun 7 Mar 18:00", "hand 1 to @Tobias until Sun 7 Mar 18:00")
	if len(r.Mentions) > 0 {
		t.Errorf("she calls %v before she hands anything over", r.Mentions)
	}
	if r := c.reads("Marit", "club", "hand 1 to @Tobias until Sun 7 Mar 18:00", "will you look after"); fmt.Sprint(r.Mentions) != "[tobias]" {
		t.Errorf("the question calls %v", r.Mentions)
	}
	if got := c.until(march(3, 12)); got != "" {
		t.Errorf("before anyone took it:\n%s", got)
	}
	c.reads("Tobias", "club", "accept 1", "Tobias looks after")
	want := strings.Join([]string{"Wed 12:00 [tobias] 1", "Thu 08:00 [tobias] 1", "Fri 08:00 [tobias] 1", "Sat 08:00 [tobias] 1", "Sun 08:00 [tobias] 1",
		"Sun 18:00 [marit] 2 back", "Mon 08:00 [marit] 1 2"}, "\n")
	var days []string
	for day := 3; day <= 8; day++ {
		days = append(days, c.until(march(day, 19)))
		c.say("Tobias", "club", "flip 1")
	}
	if got := strings.Join(days, "\n"); got != want {
		t.Errorf("while she is away:\n%s\nwant\n%s", got, want)
	}
}
