package discord_test

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"larderhand/bot"
	"larderhand/bot/discord/discordtest"
	"larderhand/bot/reply"
)

// What follows reads what a talk brought up as the terminal would show it.

// plain reads ordinary messages, all of one reply.
func (c *talk) plain(list []discordtest.Message) string {
	var texts []string
	var last discordtest.Message
	for _, m := range list {
		c.told = append(c.told, m)
		texts, last = append(texts, c.read(m.Content, m)), m
	}
	return c.whole(strings.Join(texts, "\n\n"), last, last.Buttons)
}

// card reads what came of a command or a press, and all pages of it.
func (c *talk) card(seat *discordtest.Seat, use *discordtest.Use) string {
	m := use.WaitReply()
	c.told = append(c.told, m)
	shown := m.Buttons
	if m.Content != "" && len(m.Embeds) > 0 && len(m.AllowedMentions["parse"].([]any)) == 0 && m.Edits > 0 {
		// What a ping says of other batches stays above, and their buttons below.
		shown = shown[:min(len(shown), c.spy.buttons())]
	}
	text := c.read(described(m), m)
	for page := m; ; {
		i := slices.IndexFunc(page.Buttons, func(b discordtest.Button) bool { return strings.HasSuffix(b.Label, "▶") })
		if i < 0 {
			break
		}
		next := seat.PressStale(page, page.Buttons[i].Label)
		c.run.until(c.tb, next.ID())
		page = next.WaitReply()
		text += "\n\n" + c.read(described(page), page)
	}
	return c.whole(text, m, shown)
}

// described is the text on a message's card.
func described(m discordtest.Message) string {
	if len(m.Embeds) == 0 {
		return m.Content
	}
	d, _ := m.Embeds[len(m.Embeds)-1]["description"].(string)
	return d
}

// whole adds files and buttons as the terminal shows them.
func (c *talk) whole(text string, m discordtest.Message, buttons []discordtest.Button) string {
	text, said := c.captions(text, m)
	out := []string{text}
	for i, f := range m.Attachments {
		if said[i] != "" {
			out = append(out, said[i])
		}
		kind := "file"
		if f.Type == "image/png" || f.Type == "image/jpeg" {
			kind = "picture"
		}
		out = append(out, fmt.Sprintf("(%s %s, %d KB)", kind, f.Name, (len(f.Data)+1023)/1024))
	}
	var press []string
	for _, b := range buttons {
		t, err := reply.ParseToken(b.CustomID)
		if err != nil {
			continue
		}
		if t.Ask {
			t.Line += " …"
		}
		press = append(press, fmt.Sprintf("[%s: %s]", strings.TrimSuffix(b.Label, ofServer), t.Line))
	}
	if len(press) > 0 {
		out = append(out, strings.Join(press, " "))
	}
	return strings.Join(out, "\n\n")
}

// read takes the markup out, with instants as the talk's zone has them and code as
// the terminal shows it.
func (c *talk) read(source string, m discordtest.Message) string {
	for _, p := range []*discordtest.Person{c.club.ines, c.club.tobias, c.club.marit} {
		source = strings.ReplaceAll(source, p.Mention(), p.Name)
	}
	r := read(source, func(at time.Time, style string) string {
		if style == "t" {
			return at.In(c.zone).Format("15:04")
		}
		return at.In(c.zone).Format("Mon 2 Jan 15:04")
	})
	return strings.TrimSpace(strings.ReplaceAll(r.tickedText, ofServer, ""))
}

// captions takes what stands under a text for its files off again: one for each file,
// "" where none does.
func (c *talk) captions(text string, m discordtest.Message) (string, []string) {
	if len(m.Attachments) == 0 {
		return text, nil
	}
	var raw struct {
		Attachments []struct {
			Description string `json:"description"`
		} `json:"attachments"`
	}
	if err := json.Unmarshal(m.Raw, &raw); err != nil {
		c.tb.Error(err)
	}
	said := make([]string, len(m.Attachments))
	for i := len(raw.Attachments) - 1; i >= 0; i-- {
		d := raw.Attachments[i].Description
		if rest, ok := strings.CutSuffix(text, "\n\n"+d); ok && d != "" {
			text, said[i] = rest, d
		}
	}
	return text, said
}

// spy remembers how many buttons the last answer had of its own.
type spy struct {
	*bot.Bot
	mu sync.Mutex
	n  int
}

func (s *spy) Handle(ctx context.Context, m bot.Message) reply.Reply {
	r := s.Bot.Handle(ctx, m)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.n = 0
	for _, row := range r.Buttons {
		s.n += len(row)
	}
	return r
}

func (s *spy) buttons() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.n
}
