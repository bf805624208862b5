package discordtest_test

import (
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

var cureCommand = &discordgo.ApplicationCommand{
	Name: "cure", Description: "Work out the cure for a belly",
	NameLocalizations: &map[discordgo.Locale]string{discordgo.German: "pökeln"},
	Options: []*discordgo.ApplicationCommandOption{
		{Type: discordgo.ApplicationCommandOptionString, Name: "weight", Description: "How heavy, such as 5 lb", Required: true, MaxLength: 20},
		{Type: discordgo.ApplicationCommandOptionString, Name: "flavour", Description: "Flavouring", Autocomplete: true},
		{Type: discordgo.ApplicationCommandOptionString, Name: "stage", Description: "Stage", Choices: []*discordgo.ApplicationCommandOptionChoice{
			{Name: "curing", Value: "c"}, {Name: "drying", Value: "d"},
		}},
		{Type: discordgo.ApplicationCommandOptionUser, Name: "helper", Description: "Who helps"},
		{Type: discordgo.ApplicationCommandOptionAttachment, Name: "recipe", Description: "A recipe as a file"},
		{Type: discordgo.ApplicationCommandOptionInteger, Name: "pieces", Description: "How many", MaxValue: 12},
	},
}

// answering connects a bot that answers every interaction with f.
func answering(t *testing.T, s *discordtest.Server, f func(*discordgo.Session, *discordgo.Interaction) error) *discordgo.Session {
	t.Helper()
	bot := newBot(t, s)
	bot.AddHandler(func(b *discordgo.Session, i *discordgo.InteractionCreate) {
		if err := f(b, i.Interaction); err != nil {
			t.Errorf("answer: %v", err)
		}
	})
	open(t, bot)
	register(t, s, bot, cureCommand)
	return bot
}

func reply(text string, parts ...discordgo.MessageComponent) *discordgo.InteractionResponse {
	return &discordgo.InteractionResponse{Type: discordgo.InteractionResponseChannelMessageWithSource, Data: &discordgo.InteractionResponseData{
		Content: text, Components: parts, AllowedMentions: quiet(),
	}}
}

func TestSlashCommandReachesTheBotTyped(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	got := make(chan *discordgo.Interaction, 1)
	answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		got <- i
		return b.InteractionRespond(i, reply("done"))
	})
	m := c.ines.At(c.curing).Slash("cure",
		discordtest.Opt("weight", "5 lb"), discordtest.Opt("stage", "drying"), discordtest.Opt("helper", c.tobias),
		discordtest.Opt("recipe", discordtest.File{Name: "r.txt", Type: "text/plain", Data: []byte("salt 2.5%")}),
		discordtest.Opt("pieces", 3)).WaitReply()
	if m.Text != "done" || m.Author != "Larderhand" {
		t.Errorf("reply %q by %s", m.Text, m.Author)
	}
	i := <-got
	if i.Member == nil || i.User != nil || i.Member.User.ID != c.ines.ID || i.GuildID != c.guild.ID {
		t.Errorf("who and where: %+v", i)
	}
	if i.Member.Permissions != int64(c.curing.PermissionsOf(c.ines)) {
		t.Errorf("permissions %d, want %d", i.Member.Permissions, c.curing.PermissionsOf(c.ines))
	}
	data := i.ApplicationCommandData()
	opts := map[string]any{}
	for _, o := range data.Options {
		opts[o.Name] = o.Value
	}
	if opts["weight"] != "5 lb" || opts["stage"] != "d" || opts["pieces"] != 3.0 || opts["helper"] != c.tobias.ID {
		t.Errorf("options %v", opts)
	}
	if data.Resolved.Users[c.tobias.ID].Username != "Tobias" || data.Resolved.Attachments[opts["recipe"].(string)].Filename != "r.txt" {
		t.Errorf("resolved %+v", data.Resolved)
	}
}

func TestClientRefusesWhatTheDefinitionDoesNotAllow(t *testing.T) {
	for name, tc := range map[string]struct {
		command string
		opts    []discordtest.OptionValue
		want    string
	}{
		"unknown command":   {"smoke", nil, "no command is named smoke"},
		"unknown option":    {"cure", []discordtest.OptionValue{discordtest.Opt("wieght", "1 kg")}, `there is no option "wieght"`},
		"missing option":    {"cure", nil, `option "weight" is required`},
		"wrong type":        {"cure", []discordtest.OptionValue{discordtest.Opt("weight", 5)}, `option "weight" takes no int`},
		"not a choice":      {"cure", []discordtest.OptionValue{discordtest.Opt("weight", "1 kg"), discordtest.Opt("stage", "frying")}, `option "stage" offers no frying`},
		"too long":          {"cure", []discordtest.OptionValue{discordtest.Opt("weight", strings.Repeat("1", 21))}, "max_length 20"},
		"too many":          {"cure", []discordtest.OptionValue{discordtest.Opt("weight", "1 kg"), discordtest.Opt("pieces", 13)}, "max_value 12"},
		"twice":             {"cure", []discordtest.OptionValue{discordtest.Opt("weight", "1"), discordtest.Opt("weight", "2")}, "twice"},
		"no autocompletion": {"complete weight", nil, `option "weight" has no autocompletion`},
	} {
		t.Run(name, func(t *testing.T) {
			j := judged(t, nil, func(s *discordtest.Server) {
				c := newClub(t, s)
				bot := newBot(t, s)
				open(t, bot)
				register(t, s, bot, cureCommand)
				if field, ok := strings.CutPrefix(tc.command, "complete "); ok {
					c.ines.At(c.curing).Complete("cure", discordtest.Opt(field, "5"))
					return
				}
				c.ines.At(c.curing).Slash(tc.command, tc.opts...)
			})
			if !j.fatal || !strings.Contains(j.said(), tc.want) {
				t.Errorf("said %q, want %q", j.said(), tc.want)
			}
		})
	}
}

func TestDeferredAnswerIsFinishedByAnEdit(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		if err := b.InteractionRespond(i, &discordgo.InteractionResponse{
			Type: discordgo.InteractionResponseDeferredChannelMessageWithSource,
			Data: &discordgo.InteractionResponseData{Flags: discordgo.MessageFlagsEphemeral},
		}); err != nil {
			return err
		}
		text := "2.5 g"
		if _, err := b.InteractionResponseEdit(i, &discordgo.WebhookEdit{Content: &text, AllowedMentions: quiet()}); err != nil {
			return err
		}
		got, err := b.InteractionResponse(i)
		if err == nil && got.Content != text {
			t.Errorf("@original reads %q", got.Content)
		}
		_, err = b.FollowupMessageCreate(i, true, &discordgo.WebhookParams{Content: "more", AllowedMentions: quiet()})
		return err
	})
	use := c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg"))
	if ack := use.WaitAck(); ack != 5 {
		t.Errorf("ack %d, want 5", ack)
	}
	m := use.WaitReply()
	if m.Text != "2.5 g" || !m.Ephemeral || m.Loading {
		t.Errorf("reply %+v", m)
	}
	if f := use.WaitFollowUp(1); f.Text != "more" || f.Ephemeral {
		t.Errorf("follow-up %+v", f)
	}
	if n := len(c.tobias.At(c.curing).Messages()); n != 1 {
		t.Errorf("Tobias sees %d messages, want the follow-up alone", n)
	}
}

func TestAnswersAreOnceAndInTime(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	type outcome struct{ first, second int }
	got := make(chan outcome, 1)
	var late bool
	answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		if late {
			s.Clock().Advance(3*time.Second + time.Millisecond)
		}
		first := restCode(b.InteractionRespond(i, reply("a")))
		got <- outcome{first, restCode(b.InteractionRespond(i, reply("b")))}
		return nil
	})
	use := c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg"))
	if o := <-got; o != (outcome{0, 40060}) {
		t.Errorf("codes %+v, want none, then 40060 already acknowledged", o)
	}
	use.WaitRefused(40060)
	late = true
	use = c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg"))
	if o := <-got; o != (outcome{10062, 10062}) {
		t.Errorf("codes %+v after three seconds, want 10062 unknown interaction", o)
	}
	if !use.Failed() {
		t.Error("the person does not see the failure")
	}
}

func TestTokenIsVoidAfterFifteenMinutes(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	kept := make(chan *discordgo.Interaction, 1)
	bot := answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		kept <- i
		return b.InteractionRespond(i, reply("a"))
	})
	c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg")).WaitReply()
	i := <-kept
	s.Clock().Advance(16 * time.Minute)
	_, err := bot.FollowupMessageCreate(i, true, &discordgo.WebhookParams{Content: "late", AllowedMentions: quiet()})
	if restCode(err) != 50027 {
		t.Errorf("error %v, want 50027", err)
	}
}

func TestAutocompletion(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		var typed string
		for _, o := range i.ApplicationCommandData().Options {
			if o.Focused {
				typed = o.StringValue()
			}
		}
		return b.InteractionRespond(i, &discordgo.InteractionResponse{
			Type: discordgo.InteractionApplicationCommandAutocompleteResult,
			Data: &discordgo.InteractionResponseData{Choices: []*discordgo.ApplicationCommandOptionChoice{{Name: typed + "per", Value: "juniper"}}},
		})
	})
	got := c.ines.At(c.curing).Complete("cure", discordtest.Opt("flavour", "juni"))
	if len(got) != 1 || got[0].Name != "juniper" || got[0].Value != "juniper" {
		t.Errorf("suggestions %v", got)
	}
}

func TestCommandByItsLocalName(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	marit := s.AddPerson("Marit", discordtest.InLocale("de"))
	c.guild.Join(marit)
	answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		return b.InteractionRespond(i, reply(i.ApplicationCommandData().Name+" "+string(i.Locale)))
	})
	if m := marit.At(c.curing).Slash("pökeln", discordtest.Opt("weight", "1 kg")).WaitReply(); m.Text != "cure de" {
		t.Errorf("reply %q", m.Text)
	}
}
