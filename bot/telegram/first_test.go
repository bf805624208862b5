package telegram_test

import (
	"strings"
	"testing"

	"larderhand/bot/telegram/telegramtest"
)

// From whatever first meets the eye it is three presses to a cure: after /start in
// private, and after someone has let the bot into a group.
func TestThreePressesToTheFirstCure(t *testing.T) {
	for _, from := range []string{"/start", "added"} {
		t.Run(from, func(t *testing.T) {
			tg := fake(t)
			marit := tg.User("Marit")
			var room *telegramtest.Room
			if from == "added" {
				room = tg.Group(clubName, marit)
			} else {
				room = tg.Private(marit)
			}
			r := run(t, tg)
			if from == "/start" {
				room.Start(marit, "")
			}
			r.settle()
			for _, label := range []string{"2 kg", "Open a batch", "Yes, I weigh it"} {
				room.Press(marit, last(t, room), label)
				r.settle()
			}
			if m := last(t, room); !strings.Contains(m.Text, "Batch 1 is open, in the cure") {
				t.Errorf("after three presses it reads\n%s", m.Text)
			}
		})
	}
}

// Called by name and nothing said: who has never opened a batch is told what this is.
func TestCalledByName(t *testing.T) {
	tg := fake(t)
	ines, marit := tg.User("Ines"), tg.User("Marit")
	club := tg.Supergroup(clubName, ines, marit)
	r := run(t, tg)
	r.settle()
	r.openBatch(club, ines)
	for who, want := range map[*telegramtest.User]string{marit: "I help you turn pork belly into bacon", ines: "What do you want to do?"} {
		club.Say(who, "@"+tg.Username())
		r.settle()
		if m := last(t, club); !strings.Contains(m.Text, want) {
			t.Errorf("%s calls and reads\n%s", who.FirstName, m.Text)
		}
	}
}
