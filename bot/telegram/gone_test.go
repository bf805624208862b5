package telegram_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/telegram/telegramtest"
)

// A group that is no more keeps its batch and is not spoken to again; another group's
// pings come as ever.
func TestGroupDissolvedWithABatchOpen(t *testing.T) {
	tg := fake(t)
	ines, marit := tg.User("Ines"), tg.User("Marit")
	club, garden := tg.Group(clubName, ines), tg.Supergroup("The Garden Shed", marit)
	r := run(t, tg)
	r.settle()
	r.openBatch(club, ines)
	r.openBatch(garden, marit)
	club.Dissolve()
	r.settle()
	at := time.Now().Add(40 * time.Hour)
	r.tick(at)
	if r.parked(address(club)) == "" {
		t.Error("a group that is no more is not parked")
	}
	if r.parked(address(garden)) != "" {
		t.Error("another group is parked with it")
	}
	if m := garden.AwaitText(": flip it"); !strings.Contains(m.Text, "Batch 1") {
		t.Errorf("the other group reads %q", m.Text)
	}
	calls := len(tg.Calls("sendMessage")) + len(tg.Calls("sendPhoto"))
	r.tick(at.Add(time.Minute))
	if n := len(tg.Calls("sendMessage")) + len(tg.Calls("sendPhoto")) - calls; n != 0 {
		t.Errorf("%d more messages once it is known to be gone", n)
	}
	garden.Say(marit, "/flip@"+tg.Username()+" 1")
	r.settle()
	if m := last(t, garden); !strings.Contains(m.Text, "flipped") {
		t.Errorf("the other group's flip gives %q", m.Text)
	}
}

// Whoever looks after a batch deletes their account: the keeper takes it back, or an
// administrator gives it to somebody; nobody else is kept waiting.
func TestHelperGoneWhileTheyLookAfterABatch(t *testing.T) {
	for _, taken := range []string{"back 1", "keeper 1 @Ines"} {
		t.Run(taken, func(t *testing.T) {
			tg := fake(t)
			ines, marit, tobias := tg.User("Ines"), tg.User("Marit"), tg.User("Tobias")
			club := tg.Supergroup(clubName, ines, marit, tobias) // the first owns it
			r := run(t, tg)
			r.settle()
			for _, who := range []*telegramtest.User{tobias, ines} { // people the bot has met
				club.Say(who, "/batches@"+tg.Username())
				r.settle()
			}
			r.openBatch(club, marit)
			club.Say(marit, "/hand@"+tg.Username()+" 1 to @Tobias until "+time.Now().AddDate(0, 0, 4).UTC().Format("2 January")+" 18:00")
			r.settle()
			club.Press(tobias, last(t, club), "Yes, I will")
			r.settle()
			club.AwaitText("looks after")
			club.Leave(tobias)
			tobias.FirstName, tobias.LastName, tobias.Username = "", "", "" // as an account that was deleted
			r.settle()
			r.tick(time.Now().Add(40 * time.Hour))
			club.AwaitText(": flip it")
			if r.parked(address(club)) != "" {
				t.Error("the group is parked for one who is gone")
			}
			who := marit
			if strings.HasPrefix(taken, "keeper") {
				who = ines
			}
			word, rest, _ := strings.Cut(taken, " ")
			club.Say(who, "/"+word+"@"+tg.Username()+" "+rest)
			r.settle()
			want := "is back with Marit"
			if who == ines {
				want = "is kept by Ines"
			}
			if m := last(t, club); !strings.Contains(m.Text, want) {
				t.Errorf("%s gives %q", taken, m.Text)
			}
			club.Say(who, "/longer@"+tg.Username()+" 1 1 day")
			r.settle()
			if m := last(t, club); !strings.Contains(m.Text, "of 9") || strings.Contains(m.Text, "only the keeper") {
				t.Errorf("a step afterwards gives %q", m.Text)
			}
		})
	}
}
