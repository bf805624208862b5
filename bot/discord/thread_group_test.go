package discord_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
)

// Three members: a batch gets its thread in mid-cure, and what two of them do with it
// from there, a hand-over and flips, is the same batch's as before.
func TestBatchMovesIntoItsThreadInMidCure(t *testing.T) {
	l := newLive(t)
	chat := func(p *discordtest.Person) *discordtest.Seat { return p.At(l.curing) }
	l.told(chat(l.tobias), "hello")
	l.told(chat(l.marit), "hello")
	l.open(chat(l.ines), "5 lb juniper 1.5 in")
	l.open(chat(l.ines), "3 lb pepper 1.5 in")
	l.pass(23 * time.Hour)
	chat(l.ines).WaitText("flip it")
	l.press(chat(l.marit), lastSaying(t, chat(l.marit), "flip it"), "Flipped 1") // before it moves
	if m := l.slash(chat(l.ines), "thread", opt("batch", "1")); !strings.Contains(m.Text, "has a thread of its own now") {
		t.Fatalf("it reads %q", m.Text)
	}
	thread := l.curing.Threads()[0]
	in := func(p *discordtest.Person) *discordtest.Seat { return p.At(thread) }

	// The hand-over is offered and taken up inside; the one offered it is pinged there.
	offer := l.told(in(l.ines), "hand to @Tobias until "+l.s.Clock().Now().AddDate(0, 0, 3).Format("2 January")+" 18:00")
	if !strings.Contains(offer.Text, "will you look after") || len(offer.Pings) != 1 || offer.Pings[0] != "Tobias" {
		t.Fatalf("the offer reads %q and pings %v", offer.Text, offer.Pings)
	}
	if m := l.press(in(l.marit), offer, "Yes, I will"); !strings.Contains(m.Text, "was offered to Tobias, not to you") {
		t.Errorf("the wrong one reads %q", m.Text)
	}
	l.press(in(l.tobias), offer, "Yes, I will")
	in(l.ines).WaitText("looks after")

	// The next day's ping comes there, for the helper, and two flip it.
	l.pass(24 * time.Hour)
	ping := lastSaying(t, in(l.tobias), "flip it")
	if !strings.Contains(ping.Text, "For @Tobias") && !strings.Contains(ping.Text, "For Tobias") || strings.Contains(ping.Text, "pepper") {
		t.Errorf("in the thread it reads %q", ping.Text)
	}
	if m := lastSaying(t, chat(l.ines), "flip it"); strings.Contains(m.Text, "juniper") && !strings.Contains(m.Text, "pepper") {
		t.Errorf("in the channel it reads %q", m.Text)
	}
	l.press(in(l.marit), ping, "Flipped 1")
	if m := l.press(in(l.tobias), ping, "Flipped 1"); !strings.Contains(wordsOf(m), "already has its flip for that day") {
		t.Errorf("the second to flip reads %q", wordsOf(m))
	}
	l.pass(24 * time.Hour)
	l.told(in(l.tobias), "flip")
	for name, seat := range map[string]*discordtest.Seat{"the thread": in(l.ines), "the channel": chat(l.ines)} {
		m := wordsOf(l.told(seat, "batch 1"))
		for _, want := range []string{"3 flips, the last", "by Tobias", "keeper Ines", "looked after by Tobias until Fri 6 Mar"} {
			if !strings.Contains(m, want) {
				t.Errorf("in %s there is no %q in %q", name, want, m)
			}
		}
	}

	// It comes back by itself, in the thread, with what was done.
	l.pass(60 * time.Hour)
	in(l.ines).WaitText("is back with")
	if m := l.told(in(l.tobias), "longer 1 day"); !strings.Contains(m.Text, "only the keeper") {
		t.Errorf("afterwards Tobias reads %q", m.Text)
	}
}

// lastSaying is the last message someone reads that says something.
func lastSaying(t *testing.T, seat *discordtest.Seat, words string) discordtest.Message {
	t.Helper()
	seat.WaitText(words)
	list := seat.Messages()
	for i := len(list) - 1; i >= 0; i-- {
		if strings.Contains(list[i].Text, words) {
			return list[i]
		}
	}
	t.Fatalf("nobody says %q", words)
	return discordtest.Message{}
}
