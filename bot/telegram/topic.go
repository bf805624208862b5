package telegram

import (
	"context"
	"errors"
	"strings"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot"
	"larderhand/store"
)

// named holds what a service message says a topic is called.
type named struct {
	Name string `json:"name"`
}

// topicNamed keeps what a topic is called from now on: what people share goes by that.
func (a *Adapter) topicNamed(ctx context.Context, p place, as *named) error {
	name := strings.TrimSpace(plain(as.Name))
	if p.topic == 0 || name == "" { // only the icon was changed
		return nil
	}
	return a.Keep.Put(ctx, store.Fact{Name: a.topicName(p), Value: name})
}

func (a *Adapter) topicName(p place) string { return a.fact("topic", string(p.address())) }

// message is something said in a place, with what the place is called. A topic goes by
// its own name in its group. Messages that answer no other name the topic too (from
// memory), though not as it may be called by now; where nothing told it, it is empty.
func (a *Adapter) message(ctx context.Context, event string, p place, m *tgbotapi.Message, n *newerMessage) bot.Message {
	in := bot.Message{Event: event, Conversation: p.address(), Direct: !p.group(), Title: titleOf(m.Chat), At: a.when(m.Date)}
	if p.topic == 0 || in.Direct {
		return in
	}
	in.Title, in.Server = "", in.Title
	name, err := a.Keep.Get(ctx, a.topicName(p))
	switch {
	case err == nil:
		in.Title = name
	case !errors.Is(err, store.ErrNotFound):
		a.Log.WarnContext(ctx, "could not look up what a topic is called", "conversation", p.address(), "error", err)
	case n != nil && n.Answers != nil && n.Answers.Created != nil:
		in.Title = strings.TrimSpace(plain(n.Answers.Created.Name))
	}
	return in
}
