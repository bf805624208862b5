package telegram_test

import (
	"log/slog"
	"testing"
	"time"

	"larderhand/bot/telegram/telegramtest"
)

// In the quiet hours only what cannot wait is said, and without a sound; by day a
// ping may be heard.
func TestPingsInTheQuietHoursAreSilent(t *testing.T) {
	at := time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)
	clock := handClock(func() time.Time { return at })
	tg := fake(t, telegramtest.WithClock(clock))
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := prepare(t, tg, nil)
	r.bot = realBot(t, r.db, r.a, clock, slog.New(slog.NewTextHandler(r.log, nil)))
	r.a.Bot, r.a.Now = r.bot, clock
	r.start()
	say := func(lines ...string) {
		for _, line := range lines {
			room.Say(ines, line)
			r.settle()
			at = at.Add(time.Minute)
		}
	}
	ping := func(hour time.Time) telegramtest.Message {
		t.Helper()
		before := len(room.FromBot())
		at = hour
		r.tick(at)
		list := room.FromBot()[before:]
		if len(list) != 1 {
			t.Fatalf("at %s %d pings came:\n%s", hour, len(list), room.Transcript())
		}
		return list[0]
	}
	say("set quiet 22-07", "set hour 12:00", "open 2 kg juniper 20 mm", "yes")
	if m := ping(time.Date(2027, 3, 2, 12, 0, 0, 0, time.UTC)); m.Silent {
		t.Errorf("at noon without a sound:\n%s", m)
	}
	at = time.Date(2027, 3, 9, 18, 0, 0, 0, time.UTC)
	say("firm 1", "rinse 1", "smoke 1")
	at = time.Date(2027, 3, 9, 19, 0, 0, 0, time.UTC)
	say("smoked 1 core 66")
	if m := ping(time.Date(2027, 3, 9, 21, 0, 0, 0, time.UTC)); m.Silent {
		t.Errorf("at 21:00 without a sound:\n%s", m)
	}
	// An hour before the time to cool is up.
	if m := ping(time.Date(2027, 3, 9, 23, 0, 0, 0, time.UTC)); !m.Silent {
		t.Errorf("at 23:00 with a sound:\n%s", m)
	}
}

// handClock is a clock a test moves.
type handClock func() time.Time

func (c handClock) Now() time.Time { return c() }
