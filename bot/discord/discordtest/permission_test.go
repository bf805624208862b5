package discordtest_test

import (
	"io"
	"testing"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

// The steps of topics/permissions.mdx, "Permission Overwrites", each next one
// overruling those before.
func TestPermissionHierarchy(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	const send = discordtest.SendMessages
	quietRole, loudRole := c.guild.AddRole("quiet", 0), c.guild.AddRole("loud", 0)
	may := func(step string, want bool) {
		t.Helper()
		if got := c.curing.PermissionsOf(c.ines).Has(send); got != want {
			t.Errorf("%s: may send %v, want %v", step, got, want)
		}
	}
	may("@everyone allows", true)
	c.guild.Everyone().Set(discordtest.ViewChannel)
	may("@everyone does not allow", false)
	c.guild.Give(c.ines, loudRole)
	loudRole.Set(send)
	may("a role allows", true)
	c.curing.DenyRole(c.guild.Everyone(), send)
	may("the channel denies it to @everyone", false)
	c.curing.AllowRole(c.guild.Everyone(), send)
	may("the channel allows it to @everyone", true)
	c.guild.Give(c.ines, quietRole)
	c.curing.DenyRole(quietRole, send)
	may("the channel denies it to a role", false)
	c.curing.AllowRole(loudRole, send)
	may("the channel allows it to another role", true)
	c.curing.Deny(c.ines, send)
	may("the channel denies it to the member", false)
	c.curing.Allow(c.ines, send)
	may("the channel allows it to the member", true)
	c.curing.Deny(c.ines, discordtest.ViewChannel)
	may("who does not see the channel may not send", false)
	c.guild.Give(c.ines, c.guild.AddRole("boss", discordtest.Administrator))
	may("an administrator may all", true)
}

// What the bot's requests need, permission by permission.
func TestBotPermissions(t *testing.T) {
	t.Parallel()
	file := func() []*discordgo.File { return []*discordgo.File{{Name: "a.txt", Reader: emptyReader{}}} }
	for name, tc := range map[string]struct {
		without discordtest.Permissions
		send    *discordgo.MessageSend
		want    int
	}{
		"see the channel": {discordtest.ViewChannel, &discordgo.MessageSend{Content: "x"}, 50001},
		"send":            {discordtest.SendMessages, &discordgo.MessageSend{Content: "x"}, 50013},
		"attach":          {discordtest.AttachFiles, &discordgo.MessageSend{Files: file()}, 50013},
		"embed":           {discordtest.EmbedLinks, &discordgo.MessageSend{Embeds: []*discordgo.MessageEmbed{{Title: "x"}}}, 50013},
		"reply": {discordtest.ReadMessageHistory, &discordgo.MessageSend{
			Content: "x", Reference: &discordgo.MessageReference{MessageID: "1"},
		}, 160002},
	} {
		s := discordtest.New(t)
		c := newClub(t, s)
		c.curing.Deny(s.Bot(), tc.without)
		tc.send.AllowedMentions = quiet()
		if _, err := newBot(t, s).ChannelMessageSendComplex(c.curing.ID, tc.send); restCode(err) != tc.want {
			t.Errorf("%s: %v, want %d", name, err, tc.want)
		}
	}
}

type emptyReader struct{}

func (emptyReader) Read(p []byte) (int, error) { return copy(p, "salt"), io.EOF }

// interactions/application-commands.mdx, "Permissions" and "Using Default
// Permissions".
func TestWhoMayUseACommand(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	manage := int64(discordgo.PermissionManageChannels)
	guildOnly := []discordgo.InteractionContextType{discordgo.InteractionContextGuild}
	register(t, s, bot,
		&discordgo.ApplicationCommand{Name: "status", Description: "How the batches stand"},
		&discordgo.ApplicationCommand{Name: "settings", Description: "Settings", DefaultMemberPermissions: &manage, Contexts: &guildOnly},
	)
	can := func(step string, at *discordtest.Seat, name string, want bool) {
		t.Helper()
		if got, why := at.CanUse(name); got != want {
			t.Errorf("%s: may use /%s %v (%s), want %v", step, name, got, why, want)
		}
	}
	ines := c.ines.At(c.curing)
	can("at first", ines, "status", true)
	can("without the permission", ines, "settings", false)
	boss := c.guild.AddRole("boss", discordtest.ManageChannels)
	c.guild.Give(c.ines, boss)
	can("with the permission", ines, "settings", true)
	can("in a direct message", c.ines.DM(), "settings", false)
	can("in a direct message", c.ines.DM(), "status", true)
	s.OverrideCommand(discordtest.CommandOverwrite{Guild: c.guild, Command: "status", Channel: c.curing, Allow: false})
	can("forbidden in the channel", ines, "status", false)
	can("forbidden in the channel, its thread", c.ines.At(c.curing.StartThread("x", c.ines)), "status", false)
	s.OverrideCommand(discordtest.CommandOverwrite{Guild: c.guild, Command: "settings", Person: c.tobias, Allow: true})
	can("granted to a person", c.tobias.At(c.curing), "settings", true)
	s.OverrideCommand(discordtest.CommandOverwrite{Guild: c.guild, Role: boss, Allow: false})
	can("all commands forbidden to a role", ines, "settings", false)
	c.curing.DenyRole(c.guild.Everyone(), discordtest.UseApplicationCommands)
	can("no application commands here", c.tobias.At(c.curing), "settings", false)
}
