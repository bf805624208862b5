package discordtest_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

// Each option type carries its value and, for entities, its resolved data
// (interactions/application-commands.mdx, "Application Command Option Type").
func TestOptionTypes(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	role := c.guild.AddRole("flippers", 0)
	one := 1.0
	bot := newBot(t, s)
	raw := make(chan json.RawMessage, 1)
	bot.AddHandler(func(_ *discordgo.Session, e *discordgo.Event) {
		if e.Type == "INTERACTION_CREATE" {
			raw <- e.RawData
		}
	})
	open(t, bot)
	option := func(name string, kind discordgo.ApplicationCommandOptionType) *discordgo.ApplicationCommandOption {
		return &discordgo.ApplicationCommandOption{Name: name, Description: "x", Type: kind}
	}
	grams := option("salt", discordgo.ApplicationCommandOptionNumber)
	grams.MinValue, grams.MaxValue = &one, 80
	where := option("where", discordgo.ApplicationCommandOptionChannel)
	where.ChannelTypes = []discordgo.ChannelType{discordgo.ChannelTypeGuildText}
	register(t, s, bot, &discordgo.ApplicationCommand{Name: "all", Description: "x", Options: []*discordgo.ApplicationCommandOption{
		grams, where, option("dry", discordgo.ApplicationCommandOptionBoolean),
		option("who", discordgo.ApplicationCommandOptionMentionable), option("role", discordgo.ApplicationCommandOptionRole),
	}})
	c.ines.At(c.curing).Slash("all", discordtest.Opt("salt", 52.5), discordtest.Opt("where", c.curing),
		discordtest.Opt("dry", true), discordtest.Opt("who", c.tobias), discordtest.Opt("role", role))
	var got struct {
		Data struct {
			Options []struct {
				Name  string
				Value any
			}
			Resolved struct {
				Users, Members, Roles, Channels map[string]any
			}
		}
	}
	if err := json.Unmarshal(<-raw, &got); err != nil {
		t.Fatal(err)
	}
	values := map[string]any{}
	for _, o := range got.Data.Options {
		values[o.Name] = o.Value
	}
	for name, want := range map[string]any{"salt": 52.5, "where": c.curing.ID, "dry": true, "who": c.tobias.ID, "role": role.ID} {
		if values[name] != want {
			t.Errorf("%s is %v, want %v", name, values[name], want)
		}
	}
	r := got.Data.Resolved
	if r.Users[c.tobias.ID] == nil || r.Members[c.tobias.ID] == nil || r.Roles[role.ID] == nil || r.Channels[c.curing.ID] == nil {
		t.Errorf("resolved %+v", r)
	}
	for want, opt := range map[string]discordtest.OptionValue{
		"min_value 1":                    discordtest.Opt("salt", 0.5),
		"max_value 80":                   discordtest.Opt("salt", 81),
		"does not take channels of type": discordtest.Opt("where", c.guild.AddAnnouncements("news")),
		"takes no bool":                  discordtest.Opt("who", true),
	} {
		out := judged(t, nil, func(s2 *discordtest.Server) {
			c2 := newClub(t, s2)
			bot := newBot(t, s2)
			open(t, bot)
			register(t, s2, bot, &discordgo.ApplicationCommand{Name: "all", Description: "x", Options: []*discordgo.ApplicationCommandOption{
				grams, where, option("who", discordgo.ApplicationCommandOptionMentionable),
			}})
			c2.ines.At(c2.curing).Slash("all", opt)
		})
		if !strings.Contains(out.said(), want) {
			t.Errorf("said %q, want %q", out.said(), want)
		}
	}
}

func TestMenusOfPeopleRolesChannels(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	role := c.guild.AddRole("flippers", 0)
	bot := answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		d := i.MessageComponentData()
		return b.InteractionRespond(i, reply(d.CustomID+" "+strings.Join(d.Values, "+")))
	})
	m := post(t, bot, c.ines.At(c.curing),
		row(discordgo.SelectMenu{MenuType: discordgo.UserSelectMenu, CustomID: "who"}),
		row(discordgo.SelectMenu{MenuType: discordgo.RoleSelectMenu, CustomID: "role"}),
		row(discordgo.SelectMenu{MenuType: discordgo.ChannelSelectMenu, CustomID: "where", MaxValues: 2}))
	for menu, values := range map[string][]string{"who": {c.tobias.ID}, "role": {role.ID}, "where": {c.curing.ID}} {
		if got := c.ines.At(c.curing).Pick(m, menu, values...).WaitReply(); got.Text != menu+" "+strings.Join(values, "+") {
			t.Errorf("reply %q", got.Text)
		}
	}
	if len(m.Menus) != 3 || m.Menus[2].Max != 2 || m.Menus[0].Min != 1 {
		t.Errorf("menus %+v", m.Menus)
	}
}

func TestTalkingBack(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	got := make(chan *discordgo.MessageCreate, 8)
	bot.AddHandler(func(_ *discordgo.Session, m *discordgo.MessageCreate) {
		if m.Author.ID != s.Bot().ID {
			got <- m
		}
	})
	open(t, bot)
	ines := c.ines.At(c.curing)
	m := post(t, bot, ines)
	own := ines.ReplyTo(m, "flipped")
	if e := <-got; e.Content != "flipped" || e.ReferencedMessage == nil || e.ReferencedMessage.ID != m.ID {
		t.Errorf("reply %+v", e.Message)
	}
	ines.Remove(own)
	if _, ok := ines.Reload(own); ok {
		t.Error("the removed message is still shown")
	}
	out := judged(t, nil, func(s *discordtest.Server) {
		c := newClub(t, s)
		c.curing.Deny(c.ines, discordtest.SendMessages)
		c.ines.At(c.curing).Say("hello")
	})
	if !strings.Contains(out.said(), "Ines may not") {
		t.Errorf("said %q", out.said())
	}
}

func TestPressesTheClientRefuses(t *testing.T) {
	t.Parallel()
	for want, press := range map[string]func(c club, m discordtest.Message){
		"no such component": func(c club, m discordtest.Message) { c.ines.At(c.curing).Press(m, "Smoked") },
		"it is disabled":    func(c club, m discordtest.Message) { c.ines.At(c.curing).Press(m, "Off") },
		"a link tells":      func(c club, m discordtest.Message) { c.ines.At(c.curing).Press(m, "Read") },
		"does not see":      func(c club, m discordtest.Message) { c.s.AddPerson("Stranger").At(c.curing).Press(m, "Flipped") },
		"the message is gone": func(c club, m discordtest.Message) {
			at := c.ines.At(c.curing)
			at.Remove(m)
			at.Press(m, "Flipped")
		},
	} {
		out := judged(t, nil, func(s *discordtest.Server) {
			c := newClub(t, s)
			bot := newBot(t, s)
			open(t, bot)
			m := post(t, bot, c.ines.At(c.curing), row(flipped,
				discordgo.Button{Label: "Off", CustomID: "off", Style: discordgo.PrimaryButton, Disabled: true},
				discordgo.Button{Label: "Read", URL: "https://example.org", Style: discordgo.LinkButton}))
			press(c, m)
		})
		if !strings.Contains(out.said(), want) {
			t.Errorf("said %q, want %q", out.said(), want)
		}
	}
}
