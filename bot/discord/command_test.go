package discord_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/adaptertest"
	"larderhand/bot/discord"
	"larderhand/bot/discord/discordtest"
)

// Every command of the bot's table is a slash command, in every server and in
// private; what the fake checks about lengths and counts has passed by then.
func TestEveryCommandIsASlashCommand(t *testing.T) {
	l := newLive(t)
	got := map[string]discordtest.Command{}
	for _, k := range l.s.Commands() {
		got[k.Name] = k
	}
	for _, c := range l.bot.Commands() {
		k, ok := got[c.Name]
		if !ok {
			t.Errorf("%s is no slash command", c.Name)
			continue
		}
		if c.Batch && !strings.Contains(optionNames(k), " batch ") {
			t.Errorf("/%s has no option batch: %s", c.Name, optionNames(k))
		}
		if k.Definition["default_member_permissions"] != nil {
			t.Errorf("/%s is closed to some from the start", c.Name)
		}
	}
	if len(got) != len(l.bot.Commands()) {
		t.Errorf("%d slash commands for %d commands", len(got), len(l.bot.Commands()))
	}
}

func optionNames(k discordtest.Command) string {
	names := " "
	for _, o := range k.Definition["options"].([]any) {
		names += o.(map[string]any)["name"].(string) + " "
	}
	return names
}

func choicesOf(t *testing.T, s *discordtest.Server, command, option string) []string {
	t.Helper()
	for _, k := range s.Commands() {
		for _, o := range k.Definition["options"].([]any) {
			o := o.(map[string]any)
			if k.Name != command || o["name"] != option {
				continue
			}
			var out []string
			for _, c := range o["choices"].([]any) {
				out = append(out, c.(map[string]any)["value"].(string))
			}
			return out
		}
	}
	t.Fatalf("/%s has no option %s", command, option)
	return nil
}

func TestChoicesForStepsAndCautions(t *testing.T) {
	l := newLive(t)
	if got := choicesOf(t, l.s, "skip", "step"); !slices.Contains(got, "season") || !slices.Contains(got, "smoke") {
		t.Errorf("steps to choose from: %v", got)
	}
	if got := choicesOf(t, l.s, "caution", "topic"); !slices.Contains(got, "nitrite") {
		t.Errorf("cautions to choose from: %v", got)
	}
	if m := l.slash(l.ines.At(l.curing), "caution", opt("topic", "nitrite")); !strings.Contains(m.Text, "0.1 g scale") {
		t.Errorf("the caution reads %q", m.Text)
	}
}

// Names and descriptions come in the reader's language where there are words for
// it; what is chosen is the same.
func TestLocalNames(t *testing.T) {
	l := newLive(t)
	lena := l.s.AddPerson("Lena", discordtest.InLocale("de"))
	l.guild.Join(lena)
	if m := l.slash(lena.At(l.curing), "pökeln", opt("gewicht", "2.27 kg")); !strings.Contains(m.Text, "4.3 g") {
		t.Errorf("in German the cure reads %q", m.Text)
	}
	if m := l.slash(lena.At(l.curing), "vorsicht", opt("thema", "Nitrit")); !strings.Contains(m.Text, "0.1 g scale") {
		t.Errorf("in German the caution reads %q", m.Text)
	}
}

// Commands are registered when they changed, and only then; where they no longer
// belong they are taken away, so that none shows twice.
func TestRegisteredOnlyWhenChanged(t *testing.T) {
	c := newClub(t)
	kept := &facts{}
	puts := func() int { return len(c.s.Requests("PUT", "")) }
	run := func(b discord.Bot, guild string) {
		t.Helper()
		r := start(t, c, b, func(cfg *discord.Config, p *discord.Parts) { cfg.DevGuild, p.Keep = guild, kept })
		r.until(t, "commands")
		r.stop()
	}
	b := &adaptertest.Bot{}
	run(b, "")
	if n := puts(); n != 1 {
		t.Fatalf("%d overwrites at first", n)
	}
	run(b, "")
	if n := puts(); n != 1 {
		t.Errorf("%d overwrites after a start with nothing changed", n)
	}
	run(b, c.guild.ID)
	global, local := 0, 0
	for _, k := range c.s.Commands() {
		if k.GuildID == "" {
			global++
		} else {
			local++
		}
	}
	if global != 0 || local != len(b.Commands()) {
		t.Errorf("with a development server there are %d commands everywhere and %d there", global, local)
	}
	before := puts()
	run(shorter{b}, c.guild.ID)
	if n := puts(); n != before+1 || len(c.s.Commands()) != 1 {
		t.Errorf("after the table changed: %d overwrites more, %d commands", n-before, len(c.s.Commands()))
	}
	run(b, "")
	for _, k := range c.s.Commands() {
		if k.GuildID != "" {
			t.Errorf("/%s still shows in the development server as well", k.Name)
		}
	}
}

type shorter struct{ *adaptertest.Bot }

func (s shorter) Commands() []bot.Command { return s.Bot.Commands()[:1] }

// A registration that fails is tried again and keeps nobody waiting.
func TestRegistrationOutlivesAnOutage(t *testing.T) {
	c := newClub(t)
	f := c.s.Inject("PUT", "/applications/*/commands", discordtest.ServerError(503), discordtest.Times(2))
	start(t, c, &adaptertest.Bot{})
	if f.Hits() != 2 || len(c.s.Commands()) == 0 {
		t.Errorf("%d failures, %d commands", f.Hits(), len(c.s.Commands()))
	}
}

func TestNoPrivilegedIntent(t *testing.T) {
	c := newClub(t)
	start(t, c, &adaptertest.Bot{})
	const members, presences, content = 1 << 1, 1 << 8, 1 << 15
	for _, id := range c.s.Identifies() {
		if id.Intents&(members|presences|content) != 0 {
			t.Errorf("intents %b", id.Intents)
		}
	}
}

// Options are completed from what this conversation holds, and from no other.
func TestCompletion(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	l.open(here, "3 kg coffee and chilli 4 cm")
	l.s.Clock().Advance(4 * 24 * time.Hour)
	got := here.Complete("flip", opt("batch", ""))
	if len(got) != 2 || got[0].Name != "1 · juniper, day 4 of 8" || got[0].Value != "1" {
		t.Errorf("batches offered: %v", got)
	}
	if got := here.Complete("note", opt("batch", "chil")); len(got) != 1 || got[0].Value != "2" {
		t.Errorf("for chil: %v", got)
	}
	if got := here.Complete("cure", opt("flavouring", "jun"), opt("weight", "5 lb")); len(got) != 1 || got[0].Value != "juniper" {
		t.Errorf("flavourings: %v", got)
	}
	if got := l.ines.At(l.elsewhere).Complete("flip", opt("batch", "")); len(got) != 0 {
		t.Errorf("another channel's batches are offered: %v", got)
	}
}

// While the store does not answer nothing is offered, in time.
func TestCompletionDoesNotWait(t *testing.T) {
	l := newLive(t, func(c *discord.Config, _ *discord.Parts) { c.Ack = time.Millisecond })
	open := l.gate.hold()
	defer open()
	if got := l.ines.At(l.curing).Complete("flip", opt("batch", "")); len(got) != 0 {
		t.Errorf("offered: %v", got)
	}
}
