package discordtest_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

func names(s *discordtest.Server) []string {
	var out []string
	for _, c := range s.Commands() {
		out = append(out, c.Name)
	}
	return out
}

// One bulk overwrite makes the list exact and keeps the ids of names that stay.
func TestBulkOverwrite(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	newClub(t, s)
	bot := newBot(t, s)
	put := func(cmds ...string) map[string]string {
		t.Helper()
		var defs []*discordgo.ApplicationCommand
		for _, name := range cmds {
			defs = append(defs, &discordgo.ApplicationCommand{Name: name, Description: "x"})
		}
		got, err := bot.ApplicationCommandBulkOverwrite(s.AppID(), "", defs)
		if err != nil {
			t.Fatal(err)
		}
		ids := map[string]string{}
		for _, c := range got {
			ids[c.Name] = c.ID
		}
		return ids
	}
	first := put("cure", "status")
	second := put("status", "smoke")
	if !slices.Equal(names(s), []string{"status", "smoke"}) || first["status"] != second["status"] || second["smoke"] == "" {
		t.Errorf("commands %v, ids %v then %v", names(s), first, second)
	}
	s.WaitCommands()
	if n := len(s.Requests("PUT", "/applications/*/commands")); n != 2 {
		t.Errorf("%d overwrites recorded, want 2", n)
	}
	listed, err := bot.ApplicationCommands(s.AppID(), "")
	if err != nil || len(listed) != 2 {
		t.Errorf("listed %v, %v", listed, err)
	}
	if err := bot.ApplicationCommandDelete(s.AppID(), "", second["smoke"]); err != nil || len(s.Commands()) != 1 {
		t.Errorf("delete: %v, left %v", err, names(s))
	}
	if _, err := bot.ApplicationCommandCreate(s.AppID(), "", cureCommand); err != nil || len(s.Commands()) != 2 {
		t.Errorf("create: %v, now %v", err, names(s))
	}
}

// The usual complaint: a guild command and a global one of the same name show
// both.
func TestDuplicateCommandsShow(t *testing.T) {
	t.Parallel()
	out := judged(t, nil, func(s *discordtest.Server) {
		c := newClub(t, s)
		bot := newBot(t, s)
		open(t, bot)
		register(t, s, bot, cureCommand)
		if _, err := bot.ApplicationCommandBulkOverwrite(s.AppID(), c.guild.ID, []*discordgo.ApplicationCommand{cureCommand}); err != nil {
			t.Error(err)
		}
		c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg"))
	})
	if !strings.Contains(out.said(), "two commands named cure") {
		t.Errorf("said %q", out.said())
	}
}

func TestDailyCreates(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	bot := newBot(t, s)
	put := func(from int) error {
		var defs []*discordgo.ApplicationCommand
		for i := range 100 {
			defs = append(defs, &discordgo.ApplicationCommand{Name: fmt.Sprint("c", from+i), Description: "x"})
		}
		_, err := bot.ApplicationCommandBulkOverwrite(s.AppID(), "", defs)
		return err
	}
	if err := put(0); err != nil {
		t.Fatal(err)
	}
	if err := put(0); err != nil {
		t.Errorf("the same again counts as creates: %v", err)
	}
	if err := put(100); err != nil {
		t.Errorf("200 creates: %v", err)
	}
	if err := put(200); err == nil {
		t.Error("300 creates in a day were let in")
	}
	s.Clock().Advance(25 * time.Hour)
	if err := put(200); err != nil {
		t.Errorf("a day later: %v", err)
	}
}

func TestSubcommands(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	bot.AddHandler(func(b *discordgo.Session, i *discordgo.InteractionCreate) {
		sub := i.ApplicationCommandData().Options[0]
		if err := b.InteractionRespond(i.Interaction, reply(sub.Name+" "+sub.Options[0].StringValue())); err != nil {
			t.Error(err)
		}
	})
	open(t, bot)
	register(t, s, bot, &discordgo.ApplicationCommand{Name: "batch", Description: "Batches", Options: []*discordgo.ApplicationCommandOption{{
		Type: discordgo.ApplicationCommandOptionSubCommand, Name: "open", Description: "Open one",
		Options: []*discordgo.ApplicationCommandOption{{Type: discordgo.ApplicationCommandOptionString, Name: "what", Description: "What", Required: true}},
	}}})
	if m := c.ines.At(c.curing).Slash("batch open", discordtest.Opt("what", "belly")).WaitReply(); m.Text != "open belly" {
		t.Errorf("reply %q", m.Text)
	}
}
