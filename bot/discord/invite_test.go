package discord_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
	"larderhand/bot/reply"
)

// The permissions of the README's invite link, and what is lost without each.
var needs = map[discordtest.Permissions][]string{
	discordtest.ViewChannel:           {"ping", "picture", "thread", "ping in the thread"},
	discordtest.SendMessages:          {"ping", "picture"},
	discordtest.AttachFiles:           {"picture"},
	discordtest.CreatePublicThreads:   {"thread", "ping in the thread"},
	discordtest.SendMessagesInThreads: {"ping in the thread"},
}

func TestTheInviteLinkIsTheSumOfItsParts(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var sum discordtest.Permissions
	for p := range needs {
		sum |= p
		if !strings.Contains(string(readme), fmt.Sprintf("| %d |", uint64(p))) {
			t.Errorf("README.md does not explain permission %d", uint64(p))
		}
	}
	if sum != invited || !strings.Contains(string(readme), fmt.Sprintf("scope=bot+applications.commands&permissions=%d", uint64(sum))) {
		t.Errorf("README.md does not invite with %d", uint64(sum))
	}
}

// With the link's permissions and nothing else everything works; with one less,
// just what that one is for does not.
func TestTheInviteLinkIsEnoughAndNoMore(t *testing.T) {
	less := []discordtest.Permissions{0}
	for p := range needs {
		less = append(less, p)
	}
	for _, missing := range less {
		t.Run(fmt.Sprint(missing), func(t *testing.T) {
			c := &club{s: discordtest.New(t)}
			c.guild = c.s.AddGuild("Quarry Lane Smokehouse Club", discordtest.EveryonePermissions(0), discordtest.BotPermissions(invited&^missing))
			members := c.guild.AddRole("Members", discordtest.EveryoneByDefault)
			c.curing, c.elsewhere = c.guild.AddChannel("curing"), c.guild.AddChannel("elsewhere")
			c.ines, c.tobias, c.marit = c.s.AddPerson("Ines"), c.s.AddPerson("Tobias"), c.s.AddPerson("Marit")
			c.guild.Join(c.ines, members)
			l := liveIn(t, c)
			here := c.ines.At(c.curing)
			works := map[string]bool{}
			l.open(here, "5 lb juniper 1.5 in") // an answer to a command needs nothing

			var ping reply.Reply
			_, err := l.run.Send(t.Context(), at(c.curing), "ping", *ping.Say("flip it"))
			works["ping"] = err == nil
			ping.Files = []reply.File{{Name: "a.csv", Type: "text/csv", Data: []byte("a")}}
			_, err = l.run.Send(t.Context(), at(c.curing), "picture", ping)
			works["picture"] = err == nil
			works["thread"] = strings.Contains(l.slash(here, "thread").Text, "has a thread of its own now")
			if threads := c.curing.Threads(); len(threads) == 1 {
				l.pass(23 * time.Hour)
				works["ping in the thread"] = flips(c.ines.At(threads[0])) == 1
			}
			for _, what := range []string{"ping", "picture", "thread", "ping in the thread"} {
				if works[what] == slices.Contains(needs[missing], what) {
					t.Errorf("without %d: %s works: %v", uint64(missing), what, works[what])
				}
			}
		})
	}
}
