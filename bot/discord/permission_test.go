package discord_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
)

// Who may do what to Ines's batch, cell by cell: with a command, with a button, and
// typed with a mention of the bot. Roles are as Discord knows them: what lets a
// member manage the channel is worked out by the platform for commands and by the
// adapter for what is typed.
func TestWhoMay(t *testing.T) {
	type may struct {
		look, note, flip, step, change, end, set bool
	}
	all := may{true, true, true, true, true, true, true}
	rows := []struct {
		name string
		who  func(*live) *discordtest.Seat
		may
	}{
		{"keeper", func(l *live) *discordtest.Seat { return l.ines.At(l.curing) }, may{true, true, true, true, true, true, false}},
		{"member", func(l *live) *discordtest.Seat { return l.tobias.At(l.curing) }, may{true, true, true, false, false, false, false}},
		{"whom the keeper handed it to", func(l *live) *discordtest.Seat {
			l.slash(l.marit.At(l.curing), "batches") // known here by name
			ask := l.slash(l.ines.At(l.curing), "hand", opt("batch", "1"), opt("to", "@marit"), opt("until", "Friday 20:00"))
			l.press(l.marit.At(l.curing), ask, "Yes, I will")
			return l.marit.At(l.curing)
		}, may{true, true, true, true, true, false, false}},
		{"member, with flips for the keeper alone", func(l *live) *discordtest.Seat {
			l.slash(l.ines.At(l.curing), "allow", opt("batch", "1"), opt("details", "flips keeper"))
			return l.tobias.At(l.curing)
		}, may{true, true, false, false, false, false, false}},
		{"manages channels by role", func(l *live) *discordtest.Seat {
			l.guild.Give(l.tobias, l.guild.AddRole("Wardens", discordtest.ManageChannels))
			return l.tobias.At(l.curing)
		}, all},
		{"manages this channel only", func(l *live) *discordtest.Seat {
			l.curing.Allow(l.tobias, discordtest.ManageChannels)
			return l.tobias.At(l.curing)
		}, all},
		{"manages channels, but not this one", func(l *live) *discordtest.Seat {
			l.guild.Give(l.tobias, l.guild.AddRole("Wardens", discordtest.ManageChannels))
			l.curing.Deny(l.tobias, discordtest.ManageChannels)
			return l.tobias.At(l.curing)
		}, may{true, true, true, false, false, false, false}},
		{"administrator", func(l *live) *discordtest.Seat {
			l.guild.Give(l.tobias, l.guild.AddRole("Wardens", discordtest.Administrator))
			return l.tobias.At(l.curing)
		}, all},
		{"owner of the server", func(l *live) *discordtest.Seat {
			l.guild.SetOwner(l.tobias)
			return l.tobias.At(l.curing)
		}, all},
		{"manages messages only", func(l *live) *discordtest.Seat {
			l.guild.Give(l.tobias, l.guild.AddRole("Janitors", discordtest.ManageMessages|discordtest.ManageGuild))
			return l.tobias.At(l.curing)
		}, may{true, true, true, false, false, false, false}},
		{"keeper, in another channel", func(l *live) *discordtest.Seat { return l.ines.At(l.elsewhere) }, may{set: false}},
		{"keeper, in private", func(l *live) *discordtest.Seat { return l.ines.DM() }, may{set: true}},
	}
	for _, row := range rows {
		for _, typed := range []bool{false, true} {
			l := newLive(t)
			l.open(l.ines.At(l.curing), "5 lb juniper 1.5 in")
			l.s.Clock().Advance(8 * 24 * time.Hour)
			seat := row.who(l)
			for _, cell := range []struct {
				name, line string
				want       bool
				opts       []discordtest.OptionValue
			}{
				{"batch", "batch 1", row.may.look, []discordtest.OptionValue{opt("batch", "1")}},
				{"note", "note 1 smelled fine", row.may.note, []discordtest.OptionValue{opt("batch", "1"), opt("remark", "smelled fine")}},
				{"flip", "flip 1", row.may.flip, []discordtest.OptionValue{opt("batch", "1")}},
				{"firm", "firm 1", row.may.step, []discordtest.OptionValue{opt("batch", "1")}},
				{"undo", "undo 1", row.may.change, []discordtest.OptionValue{opt("batch", "1")}},
				{"close", "close 1 all eaten", row.may.end, []discordtest.OptionValue{opt("batch", "1"), opt("reason", "all eaten")}},
				{"set", "set units metric", row.may.set, []discordtest.OptionValue{opt("setting", "units"), opt("value", "metric")}},
			} {
				t.Run(fmt.Sprintf("%s/%s/typed %v", row.name, cell.name, typed), func(t *testing.T) {
					var text string
					if typed {
						before := len(seat.Messages())
						l.run.until(t, seat.Tell(cell.line).ID)
						text = wordsOf(seat.Messages()[before+1])
					} else {
						text = wordsOf(l.slash(seat, cell.name, cell.opts...))
					}
					refused := false
					for _, no := range []string{"only the keeper", "lets only those who look after", "a group admin can change", "There is no batch"} {
						refused = refused || strings.Contains(text, no)
					}
					if refused == cell.want {
						t.Errorf("want it allowed: %v; it reads %q", cell.want, text)
					}
				})
			}
		}
	}
}

// A button is no way around: who may not, may not by pressing either.
func TestAButtonAsksWhoMay(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	l.s.Clock().Advance(8 * 24 * time.Hour)
	firm := l.slash(here, "firm")
	if m := l.press(l.tobias.At(l.curing), firm, "Rinsed"); !m.Ephemeral || !strings.Contains(m.Text, "only the keeper") {
		t.Errorf("Tobias presses and reads (ephemeral %v) %q", m.Ephemeral, m.Text)
	}
	if m := l.press(here, firm, "Rinsed"); !strings.Contains(wordsOf(m), "rinsed and patted dry") {
		t.Errorf("Ines presses and reads %q", m.Text)
	}
}
