package discord

import (
	"slices"
	"strings"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/reply"
)

// Two ways to show a reply: plainly, as what is said unasked and what answers
// something typed, in as many messages as it takes; and on a card, as what answers
// a command or a button, in one message whose further pages buttons turn to.

// plain renders a reply as ordinary messages: the text in as many as it takes, the
// buttons and files with the last.
func plain(r reply.Reply) []body {
	rows, left := buttons(r.Buttons, maxRows)
	texts := pages(append(withNames(parts(r, maxContent), r), typed(left)...), maxContent, maxContent)
	if len(texts) == 0 && len(r.Files) == 0 {
		return nil
	}
	out := make([]body, max(1, len(texts)))
	for i := range out {
		out[i] = newBody(r.Mentions)
		if i < len(texts) {
			out[i].Content = texts[i]
		}
		if r.Silent {
			out[i].Flags |= flagSilent
		}
	}
	last := &out[len(out)-1]
	last.Components = append(last.Components, rows...)
	last.attach(r.Files)
	return out
}

// Colours of a card's edge: cured belly, and the amber of a word of caution.
const (
	colourPlain   = 0x9c4a3c
	colourPrivate = 0xd9a441
)

// The measure of a card: what a screen holds.
const (
	cardText  = 3500
	cardLines = 40
)

// card renders page n, from 0, of a reply as one message. more is the reference
// that the buttons to turn pages carry.
func card(r reply.Reply, n int, more pageRef) body {
	b := newBody(r.Mentions)
	rows, left := buttons(r.Buttons, maxRows-1)
	texts := pages(append(parts(r, cardText), typed(left)...), cardText, cardLines)
	n = max(0, min(n, len(texts)-1))
	embed := &discordgo.MessageEmbed{Color: colourPlain}
	if r.Private {
		b.Flags, embed.Color = flagEphemeral, colourPrivate
	}
	if len(texts) > 0 {
		embed.Description = texts[n]
		b.Content = names(b.Mentions.Users, "")
	}
	b.attach(r.Files)
	if i := slices.IndexFunc(b.files, reply.File.Picture); i >= 0 {
		embed.Image = &discordgo.MessageEmbedImage{URL: "attachment://" + b.files[i].Name}
	}
	if embed.Description != "" || embed.Image != nil {
		b.Embeds = append(b.Embeds, embed)
	}
	b.Components = append(b.Components, rows...)
	if len(texts) > 1 {
		b.Components = append(b.Components, more.row(n, len(texts)))
	}
	return b
}

// withNames puts those who are to be pinged at the top if no line names them.
func withNames(list []part, r reply.Reply) []part {
	var text strings.Builder
	for _, p := range list {
		if !p.table {
			text.WriteString(p.text)
		}
	}
	missing := names(newBody(r.Mentions).Mentions.Users, text.String())
	if missing == "" || len(list) == 0 {
		return list
	}
	return append([]part{{text: missing}}, list...)
}

// names lists mentions that a text does not hold.
func names(users []string, text string) string {
	var list []string
	for _, u := range users {
		if m := "<@" + u + ">"; !strings.Contains(text, m) {
			list = append(list, m)
		}
	}
	return strings.Join(list, " ")
}
