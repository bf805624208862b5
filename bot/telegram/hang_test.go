package telegram_test

import (
	"context"
	"crypto/rand"
	"errors"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/adaptertest"
	"larderhand/bot/telegram/telegramtest"
	"larderhand/scheduler"
	"larderhand/store"
)

// A ping the platform takes and never answers may have arrived: it is tried again
// under the key it had.
func TestAPingThatHangsKeepsItsKey(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg)
	r.openBatch(room, ines)
	r.settle()
	before := len(room.FromBot())
	stuck := tg.Inject("sendMessage", telegramtest.Always, telegramtest.Hang())
	h := &adaptertest.Hasty{Sender: r.a, Within: 300 * time.Millisecond, GaveUp: stuck.Clear}
	s := &scheduler.Scheduler{Due: r.db, Reach: r.db, Deliver: bot.Deliverer{Bot: r.bot.(*bot.Bot), Sender: h}, Lease: rand.Text, Log: r.a.Log}
	clock := &scheduler.HandClock{At: time.Now()}
	if err := s.Advance(context.Background(), clock, clock.At.Add(25*time.Hour)); err != nil {
		t.Fatal(err)
	}
	if len(h.Tries) < 2 || h.Tries[0].Key != h.Tries[1].Key || h.Tries[1].Err != nil {
		t.Fatalf("tries: %v", h.Tries)
	}
	var f *store.Failure
	if err := h.Tries[0].Err; !errors.As(err, &f) || f.Kind != store.Unknown {
		t.Errorf("the first try gave %v", err)
	}
	if list := room.FromBot()[before:]; len(list) == 0 || !strings.Contains(list[0].Text, "flip it") {
		t.Errorf("said: %v", list)
	}
}
