package discord_test

import (
	"strings"
	"testing"

	"larderhand/bot/discord/discordtest"
)

// Called by name in a channel and nothing said, the bot tells who has never opened a
// batch what it is, and three presses later a cure is under way.
func TestThreePressesToTheFirstCure(t *testing.T) {
	l := newLive(t)
	l.open(l.ines.At(l.curing), "5 lb juniper 1.5 in")
	here := l.marit.At(l.curing)
	m := l.told(here, "")
	if !strings.Contains(m.Text, "I help you turn pork belly into bacon") {
		t.Fatalf("a newcomer who calls reads %q", m.Text)
	}
	for _, label := range []string{"5 lb", "Open a batch", "Yes, I weigh it"} {
		m = l.press(here, m, label)
	}
	if !strings.Contains(wordsOf(m), "Batch 2 is open, in the cure") {
		t.Errorf("after three presses it reads %q", wordsOf(m))
	}
	for _, seat := range []*discordtest.Seat{here, l.ines.At(l.curing)} {
		if m := l.told(seat, ""); !strings.Contains(m.Text, "What do you want to do?") {
			t.Errorf("someone who has opened one calls and reads %q", m.Text)
		}
	}
}
