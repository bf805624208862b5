package discordtest_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

func row(parts ...discordgo.MessageComponent) discordgo.MessageComponent {
	return discordgo.ActionsRow{Components: parts}
}

var flipped = discordgo.Button{Label: "Flipped", Style: discordgo.PrimaryButton, CustomID: "v1:flip:3"}
var later = discordgo.Button{Label: "Later", Style: discordgo.SecondaryButton, CustomID: "v1:later:3"}

// post sends a message to a channel and returns it as the reader sees it.
func post(t *testing.T, bot *discordgo.Session, at *discordtest.Seat, parts ...discordgo.MessageComponent) discordtest.Message {
	t.Helper()
	sent, err := bot.ChannelMessageSendComplex(at.Channel().ID, &discordgo.MessageSend{
		Content: "Batch 3: time to flip", Components: parts, AllowedMentions: quiet(),
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range at.Messages() {
		if m.ID == sent.ID {
			return m
		}
	}
	t.Fatalf("message %s is not shown", sent.ID)
	return discordtest.Message{}
}

func TestPressUpdatesTheMessage(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		if id := i.MessageComponentData().CustomID; id != flipped.CustomID {
			t.Errorf("custom id %q", id)
		}
		return b.InteractionRespond(i, &discordgo.InteractionResponse{
			Type: discordgo.InteractionResponseUpdateMessage,
			Data: &discordgo.InteractionResponseData{Content: "Flipped by " + i.Member.User.Username, AllowedMentions: quiet()},
		})
	})
	ines := c.ines.At(c.curing)
	m := post(t, bot, ines, row(flipped, later))
	if !slices.Equal(m.Labels(), []string{"Flipped", "Later"}) {
		t.Errorf("buttons %v", m.Labels())
	}
	now := ines.Press(m, "Flipped").WaitReply()
	if now.ID != m.ID || now.Text != "Flipped by Ines" || len(now.Buttons) != 0 || now.Edits != 1 {
		t.Errorf("after the press: %+v", now)
	}
	// The second member's client had not seen the edit.
	again := c.tobias.At(c.curing).PressStale(m, "Flipped").WaitReply()
	if again.Text != "Flipped by Tobias" {
		t.Errorf("stale press: %q", again.Text)
	}
}

func TestPressDeferredUpdate(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		if err := b.InteractionRespond(i, &discordgo.InteractionResponse{Type: discordgo.InteractionResponseDeferredMessageUpdate}); err != nil {
			return err
		}
		text := "done"
		_, err := b.InteractionResponseEdit(i, &discordgo.WebhookEdit{Content: &text, AllowedMentions: quiet()})
		return err
	})
	m := post(t, bot, c.ines.At(c.curing), row(flipped))
	if now := c.ines.At(c.curing).Press(m, "v1:flip:3").WaitReply(); now.ID != m.ID || now.Text != "done" {
		t.Errorf("after the press: %+v", now)
	}
}

func TestMenu(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		return b.InteractionRespond(i, reply(strings.Join(i.MessageComponentData().Values, "+")))
	})
	m := post(t, bot, c.ines.At(c.curing), row(discordgo.SelectMenu{CustomID: "v1:flavour", Options: []discordgo.SelectMenuOption{
		{Label: "Juniper", Value: "j"}, {Label: "Honey", Value: "h"},
	}}))
	got := c.ines.At(c.curing).Pick(m, "v1:flavour", "Honey").WaitReply()
	if got.Text != "h" || got.ReplyTo != m.ID {
		t.Errorf("reply %+v", got)
	}
}

func form() *discordgo.InteractionResponse {
	return &discordgo.InteractionResponse{Type: discordgo.InteractionResponseModal, Data: &discordgo.InteractionResponseData{
		CustomID: "v1:reading", Title: "A reading", Components: []discordgo.MessageComponent{
			row(discordgo.TextInput{CustomID: "core", Label: "Core temperature", Style: discordgo.TextInputShort, Required: true, MaxLength: 10}),
			row(discordgo.TextInput{CustomID: "note", Label: "Note", Style: discordgo.TextInputParagraph, Value: "none"}),
		},
	}}
}

func TestFormFromAButton(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		if i.Type == discordgo.InteractionMessageComponent {
			return b.InteractionRespond(i, form())
		}
		text := ""
		for _, r := range i.ModalSubmitData().Components {
			text += r.(*discordgo.ActionsRow).Components[0].(*discordgo.TextInput).Value + " "
		}
		if i.Message == nil {
			t.Error("the submission does not carry the message the form came from")
		}
		return b.InteractionRespond(i, reply(text))
	})
	m := post(t, bot, c.ines.At(c.curing), row(flipped))
	f := c.ines.At(c.curing).Press(m, "Flipped").WaitForm()
	if f.Title != "A reading" || len(f.Fields) != 2 || !f.Fields[0].Required || f.Fields[1].Value != "none" || !f.Fields[1].Long {
		t.Errorf("form %+v", f)
	}
	if got := f.Submit(map[string]string{"Core temperature": "65 C"}).WaitReply(); got.Text != "65 C none" {
		t.Errorf("reply %q", got.Text)
	}
}

func TestFormKeepsItsRules(t *testing.T) {
	for want, values := range map[string]map[string]string{
		`"Core temperature" is required`: {"note": "x"},
		`it takes 0 to 10`:               {"core": "a long story"},
		`has no field "smoke"`:           {"core": "1", "smoke": "2"},
	} {
		j := judged(t, nil, func(s *discordtest.Server) {
			c := newClub(t, s)
			answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error { return b.InteractionRespond(i, form()) })
			c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg")).WaitForm().Submit(values)
		})
		if !strings.Contains(j.said(), want) {
			t.Errorf("said %q, want %q", j.said(), want)
		}
	}
}

// TestLabelledForm: the library does not know component 18, so a bot that wants
// it sends raw JSON and reads the submission raw.
func TestLabelledForm(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	raw := make(chan json.RawMessage, 4)
	bot.AddHandler(func(b *discordgo.Session, e *discordgo.Event) {
		if e.Type == "INTERACTION_CREATE" {
			raw <- e.RawData
		}
	})
	open(t, bot)
	register(t, s, bot, cureCommand)
	use := c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg"))
	<-raw
	url := discordgo.EndpointInteractionResponse(use.ID(), "token-"+use.ID())
	if _, err := bot.RequestWithBucketID("POST", url, map[string]any{"type": 9, "data": map[string]any{
		"custom_id": "v1:open", "title": "Open a batch", "components": []any{
			map[string]any{"type": 18, "label": "Weights", "component": map[string]any{"type": 4, "custom_id": "w", "style": 2}},
			map[string]any{"type": 18, "label": "Method", "component": map[string]any{"type": 3, "custom_id": "m", "options": []any{
				map[string]any{"label": "Dry", "value": "dry"}, map[string]any{"label": "Brine", "value": "brine"},
			}}},
		},
	}}, url); err != nil {
		t.Fatal(err)
	}
	use.WaitForm().Submit(map[string]string{"w": "2.1 kg", "Method": "dry"})
	var got struct {
		Data struct {
			Components []struct {
				Type      int
				Component struct {
					CustomID string `json:"custom_id"`
					Value    string
					Values   []string
				}
			}
		}
	}
	if err := json.Unmarshal(<-raw, &got); err != nil {
		t.Fatal(err)
	}
	parts := got.Data.Components
	if len(parts) != 2 || parts[0].Type != 18 || parts[0].Component.Value != "2.1 kg" || !slices.Equal(parts[1].Component.Values, []string{"dry"}) {
		t.Errorf("submission %+v", parts)
	}
}
