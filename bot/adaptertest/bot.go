package adaptertest

import (
	"context"
	"sync"

	"larderhand/bot"
	"larderhand/bot/reply"
)

// Bot stands behind the adapter: it answers what a test told it to and remembers
// what it was asked.
type Bot struct {
	mu     sync.Mutex
	got    []bot.Message
	answer func(bot.Message) reply.Reply
}

// On sets how messages are answered from here on.
func (b *Bot) On(answer func(bot.Message) reply.Reply) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.answer = answer
}

// Handle answers a message.
func (b *Bot) Handle(_ context.Context, m bot.Message) reply.Reply {
	b.mu.Lock()
	answer := b.answer
	b.got = append(b.got, m)
	b.mu.Unlock()
	if answer != nil {
		return answer(m)
	}
	var r reply.Reply
	r.Say("heard ", m.Text)
	return r
}

// Got lists the messages so far.
func (b *Bot) Got() []bot.Message {
	b.mu.Lock()
	defer b.mu.Unlock()
	return append([]bot.Message(nil), b.got...)
}

// Commands is a small table, one of each sort an adapter treats differently.
func (b *Bot) Commands() []bot.Command {
	return []bot.Command{
		{Name: "weigh", Group: "Weigh", Form: "weigh 5 lb", Help: "write a weight down", Example: "weigh 5 lb", Fields: fields},
		{Name: "look", Group: "Look", Form: "look / look 3", Help: "see where things stand", Example: "look 3", Reads: true},
		{Name: "welcome", Group: "Help", Form: "welcome", Help: "what this is", Example: "welcome", Reads: true},
	}
}

var fields = []bot.Field{
	{Name: "Weight", Example: "5 lb"},
	{Name: "Flavouring", Prefix: "with", Example: "juniper", Optional: true},
	{Name: "Since when", Prefix: "from", Example: "yesterday", Optional: true},
}

// Form is the form of the line "weigh".
func (b *Bot) Form(line string) (bot.Form, bool) {
	if line != "weigh" && line != "weigh 3" {
		return bot.Form{}, false
	}
	return bot.Form{Title: "Write a weight down", Line: line, Fields: fields}, true
}

// line is what a message asks for, typed or pressed.
func line(m bot.Message) string {
	if m.Press != nil {
		return m.Press.Line
	}
	return m.Text
}
