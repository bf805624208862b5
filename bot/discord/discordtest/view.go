package discordtest

import (
	"encoding/json"
	"fmt"
	"strings"
)

// Message is a message as a person sees it at one moment.
type Message struct {
	ID        string
	ChannelID string
	Author    string
	Content   string // as sent
	// Text is everything readable, mentions by name: the content, then each
	// embed's author, title, description, fields and footer, a line each.
	// Timestamps such as <t:1770000000:R> stay as they are.
	Text        string
	Embeds      []map[string]any
	Buttons     []Button
	Menus       []Menu
	Attachments []File
	Ephemeral   bool     // only the reader sees it
	Loading     bool     // the bot "is thinking"
	Silent      bool     // no push notification
	Pings       []string // names of people and roles notified
	// AllowedMentions is the request's object, nil when it had none.
	AllowedMentions map[string]any
	ReplyTo         string // id of the message it answers
	Nonce           string
	Edits           int
	Raw             json.RawMessage // as the API gives it
}

// Button is a button of a message.
type Button struct {
	Row      int
	Label    string
	CustomID string
	Style    int
	Emoji    string
	URL      string
	Disabled bool
}

// Menu is a select menu of a message.
type Menu struct {
	CustomID    string
	Placeholder string
	Values      []string
	Labels      []string
	Min, Max    int
	Disabled    bool
}

func (m *message) view() Message {
	s := m.channel.s
	v := Message{
		ID: m.id, ChannelID: m.channel.ID, Author: m.author.Name, Content: m.content,
		Ephemeral: m.onlyFor != nil, Loading: m.loading(), Silent: m.flags&flagSilent != 0,
		Pings: m.mentions.names(), AllowedMentions: object(m.allowed), Edits: m.edits,
	}
	lines := []string{m.content}
	lines = append(lines, displayedText(m.parts)...)
	for _, e := range m.shownEmbeds() {
		v.Embeds = append(v.Embeds, object(e))
		lines = append(lines, embedText(object(e))...)
	}
	v.Text = s.readable(m.channel, joinNonEmpty(lines))
	for _, f := range m.files {
		v.Attachments = append(v.Attachments, f.File)
	}
	v.Buttons, v.Menus = controls(m.parts)
	if m.replyTo != nil {
		v.ReplyTo = m.replyTo.id
	}
	if m.nonce != nil {
		v.Nonce = fmt.Sprint(m.nonce)
	}
	v.Raw, _ = json.Marshal(m.json())
	return v
}

// embedText reads an embed from top to bottom.
func embedText(e obj) []string {
	lines := []string{text(object(e["author"])["name"]), text(e["title"]), text(e["description"])}
	for _, f := range list(e["fields"]) {
		f := object(f)
		lines = append(lines, text(f["name"])+": "+text(f["value"]))
	}
	return append(lines, text(object(e["footer"])["text"]))
}

func joinNonEmpty(lines []string) string {
	var kept []string
	for _, l := range lines {
		if l != "" {
			kept = append(kept, l)
		}
	}
	return strings.Join(kept, "\n")
}

func controls(parts []any) (buttons []Button, menus []Menu) {
	row := -1
	eachComponent(parts, func(o obj) {
		switch number(o["type"]) {
		case actionRow, section:
			row++
		case button:
			buttons = append(buttons, Button{
				Row: max(row, 0), Label: text(o["label"]), CustomID: text(o["custom_id"]), Style: number(o["style"]),
				Emoji: text(object(o["emoji"])["name"]), URL: text(o["url"]), Disabled: truth(o["disabled"]),
			})
		case stringSelect, userSelect, roleSelect, mentionableSelect, channelSelect:
			menu := Menu{
				CustomID: text(o["custom_id"]), Placeholder: text(o["placeholder"]),
				Min: number(o["min_values"]), Max: number(o["max_values"]), Disabled: truth(o["disabled"]),
			}
			for _, opt := range list(o["options"]) {
				menu.Values = append(menu.Values, text(object(opt)["value"]))
				menu.Labels = append(menu.Labels, text(object(opt)["label"]))
			}
			menus = append(menus, menu)
		}
	})
	return buttons, menus
}

// Labels lists the labels of a message's buttons, left to right, top to bottom.
func (m Message) Labels() []string {
	var out []string
	for _, b := range m.Buttons {
		out = append(out, b.Label)
	}
	return out
}
