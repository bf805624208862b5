package telegram_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"larderhand/bot/telegram/telegramtest"
)

// Into a group somebody shares from elsewhere only while they are in it.
func TestShareIntoAGroupFromPrivate(t *testing.T) {
	tg := fake(t)
	ines, tobias := tg.User("Ines"), tg.User("Tobias")
	club, home := tg.Supergroup(clubName, tobias, ines), tg.Private(ines)
	r := run(t, tg)
	r.settle()
	club.Say(ines, "/hello@"+tg.Username())
	r.settle()
	r.openBatch(home, ines)
	share := func() string {
		t.Helper()
		home.Say(ines, "share 1 in "+clubName)
		r.settle()
		return last(t, home).Text
	}
	tg.Inject("getChatMember", 1, telegramtest.ServerError())
	if text := share(); !strings.Contains(text, "couldn't find out") {
		t.Errorf("while the platform does not say: %q", text)
	}
	club.Leave(ines)
	if text := share(); !strings.Contains(text, "not in "+clubName+" any more") {
		t.Errorf("after she left: %q", text)
	}
	r.tick(time.Now().Add(2 * time.Minute))
	for _, m := range club.FromBot() {
		if m.File != nil {
			t.Errorf("somebody who left put up\n%s", m)
		}
	}
}

func TestInside(t *testing.T) {
	tg := fake(t)
	ines, tobias, marit := tg.User("Ines"), tg.User("Tobias"), tg.User("Marit")
	club := tg.Forum(clubName, ines, tobias)
	topic := club.NewTopic(ines, "Bellies")
	r := run(t, tg)
	r.settle()
	for who, want := range map[*telegramtest.User]bool{ines: true, tobias: true, marit: false} {
		if in, err := r.a.Inside(t.Context(), address(topic), fmt.Sprint(who.ID)); err != nil || in != want {
			t.Errorf("%s: %v, %v", who.FirstName, in, err)
		}
	}
	// A group or a channel that speaks for somebody is no person.
	if _, err := r.a.Inside(t.Context(), address(club), "-1002000000001"); err == nil {
		t.Error("a group is in a group")
	}
	if n := len(tg.Calls("getChatMember")); n != 3 {
		t.Errorf("%d questions", n)
	}
	if _, err := r.a.Inside(t.Context(), "telegram:12/x", fmt.Sprint(ines.ID)); err == nil {
		t.Error("an address that is none has members")
	}
}
