package discord

import (
	"strconv"
	"strings"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot"
	"larderhand/bot/reply"
)

// formMark begins the id of a form, before the token of the button that opened it.
const formMark = "M1:"

// maxFields is how many inputs a form holds.
const maxFields = 5

// modal is a form as it is sent.
type modal struct {
	CustomID   string `json:"custom_id"`
	Title      string `json:"title"`
	Components []row  `json:"components"`
}

// form makes a form of a button's line. What it is to be filled into, and the
// version of the batch, go with it, so that nothing has to be remembered.
func form(b reply.Button, f bot.Form) (modal, bool) {
	m := modal{CustomID: formMark + b.Token(), Title: clip(f.Title, 45)}
	for i, field := range f.Fields {
		if i == maxFields {
			break
		}
		style, most := styleShort, maxText
		if field.Long {
			style, most = styleParent, 4000
		}
		required := !field.Optional
		m.Components = append(m.Components, row{typeRow, []component{{Type: typeInput, Style: style, CustomID: strconv.Itoa(i),
			Label: clip(field.Name, 45), Placeholder: clip(field.Example, 100), Required: &required, MaxLength: most}}})
	}
	return m, fitsID(m.CustomID) && len(m.Components) > 0
}

// filledIn gives the answers of a form that was sent in, in the order of its fields.
func filledIn(data discordgo.ModalSubmitInteractionData, f bot.Form) []string {
	answers := make([]string, len(f.Fields))
	for _, c := range data.Components {
		r, ok := c.(*discordgo.ActionsRow)
		if !ok {
			continue
		}
		for _, in := range r.Components {
			t, ok := in.(*discordgo.TextInput)
			if !ok {
				continue
			}
			if i, err := strconv.Atoi(t.CustomID); err == nil && i >= 0 && i < len(answers) {
				answers[i] = unprefixed(strings.TrimSpace(t.Value), f.Fields[i].Prefix)
			}
		}
	}
	return answers
}
