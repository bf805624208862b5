package discordtest_test

import (
	"bytes"
	"image"
	"image/png"
	"io"
	"net/http"
	"slices"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

func TestMessageAsAPersonSeesIt(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	var pic bytes.Buffer
	if err := png.Encode(&pic, image.NewGray(image.Rect(0, 0, 3, 2))); err != nil {
		t.Fatal(err)
	}
	sent, err := bot.ChannelMessageSendComplex(c.curing.ID, &discordgo.MessageSend{
		Content: "Hello " + c.ines.Mention() + " in " + c.curing.Mention(),
		Embeds: []*discordgo.MessageEmbed{{
			Title: "Batch 3", Description: "Day 4 of 9", Footer: &discordgo.MessageEmbedFooter{Text: "estimate"},
			Fields: []*discordgo.MessageEmbedField{{Name: "Weight", Value: "2,100 g"}},
			Image:  &discordgo.MessageEmbedImage{URL: "attachment://smoke.png"},
		}},
		Files:           []*discordgo.File{{Name: "smoke.png", ContentType: "image/png", Reader: &pic}},
		AllowedMentions: &discordgo.MessageAllowedMentions{Users: []string{c.ines.ID}},
	})
	if err != nil {
		t.Fatal(err)
	}
	m := c.tobias.At(c.curing).WaitText("Batch 3")
	if want := "Hello @Ines in #curing\nBatch 3\nDay 4 of 9\nWeight: 2,100 g\nestimate"; m.Text != want {
		t.Errorf("text %q, want %q", m.Text, want)
	}
	if !slices.Equal(m.Pings, []string{"Ines"}) || len(m.Attachments) != 1 || m.Attachments[0].Name != "smoke.png" {
		t.Errorf("message %+v", m)
	}
	a := sent.Attachments[0]
	if a.Width != 3 || a.Height != 2 || sent.Embeds[0].Image.URL != a.URL {
		t.Errorf("attachment %+v, embed image %+v", a, sent.Embeds[0].Image)
	}
	resp, err := http.Get(a.URL)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	if data, _ := io.ReadAll(resp.Body); !bytes.Equal(data, m.Attachments[0].Data) {
		t.Error("the attachment's address does not serve the file")
	}
}

// The pings follow resources/message.mdx, "Allowed Mentions Object", and its
// examples.
func TestPings(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	flippers := c.guild.AddRole("flippers", 0)
	text := "@everyone " + c.ines.Mention() + " " + c.tobias.Mention() + " <@&" + flippers.ID + ">"
	for name, tc := range map[string]struct {
		allow       *discordgo.MessageAllowedMentions
		loud        bool
		mentionable bool
		want        []string
	}{
		"none":                {quiet(), true, true, nil},
		"one user":            {&discordgo.MessageAllowedMentions{Users: []string{c.tobias.ID}}, true, true, []string{"Tobias"}},
		"all users":           {&discordgo.MessageAllowedMentions{Parse: []discordgo.AllowedMentionType{"users"}}, false, false, []string{"Ines", "Tobias"}},
		"role, not permitted": {&discordgo.MessageAllowedMentions{Roles: []string{flippers.ID}}, false, false, nil},
		"role, permitted":     {&discordgo.MessageAllowedMentions{Roles: []string{flippers.ID}}, true, false, []string{"flippers"}},
		"everyone, permitted": {&discordgo.MessageAllowedMentions{Parse: []discordgo.AllowedMentionType{"everyone"}}, true, false, []string{"everyone"}},
		"everyone, forbidden": {&discordgo.MessageAllowedMentions{Parse: []discordgo.AllowedMentionType{"everyone"}}, false, false, nil},
	} {
		perms := discordtest.Permissions(0)
		if tc.loud {
			perms = discordtest.MentionEveryone
		}
		c.guild.BotRole().Set(perms)
		sent, err := newBot(t, s).ChannelMessageSendComplex(c.curing.ID, &discordgo.MessageSend{Content: text, AllowedMentions: tc.allow})
		if err != nil {
			t.Fatal(err)
		}
		seen := c.ines.At(c.curing).Messages()
		if m := seen[len(seen)-1]; m.ID != sent.ID || !slices.Equal(m.Pings, tc.want) {
			t.Errorf("%s: pings %v, want %v", name, m.Pings, tc.want)
		}
	}
}

// resources/message.mdx, "Create Message", enforce_nonce: a repeat within the
// past few minutes gives the first message.
func TestNonceIsEnforced(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	send := func(nonce string) {
		url := discordgo.EndpointChannelMessages(c.curing.ID)
		if _, err := bot.RequestWithBucketID("POST", url, map[string]any{
			"content": "flip", "nonce": nonce, "enforce_nonce": true, "allowed_mentions": map[string]any{"parse": []string{}},
		}, url); err != nil {
			t.Fatal(err)
		}
	}
	send("a")
	send("a")
	send("b")
	if n := len(c.ines.At(c.curing).Messages()); n != 2 {
		t.Errorf("%d messages, want 2", n)
	}
	s.Clock().Advance(10 * time.Minute)
	send("a")
	if n := len(c.ines.At(c.curing).Messages()); n != 3 {
		t.Errorf("%d messages ten minutes later, want 3", n)
	}
}

func TestEditGetDelete(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	open(t, bot)
	ines := c.ines.At(c.curing)
	m := post(t, bot, ines, row(flipped))
	text := "changed"
	edit := discordgo.NewMessageEdit(c.curing.ID, m.ID)
	edit.Content, edit.AllowedMentions = &text, quiet()
	if _, err := bot.ChannelMessageEditComplex(edit); err != nil {
		t.Fatal(err)
	}
	if now := ines.WaitEdit(m); now.Text != "changed" || len(now.Buttons) != 1 {
		t.Errorf("after the edit %+v", now)
	}
	got, err := bot.ChannelMessage(c.curing.ID, m.ID)
	if err != nil || got.Content != "changed" || got.EditedTimestamp == nil {
		t.Errorf("read back %+v, %v", got, err)
	}
	if err := bot.ChannelMessageDelete(c.curing.ID, m.ID); err != nil {
		t.Fatal(err)
	}
	if _, ok := ines.Reload(m); ok {
		t.Error("the message is still shown")
	}
	if _, err := bot.ChannelMessage(c.curing.ID, m.ID); restCode(err) != 10008 {
		t.Errorf("error %v, want 10008", err)
	}
	if err := bot.ChannelMessageDelete(c.curing.ID, ines.Say("mine").ID); restCode(err) != 50013 {
		t.Errorf("deleting another's message: %v, want 50013", err)
	}
}

// What a bot without the message content intent reads (events/gateway.mdx,
// "Message Content Intent").
func TestContentWithoutTheIntent(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	got := make(chan *discordgo.MessageCreate, 4)
	bot.AddHandler(func(_ *discordgo.Session, m *discordgo.MessageCreate) { got <- m })
	open(t, bot)
	c.ines.At(c.curing).Say("just between us")
	if m := <-got; m.Content != "" || m.GuildID != c.guild.ID || m.Member == nil {
		t.Errorf("unmentioned: %q", m.Content)
	}
	c.ines.At(c.curing).Tell("flip 3")
	if m := <-got; m.Content != s.Bot().Mention()+" flip 3" || len(m.Mentions) != 1 {
		t.Errorf("mentioned: %q", m.Content)
	}
	c.ines.DM().Say("flip 3", discordtest.File{Name: "r.txt", Data: []byte("salt")})
	if m := <-got; m.Content != "flip 3" || m.GuildID != "" || len(m.Attachments) != 1 {
		t.Errorf("direct: %+v", m.Message)
	}
}

func TestDirectMessages(t *testing.T) {
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	ch, err := bot.UserChannelCreate(c.ines.ID)
	if err != nil {
		t.Fatal(err)
	}
	send := func() error {
		_, err := bot.ChannelMessageSendComplex(ch.ID, &discordgo.MessageSend{Content: "hello", AllowedMentions: quiet()})
		return err
	}
	if err := send(); err != nil {
		t.Fatal(err)
	}
	if m := c.ines.DM().WaitText("hello"); m.ChannelID != ch.ID {
		t.Errorf("message %+v", m)
	}
	c.ines.CloseDMs()
	if err := send(); restCode(err) != 50007 {
		t.Errorf("closed: %v, want 50007", err)
	}
	c.ines.OpenDMs()
	c.guild.Leave(c.ines)
	if err := send(); restCode(err) != 50007 {
		t.Errorf("no guild shared: %v, want 50007", err)
	}
}
