package telegram_test

import (
	"context"
	"crypto/rand"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/telegram/telegramtest"
	"larderhand/scheduler"
)

// A ping that meets passing trouble is tried again, by the scheduler and not at once,
// and arrives: once, or twice where the platform had taken it and could not say so.
func TestPingsOutliveTrouble(t *testing.T) {
	for name, c := range map[string]struct {
		trouble telegramtest.Trouble
		most    int
	}{
		"429": {telegramtest.RetryAfter(3), 1}, "500": {telegramtest.ServerError(), 1}, "502 with a page": {telegramtest.BadGateway(), 1},
		"reset": {telegramtest.Reset(), 1}, "answer lost": {telegramtest.LoseAnswer(), 2},
	} {
		t.Run(name, func(t *testing.T) {
			tg := fake(t)
			ines := tg.User("Ines")
			room := tg.Private(ines)
			r := run(t, tg)
			r.openBatch(room, ines)
			r.settle()
			calls := len(tg.Calls("sendMessage"))
			struck := tg.Inject("sendMessage", 1, c.trouble)
			s := &scheduler.Scheduler{Due: r.db, Reach: r.db, Deliver: bot.Deliverer{Bot: r.bot.(*bot.Bot), Sender: r.a}, Lease: rand.Text, Log: r.a.Log}
			clock := &scheduler.HandClock{At: time.Now().Add(25 * time.Hour)} // past the first flip, before the second
			if _, err := s.Tick(context.Background(), clock.At); err != nil {
				t.Fatal(err)
			}
			if n := len(tg.Calls("sendMessage")) - calls; struck.Hits() != 1 || n != 1 {
				t.Fatalf("trouble struck %d times in %d tries at once", struck.Hits(), n)
			}
			if err := s.Advance(context.Background(), clock, clock.At.Add(time.Minute)); err != nil {
				t.Fatal(err)
			}
			n := 0
			for _, m := range room.FromBot() {
				n += strings.Count(m.Text, "flip it")
			}
			if n < 1 || n > c.most {
				t.Errorf("the ping came %d times:\n%s", n, room.Transcript())
			}
		})
	}
}
