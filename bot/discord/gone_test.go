package discord_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
)

// The keeper leaves the server: its batch and pings stay there, whoever manages the
// channel gives it to someone else, and who left has no say in it any more.
func TestKeeperLeavesTheServer(t *testing.T) {
	l := newLive(t)
	l.curing.Allow(l.ines, discordtest.ManageChannels)
	here := l.ines.At(l.curing)
	l.told(here, "batches")
	l.told(l.tobias.At(l.curing), "batches")
	l.open(l.marit.At(l.curing), "5 lb juniper 1.5 in")
	l.guild.Leave(l.marit)
	l.pass(40 * time.Hour)
	if m := here.WaitText("flip it"); !strings.Contains(m.Text, "Batch 1") {
		t.Errorf("the ping after the keeper left reads %q", m.Text)
	}
	if m := l.told(l.tobias.At(l.curing), "keeper 1 @Tobias"); !strings.Contains(m.Text, "only the keeper") {
		t.Errorf("taken by somebody: %q", m.Text)
	}
	if m := l.told(here, "keeper 1 @Tobias"); !strings.Contains(m.Text, "is kept by") || !strings.Contains(m.Text, "Tobias") {
		t.Errorf("given to someone else: %q", m.Text)
	}
	if m := l.told(here, "batch 1"); !strings.Contains(wordsOf(m), "keeper Tobias") {
		t.Errorf("afterwards: %q", wordsOf(m))
	}
	l.guild.Join(l.marit)
	if m := l.told(l.marit.At(l.curing), "close 1 eaten"); !strings.Contains(m.Text, "only the keeper") {
		t.Errorf("who left closes it: %q", m.Text)
	}
}

// Whoever looks after a batch is gone: the keeper takes it back, or whoever manages the
// channel gives it to somebody; nobody else is kept waiting.
func TestHelperGoneWhileTheyLookAfterABatch(t *testing.T) {
	for taken, want := range map[string]string{"back 1": "is back with", "keeper 1 @Ines": "is kept by"} {
		t.Run(taken, func(t *testing.T) {
			l := newLive(t)
			l.curing.Allow(l.ines, discordtest.ManageChannels)
			here, keeper := l.ines.At(l.curing), l.marit.At(l.curing)
			l.told(here, "batches")
			l.told(l.tobias.At(l.curing), "batches")
			l.open(keeper, "5 lb juniper 1.5 in")
			offer := l.told(keeper, "hand 1 to @Tobias until "+l.s.Clock().Now().AddDate(0, 0, 4).Format("2 January")+" 18:00")
			l.press(l.tobias.At(l.curing), offer, "Yes, I will")
			l.guild.Leave(l.tobias)
			l.pass(40 * time.Hour)
			here.WaitText("flip it")
			who := keeper
			if strings.HasPrefix(taken, "keeper") {
				who = here
			}
			if m := l.told(who, taken); !strings.Contains(wordsOf(m), want) {
				t.Errorf("%s reads %q", taken, wordsOf(m))
			}
			if m := l.told(who, "longer 1 1 day"); !strings.Contains(wordsOf(m), "of 9") || strings.Contains(m.Text, "only the keeper") {
				t.Errorf("a step afterwards reads %q", wordsOf(m))
			}
		})
	}
}
