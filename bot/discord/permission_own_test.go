package discord_test

import (
	"testing"

	"larderhand/bot"
	"larderhand/bot/adaptertest"
	"larderhand/bot/discord"
	"larderhand/bot/discord/discordtest"
)

// What a server's administrators allow and forbid there is theirs: commands ask for no
// permission of their own, a restart leaves the rules alone, and a change to one
// command those of the others.
func TestRulesOfAdministratorsSurvive(t *testing.T) {
	c := newClub(t)
	kept := &facts{}
	run := func(b discord.Bot) {
		t.Helper()
		r := start(t, c, b, func(_ *discord.Config, p *discord.Parts) { p.Keep = kept })
		r.until(t, "commands")
		r.stop()
	}
	may := func(when string, who *discordtest.Person, name string, want bool) {
		t.Helper()
		if got, why := who.At(c.curing).CanUse(name); got != want {
			t.Errorf("%s: %s may use /%s: %v (%s)", when, who.Name, name, got, why)
		}
	}
	b := &adaptertest.Bot{}
	run(b)
	may("at first", c.tobias, "look", true)
	wardens := c.guild.AddRole("Wardens", 0)
	c.guild.Give(c.ines, wardens)
	c.s.OverrideCommand(discordtest.CommandOverwrite{Guild: c.guild, Command: "look", Role: c.guild.Everyone(), Allow: false})
	c.s.OverrideCommand(discordtest.CommandOverwrite{Guild: c.guild, Command: "look", Role: wardens, Allow: true})
	before := len(c.s.Requests("PUT", "")) + len(c.s.Requests("POST", "/applications/*/commands")) + len(c.s.Requests("DELETE", ""))
	check := func(when string) {
		t.Helper()
		may(when, c.tobias, "look", false)
		may(when, c.ines, "look", true)
		may(when, c.tobias, "weigh", true)
	}
	check("with the rules")
	run(b)
	check("after a restart")
	if n := len(c.s.Requests("PUT", "")) + len(c.s.Requests("POST", "/applications/*/commands")) + len(c.s.Requests("DELETE", "")); n != before {
		t.Errorf("a restart with nothing changed makes %d requests about commands", n-before)
	}
	run(reworded{b})
	check("after another command was reworded")
}

type reworded struct{ *adaptertest.Bot }

func (r reworded) Commands() []bot.Command {
	list := append([]bot.Command(nil), r.Bot.Commands()...)
	list[0].Help = "put a weight on record"
	return list
}
