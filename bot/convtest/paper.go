package convtest

import (
	"context"
	"fmt"
	"strings"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/bot/terminal"
	"larderhand/store"
)

// Paper is the plainest channel: replies as the terminal renders them.
type Paper struct {
	bot     *bot.Bot
	now     func() time.Time
	zone    *time.Location
	buttons []reply.Button // shown so far, oldest first
	seen    []string
	events  int
	place   string // empty: one place for all
	moved   string // what the addresses of groups end in since they were moved
	several bool   // more than one place was spoken in
	sent    int
}

// Places is as many as anyone names.
func (p *Paper) Places() int { return 2 }

// In moves to a group, or to everyone's own private chat.
func (p *Paper) In(place string) error {
	p.several = p.several || p.place != "" && p.place != place
	p.place = place
	return nil
}

// Attach hands the bot a file with what was typed.
func (p *Paper) Attach(ctx context.Context, who bot.Person, f reply.File, text string) (string, error) {
	return p.answer(ctx, bot.Message{Sender: who, Text: text, Files: []reply.File{f}}), nil
}

// Open takes up the bot.
func (p *Paper) Open(b *bot.Bot, now func() time.Time, zone *time.Location) {
	p.bot, p.now, p.zone = b, now, zone
}

// Say hands the bot what was typed.
func (p *Paper) Say(ctx context.Context, who bot.Person, text string) (string, error) {
	return p.answer(ctx, bot.Message{Sender: who, Text: text}), nil
}

// Press presses a button shown before.
func (p *Paper) Press(ctx context.Context, who bot.Person, label string, oldest bool) (string, error) {
	for i := range p.buttons {
		b := p.buttons[len(p.buttons)-1-i]
		if oldest {
			b = p.buttons[i]
		}
		if b.Label != label {
			continue
		}
		b, err := reply.ParseToken(b.Token())
		if err != nil {
			return "", fmt.Errorf("button %q: %w", label, err)
		}
		return p.answer(ctx, bot.Message{Sender: who, Press: &b}), nil
	}
	return "", fmt.Errorf("no button is labelled %q", label)
}

func (p *Paper) answer(ctx context.Context, m bot.Message) string {
	p.events++
	m.Event, m.Conversation, m.Direct = fmt.Sprintf("paper-%d", p.events), "paper:", true
	switch p.place {
	case "":
	case "private":
		m.Conversation = store.Address("paper:@" + m.Sender.Key)
	default:
		m.Conversation, m.Direct, m.Title = store.Address("paper:"+p.place+p.moved), false, p.place
	}
	r := p.bot.Handle(ctx, m)
	p.show(r)
	return terminal.Render(r, nil)
}

func (p *Paper) show(r reply.Reply) {
	for _, row := range r.Buttons {
		p.buttons = append(p.buttons, row...)
	}
}

// Send prints a ping with its local time.
func (p *Paper) Send(_ context.Context, to store.Address, _ string, r reply.Reply) (string, error) {
	p.show(r)
	p.sent++
	p.see(to, "", r)
	return fmt.Sprint(p.sent), nil
}

// Edit prints what a message is changed to.
func (p *Paper) Edit(_ context.Context, to store.Address, _ string, r reply.Reply) error {
	p.see(to, ", changed", r)
	return nil
}

// Remove prints that a message is gone.
func (p *Paper) Remove(_ context.Context, to store.Address, _ string) error {
	var r reply.Reply
	r.Say("(taken down)")
	p.see(to, "", r)
	return nil
}

func (p *Paper) see(to store.Address, what string, r reply.Reply) {
	where := ""
	if p.several {
		where = " " + strings.TrimPrefix(string(to), "paper:")
	}
	p.seen = append(p.seen, "["+p.now().In(p.zone).Format("Mon 2 Jan 15:04 MST")+where+what+"]\n"+terminal.Render(r, nil))
}

// Seen gives the pings since the last call.
func (p *Paper) Seen() []string {
	seen := p.seen
	p.seen = nil
	return seen
}
