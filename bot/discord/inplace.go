package discord

import (
	"strconv"
	"strings"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
)

// inPlace renders an answer that changes the pressed message. A ping may speak of
// several batches; what it says of the others, and their buttons, stay.
func (x *exchange) inPlace(r reply.Reply) body {
	b := card(r, 0, pageRef{event: x.i.ID, line: x.line})
	m := x.i.Message
	if m == nil {
		return b
	}
	keep := x.others(m)
	if len(keep) == 0 || len(m.Embeds) >= 9 {
		return b
	}
	b.Content = unanswered(m.Content, b)
	sum := 0
	for _, e := range m.Embeds {
		sum += size(e.Description)
	}
	if sum+cardText < 6000 {
		b.Embeds = append(m.Embeds, b.Embeds...)
	}
	b.Components = joined(b.Components, keep)
	return b
}

// joined puts rows above others, as many as fit, no button twice.
func joined(first, then []row) []row {
	seen := map[string]bool{}
	var out []row
	for _, r := range append(first[:len(first):len(first)], then...) {
		kept := row{Type: typeRow}
		for _, c := range r.Components {
			if !seen[c.CustomID] {
				seen[c.CustomID] = true
				kept.Components = append(kept.Components, c)
			}
		}
		if len(kept.Components) > 0 && len(out) < maxRows {
			out = append(out, kept)
		}
	}
	return out
}

// unanswered takes out of a ping the paragraph that an answer begins like: the one
// about what has been dealt with.
func unanswered(content string, b body) string {
	if len(b.Embeds) == 0 || lead(b.Embeds[0].Description) == "" {
		return content
	}
	var kept []string
	for _, p := range strings.Split(content, "\n\n") {
		if lead(p) != lead(b.Embeds[0].Description) {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, "\n\n")
}

// lead is the bold text a paragraph begins with; "" if it begins otherwise.
func lead(s string) string {
	rest, ok := strings.CutPrefix(s, "**")
	if !ok {
		return ""
	}
	bold, _, _ := strings.Cut(rest, "**")
	return bold
}

// others are the rows of a message that hold buttons of other batches than the
// pressed one's, and the rows for all; none if there is no other batch.
func (x *exchange) others(m *discordgo.Message) []row {
	mine := x.batchOf(x.line)
	var (
		out  []row
		more bool
	)
	for _, c := range m.Components {
		var r row
		r.Type = typeRow
		about := ""
		for _, p := range inner(c) {
			b, ok := p.(*discordgo.Button)
			if !ok || strings.HasPrefix(b.CustomID, pageMark) {
				continue
			}
			t, err := reply.ParseToken(b.CustomID)
			if err != nil {
				continue
			}
			if n := x.batchOf(t.Line); n != "" {
				about = n
			}
			r.Components = append(r.Components, component{Type: typeButton, Style: int(b.Style), Label: b.Label, CustomID: b.CustomID})
		}
		if len(r.Components) == 0 || about != "" && about == mine {
			continue
		}
		more = more || about != ""
		out = append(out, r)
	}
	if mine == "" || !more {
		return nil
	}
	return out
}

func inner(c discordgo.MessageComponent) []discordgo.MessageComponent {
	if r, ok := c.(*discordgo.ActionsRow); ok {
		return r.Components
	}
	return nil
}

// batchOf is the number of the batch a button's line is about; "" if it is about
// none or all.
func (x *exchange) batchOf(line string) string {
	word, rest, _ := strings.Cut(line, " ")
	c, ok := x.a.command(word)
	if !ok || !c.Batch {
		return ""
	}
	ref, _, ok, err := parse.Batch(rest)
	if err != nil || !ok {
		return ""
	}
	return strconv.Itoa(ref.Number)
}
