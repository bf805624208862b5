package telegram

import (
	"context"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
)

// wanted are the kinds of update asked for. Posts in channels and edits are none of
// them.
const wanted = `["message","callback_query","my_chat_member"]`

// route says which conversation an update belongs to and what to do about it; nil
// is nothing. It runs in the order updates come in, so what must happen before the
// next update is looked at happens here: a move.
func (a *Adapter) route(ctx context.Context, u update) (place, func(context.Context) error) {
	id := event(u.UpdateID)
	switch {
	case u.Message != nil && u.Message.Chat != nil:
		return a.routeMessage(ctx, id, u.Message, u.newer.Message)
	case u.CallbackQuery != nil && u.CallbackQuery.From != nil:
		return a.routePress(id, u)
	case u.MyChatMember != nil:
		p := place{chat: u.MyChatMember.Chat.ID}
		return p, func(ctx context.Context) error { return a.standing(ctx, id, u.MyChatMember) }
	}
	return place{}, nil
}

func (a *Adapter) routeMessage(ctx context.Context, id string, m *tgbotapi.Message, n *newerMessage) (place, func(context.Context) error) {
	p := place{chat: m.Chat.ID, topic: n.topic()}
	switch {
	case m.MigrateToChatID != 0:
		a.move(ctx, m.Chat.ID, m.MigrateToChatID)
		return p, nil
	case m.MigrateFromChatID != 0:
		a.move(ctx, m.MigrateFromChatID, m.Chat.ID)
		return p, nil
	case n != nil && n.Reopened != nil:
		return p, func(ctx context.Context) error { a.topicOpened(ctx, a.resolve(p)); return nil }
	case n != nil && n.Created != nil:
		return p, func(ctx context.Context) error { return a.topicNamed(ctx, a.resolve(p), n.Created) }
	case n != nil && n.Edited != nil:
		return p, func(ctx context.Context) error { return a.topicNamed(ctx, a.resolve(p), n.Edited) }
	case m.Text == "" && m.Caption == "" && m.Document == nil && len(m.Photo) == 0:
		return p, nil
	}
	return p, func(ctx context.Context) error { return a.said(ctx, id, a.resolve(p), m, n) }
}

func (a *Adapter) routePress(id string, u update) (place, func(context.Context) error) {
	q := u.CallbackQuery
	k := a.ack(q.ID)
	if q.Message == nil || q.Message.Chat == nil {
		return place{chat: q.From.ID}, func(ctx context.Context) error {
			k.answer(ctx, "That button is too old to tell what it was about; nothing was changed.")
			return nil
		}
	}
	p := place{chat: q.Message.Chat.ID}
	if c := u.newer.CallbackQuery; c != nil {
		p.topic = c.Message.topic()
	}
	return p, func(ctx context.Context) error { return a.pressed(ctx, id, a.resolve(p), q, k) }
}
