package discord_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/store"
)

// dying is a deliverer whose process dies between sending and recording.
type dying struct{ bot.Deliverer }

func (dying) Settle(context.Context, time.Time, []store.Chore) error { return errors.New("killed") }

// A crash between sending a ping and recording it: the next process sends it again
// under the nonce it had, and Discord, which was asked to enforce that, shows it once.
func TestAPingSentBeforeACrashIsShownOnce(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	route := "/channels/" + l.curing.ID + "/messages"
	before := len(l.s.Requests("POST", route))
	l.sched.Deliver = dying{bot.Deliverer{Bot: l.bot, Sender: l.run}}
	l.s.Clock().Advance(23 * time.Hour)
	if _, err := l.sched.Tick(t.Context(), l.s.Clock().Now()); err == nil {
		t.Fatal("it recorded the ping")
	}
	here.WaitText("flip it")
	l.run.stop()
	if err := l.db.Close(); err != nil {
		t.Fatal(err)
	}
	l.load()
	l.begin()
	l.pass(2 * time.Second)
	sent := l.s.Requests("POST", route)[before:]
	if len(sent) != 2 {
		t.Fatalf("it was sent %d times", len(sent))
	}
	n := 0
	for _, m := range here.Messages() {
		if strings.Contains(m.Text, "flip it") {
			n++
		}
	}
	if n != 1 {
		t.Errorf("it is shown %d times", n)
	}
	l.pass(time.Hour)
	if again := l.s.Requests("POST", route)[before:]; len(again) != 2 {
		t.Errorf("recorded, it was sent %d times", len(again))
	}
}
