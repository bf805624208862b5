package discord_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
)

// A ping sent before a restart is answered by its buttons after it; so is one whose
// buttons are written as the first version wrote them.
func TestButtonsOutliveARestart(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	l.pass(23 * time.Hour)
	ping := here.WaitText("flip it")
	l.run.stop()
	l.begin()
	if m := l.press(here, ping, "Flipped 1"); m.ID != ping.ID || !strings.Contains(wordsOf(m), "Batch 1 (juniper) flipped") {
		t.Errorf("the ping of before reads %q", wordsOf(m))
	}
	postRaw(t, l.club, map[string]any{"content": "An old ping.", "allowed_mentions": map[string]any{"parse": []string{}},
		"components": []any{map[string]any{"type": 1, "components": []any{map[string]any{"type": 2, "style": 2, "label": "How was it", "custom_id": "L1:0:batch 1"}}}}})
	if m := l.press(here, newest(t, here, "How was it"), "How was it"); !strings.Contains(wordsOf(m), "1 flip, ") {
		t.Errorf("the button of long ago is answered %q", wordsOf(m))
	}
}

// One process serves several servers and direct messages, each apart: the batches of
// one are not there in another.
func TestServersAreApart(t *testing.T) {
	l := newLive(t)
	other := l.s.AddGuild("Lakeside Smokers", discordtest.BotPermissions(invited))
	other.Join(l.ines)
	lake := other.AddChannel("bellies")
	seats := map[string]*discordtest.Seat{"juniper": l.ines.At(l.curing), "honey": l.ines.At(lake), "chilli": l.ines.DM(), "coffee": l.tobias.DM()}
	for flavour, seat := range seats {
		l.open(seat, "5 lb "+flavour+" 1.5 in")
	}
	for flavour, seat := range seats {
		m := l.slash(seat, "batches")
		if !strings.Contains(wordsOf(m), flavour) || !strings.Contains(wordsOf(m), "1 batch") {
			t.Errorf("where %s cures it reads %q", flavour, wordsOf(m))
		}
		if m := l.slash(seat, "batch", opt("batch", "2")); !strings.Contains(m.Text, "There is no batch 2") {
			t.Errorf("another's batch is there: %q", m.Text)
		}
	}
	l.pass(23 * time.Hour)
	for flavour, seat := range seats {
		if m := seat.WaitText("flip it"); !strings.Contains(wordsOf(m), flavour) {
			t.Errorf("where %s cures the ping reads %q", flavour, wordsOf(m))
		}
	}
}
