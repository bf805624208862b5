package telegram_test

import (
	"strings"
	"testing"
	"time"
)

// The keeper leaves the group: its batch and pings stay there, an administrator gives
// it to someone else, and who left has no say in it any more.
func TestKeeperLeavesTheGroup(t *testing.T) {
	tg := fake(t)
	ines, marit, tobias := tg.User("Ines"), tg.User("Marit"), tg.User("Tobias")
	club := tg.Supergroup(clubName, ines, marit, tobias) // the first owns it
	r := run(t, tg)
	r.settle()
	say := func(line string) string {
		t.Helper()
		command, rest, _ := strings.Cut(line, " ")
		club.Say(ines, "/"+command+"@"+tg.Username()+" "+rest)
		r.settle()
		return last(t, club).Text
	}
	club.Say(tobias, "/batches@"+tg.Username()) // someone the bot has met
	r.settle()
	r.openBatch(club, marit)
	club.Leave(marit)
	r.settle()
	r.tick(time.Now().Add(40 * time.Hour))
	if ping := club.AwaitText(": flip it"); !strings.Contains(ping.Text, "Batch 1") {
		t.Errorf("the ping after the keeper left: %q", ping.Text)
	}
	if got := say("keeper 1 @Tobias"); !strings.Contains(got, "Tobias") {
		t.Errorf("given to someone else: %q", got)
	}
	if got := say("batch 1"); !strings.Contains(got, "keeper Tobias") {
		t.Errorf("afterwards: %q", got)
	}
	room := tg.Private(marit)
	room.Say(marit, "close 1 eaten")
	r.settle()
	if got := say("batch 1"); strings.Contains(got, "closed") {
		t.Errorf("who left closed it: %q", got)
	}
}
