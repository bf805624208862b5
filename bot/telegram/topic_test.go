package telegram_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/telegram/telegramtest"
)

// A batch is shared in the topic a person names: one the bot saw opened, one that was
// there before it came, one that was renamed since.
func TestShareInATopicOfChoice(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	club, home := tg.Forum(clubName, ines), tg.Private(ines)
	club.Kick(ines)
	old := club.NewTopic(ines, "Pit talk")
	club.AddBot(ines)
	r := run(t, tg)
	r.settle()
	bellies := club.NewTopic(ines, "Bellies")
	r.settle()
	for _, room := range []*telegramtest.Room{old, bellies} {
		room.Say(ines, "/hello@"+tg.Username())
		r.settle()
	}
	r.openBatch(home, ines)
	share := func(where string) string {
		t.Helper()
		home.Say(ines, "share 1 in "+where)
		r.settle()
		r.tick(time.Now().Add(2 * time.Minute))
		return last(t, home).Text
	}
	cards := func(room *telegramtest.Room) (n int) {
		for _, m := range room.FromBot() {
			if m.File != nil {
				n++
			}
		}
		return n
	}
	if text := share(clubName); !strings.Contains(text, "In which?") {
		t.Errorf("asked for two topics at once: %q", text)
	}
	for _, label := range []string{"Pit talk (" + clubName + ")", "Bellies (" + clubName + ")"} {
		if _, ok := last(t, home).Button(label); !ok {
			t.Errorf("no button %q below %s", label, last(t, home))
		}
	}
	if text := share("pit talk"); !strings.Contains(text, "shared in Pit talk ("+clubName+")") || cards(old) != 1 || cards(bellies) != 0 {
		t.Errorf("%q; %d cards there, %d in the other", text, cards(old), cards(bellies))
	}
	bellies.RenameTopic(ines, "Slabs")
	bellies.Say(ines, "/hello@"+tg.Username())
	r.settle()
	if text := share("slabs"); !strings.Contains(text, "shared in Slabs ("+clubName+")") || cards(bellies) != 1 || cards(club) != 0 {
		t.Errorf("renamed: %q; %d cards there", text, cards(bellies))
	}
}
