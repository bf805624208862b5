package discord

import (
	"context"
	"regexp"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot"
	"larderhand/bot/reply"
)

// message takes in something typed: in private, or with a mention of the bot.
func (a *Adapter) message(ctx context.Context, s *discordgo.Session, m *discordgo.Message) {
	if m.Author == nil || m.Author.Bot || m.WebhookID != "" || s.State.User == nil ||
		m.Type != discordgo.MessageTypeDefault && m.Type != discordgo.MessageTypeReply {
		return
	}
	text, meant := spoken(m, s.State.User.ID)
	if !meant || !a.recent.first(m.ID) {
		return
	}
	at := Address(m.ChannelID)
	in := bot.Message{Event: scheme + m.ID, Conversation: at, Direct: m.GuildID == "", Places: m.GuildID != "", Sender: writer(s, m), Text: text, At: a.Now()}
	in.Title, in.Server = titleOf(s, m.ChannelID)
	attached := m.Attachments
	a.put(ctx, m.ID, at, func(ctx context.Context) {
		r, thread := a.settle(ctx, in, a.handle(ctx, in, attached))
		a.say(ctx, in, r, thread)
	}, func() {})
}

var mention = regexp.MustCompile(`<@!?(\d+)>|<#\d+>|<a?:(\w+):\d+>`)

// spoken is what a message says to the bot; meant is false if it is not for it.
func spoken(m *discordgo.Message, self string) (text string, meant bool) {
	meant = m.GuildID == ""
	names := map[string]string{}
	for _, u := range m.Mentions {
		if u == nil {
			continue
		}
		meant = meant || u.ID == self
		names[u.ID] = u.DisplayName()
	}
	text = mention.ReplaceAllStringFunc(m.Content, func(s string) string {
		sub := mention.FindStringSubmatch(s)
		switch {
		case sub[1] == self && self != "":
			return ""
		case sub[1] != "" && names[sub[1]] != "":
			return "@" + names[sub[1]]
		case sub[2] != "":
			return ":" + sub[2] + ":"
		}
		return s
	})
	text = strings.TrimSpace(text)
	if text == "" && len(m.Attachments) == 0 && m.GuildID == "" {
		text = "help" // a sticker, or the like
	}
	return text, meant
}

// say answers something typed, in order with what else is said there. Nobody else
// can be kept from reading it.
func (a *Adapter) say(ctx context.Context, in bot.Message, r reply.Reply, thread string) {
	list := plain(r)
	if len(list) > 0 {
		list[len(list)-1].pointing(thread)
	}
	err := a.retry(ctx, 10*time.Minute, func() error {
		_, err := a.postAll(ctx, channelOf(in.Conversation), in.Event, list)
		return err
	})
	if err != nil {
		a.Log.WarnContext(ctx, "an answer could not be sent", "conversation", string(in.Conversation), "error", err)
	}
}
