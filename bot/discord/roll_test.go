package discord_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
)

// told types a line and gives the answer.
func (l *live) told(seat *discordtest.Seat, line string) discordtest.Message {
	l.t.Helper()
	l.run.until(l.t, seat.Tell(line).ID)
	list := seat.Messages()
	return list[len(list)-1]
}

// Into a channel somebody shares from elsewhere only while they are in its server and
// see it; which channel of a name is meant is asked with the names of the servers.
func TestShareIntoAChannelFromPrivate(t *testing.T) {
	l := newLive(t)
	other := l.s.AddGuild("Lakeside Smokers", discordtest.BotPermissions(invited))
	there := other.AddChannel("curing")
	other.Join(l.ines)
	l.told(l.ines.At(l.curing), "hello")
	l.told(l.ines.At(there), "hello")
	home := l.ines.DM()
	l.open(home, "5 lb juniper 1.5 in")
	ask := l.told(home, "share 1 in curing")
	for _, label := range []string{"curing (Quarry Lane Smokehouse Club)", "curing (Lakeside Smokers)"} {
		if !slices.Contains(ask.Labels(), label) {
			t.Errorf("the buttons are %q", ask.Labels())
		}
	}
	for _, out := range []func(){
		func() { other.Leave(l.ines) },
		func() { other.Join(l.ines); there.Deny(l.ines, discordtest.ViewChannel) },
	} {
		out()
		l.s.Clock().Advance(time.Hour) // past what is remembered of an answer
		if m := l.press(home, ask, "curing (Lakeside Smokers)"); !strings.Contains(m.Text, "not in curing (Lakeside Smokers) any more") {
			t.Errorf("out of the channel it reads %q", m.Text)
		}
	}
	l.s.Clock().Advance(time.Hour)
	l.s.Inject("GET", "/guilds/*/members/*", discordtest.ServerError(503))
	if m := l.press(home, ask, "curing (Quarry Lane Smokehouse Club)"); !strings.Contains(m.Text, "couldn't find out") {
		t.Errorf("while Discord does not say it reads %q", m.Text)
	}
	if m := l.press(home, ask, "curing (Quarry Lane Smokehouse Club)"); !strings.Contains(wordsOf(m), "is shared in curing (Quarry Lane Smokehouse Club)") {
		t.Errorf("in the channel it reads %q", m.Text)
	}
	l.pass(2 * time.Minute)
	l.ines.At(l.curing).WaitText("Card 1")
}

// A thread has its channel's rules; a private one, members of its own. One that sleeps
// is in no list the gateway sends.
func TestInsideAThread(t *testing.T) {
	l := newLive(t)
	open, shut := l.curing.StartThread("Bellies", l.ines), l.curing.StartPrivateThread("Costs", l.ines)
	in := func(c *discordtest.Channel, p *discordtest.Person) bool {
		t.Helper()
		ok, err := l.run.Inside(t.Context(), at(c), p.ID)
		if err != nil {
			t.Fatal(err)
		}
		return ok
	}
	l.told(l.ines.At(l.curing), "hello") // so that what came before it is taken in
	if !in(open, l.tobias) || !in(shut, l.ines) || in(shut, l.tobias) {
		t.Errorf("open %v, private: hers %v, his %v", in(open, l.tobias), in(shut, l.ines), in(shut, l.tobias))
	}
	open.Archive()
	l.told(l.ines.At(l.curing), "hello")
	if !in(open, l.tobias) {
		t.Error("nobody is in a thread that sleeps")
	}
	if _, err := l.run.Inside(t.Context(), at(l.ines.DM().Channel()), l.ines.ID); err == nil {
		t.Error("a direct message is no group, but somebody is in it")
	}
}
