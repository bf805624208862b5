package telegramtest_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"larderhand/bot/telegram/telegramtest"
)

func TestPaste(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	if parts := chat.Paste(ines, strings.Repeat("🥓", 5000)); len(parts) != 3 {
		t.Fatalf("%d messages for 10,000 UTF-16 units", len(parts))
	}
	all := strings.Join(texts(drain(t, bot)), "")
	if all != strings.Repeat("🥓", 5000) {
		t.Errorf("%d bytes arrived", len(all))
	}
}

func TestWaitEndsWithItsContext(t *testing.T) {
	tg := start(t)
	ines := tg.User("Ines")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := tg.Private(ines).Wait(ctx, 1); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// What a person could not do stops the test instead of inventing a message.
func TestImpossibleActs(t *testing.T) {
	rec := &recorder{TB: t}
	tg := start(rec, telegramtest.WithPatience(1))
	ines, stranger := tg.User("Ines"), tg.User("Stranger")
	club := tg.Group(clubName, ines)
	moved := tg.Group(clubName, ines)
	moved.Migrate(ines)
	forum := tg.Forum(clubName, ines)
	topic := forum.NewTopic(ines, "Juniper")
	topic.DeleteTopic()
	blocked := tg.Private(stranger)
	blocked.Block()
	nowhere := telegramtest.Message{ID: 4711}
	for want, act := range map[string]func(){
		"the group moved":           func() { moved.Say(ines, "x") },
		"the topic was deleted":     func() { topic.Say(ines, "x") },
		"the bot is blocked":        func() { blocked.Say(stranger, "x") },
		"Stranger is not in":        func() { forum.Say(stranger, "x") },
		"there is nothing in it":    func() { forum.Say(ines, " ") },
		"it is too long":            func() { forum.Say(ines, strings.Repeat("x", 4097)) },
		"message to answer":         func() { forum.Reply(ines, nowhere, "x") },
		"posts without a sender":    func() { forum.Post("x") },
		"never was a message 4711":  func() { forum.Press(ines, nowhere, "x") },
		"and once":                  func() { moved.Migrate(ines) },
		"no topics":                 func() { club.NewTopic(ines, "x") },
		"only a supergroup":         func() { club.Mute(ines) },
		"no message 4711 to delete": func() { forum.Delete(nowhere) },
		"nobody can edit":           func() { forum.Edit(nowhere, "x") },
		"waited in vain for 1 mess": func() { forum.Await(1) },
		"no webhook":                func() { forum.ForgeWebhook(ines, "x", "") },
	} {
		before := len(rec.text())
		ended := make(chan struct{})
		go func() {
			defer close(ended)
			act()
			t.Errorf("%q: the test went on", want)
		}()
		<-ended
		if got := rec.text()[before:]; !strings.Contains(got, want) {
			t.Errorf("stopped with %q, want %q", got, want)
		}
	}
}
