package telegram

import (
	"context"
	"sync"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

const (
	// ackAfter is how long a press may spin before it is answered without a word.
	ackAfter = 1500 * time.Millisecond
	// alertMost is the longest answer a press can show (Bot API,
	// answerCallbackQuery).
	alertMost = 200
)

// ack answers one press, once: with words if they come soon, else without.
type ack struct {
	a     *Adapter
	id    string
	once  sync.Once
	timer *time.Timer
}

func (a *Adapter) ack(id string) *ack {
	k := &ack{a: a, id: id}
	k.timer = time.AfterFunc(ackAfter, func() { k.send(context.Background(), "") })
	return k
}

// answer reports whether this was what the press was answered with, and the person
// has seen it.
func (k *ack) answer(ctx context.Context, text string) (shown bool) {
	k.timer.Stop()
	return k.send(ctx, text)
}

func (k *ack) send(ctx context.Context, text string) (shown bool) {
	k.once.Do(func() {
		params := map[string]string{"callback_query_id": k.id}
		if text != "" {
			params["text"], params["show_alert"] = text, "true"
		}
		err := k.a.api.callWithin(ctx, 10*time.Second, "answerCallbackQuery", params, nil)
		if err != nil && !saying(err, "query is too old") {
			k.a.Log.WarnContext(ctx, "a press could not be answered", "error", err)
		}
		shown = err == nil
	})
	return shown
}

// pressed answers a press of a button.
func (a *Adapter) pressed(ctx context.Context, event string, p place, q *tgbotapi.CallbackQuery, k *ack) error {
	defer k.answer(ctx, "")
	who := a.person(ctx, p, q.From)
	b, ok := a.button(ctx, q.Data)
	if !ok {
		var r reply.Reply
		r.Say("That button is from another version of me; nothing was changed. Type ", reply.Type("help"), " to see what I can do.")
		r.Private = true
		return a.afterPress(ctx, event, p, q, k, r)
	}
	if b.Ask {
		if form, ok := a.Bot.Form(b.Line); ok {
			k.answer(ctx, "")
			return a.ask(ctx, p, who, question{Event: event, Form: form, Version: b.Version, Answers: []string{}})
		}
	}
	r := a.Bot.Handle(ctx, bot.Message{Event: event, Conversation: p.address(), Direct: !p.group(), Sender: who, Press: &b})
	return a.afterPress(ctx, event, p, q, k, r)
}

// afterPress shows the answer to a press: to the presser alone where it is short
// and for them alone, in the pressed message where it replaces that, else as a new
// message.
func (a *Adapter) afterPress(ctx context.Context, event string, p place, q *tgbotapi.CallbackQuery, k *ack, r reply.Reply) error {
	if text := plain(r.Text()); r.Private && text != "" && units(text) <= alertMost && len(r.Buttons) == 0 && len(r.Files) == 0 {
		if k.answer(ctx, text) {
			return nil
		}
	}
	k.answer(ctx, "")
	if !r.Replace || q.Message == nil {
		return a.insist(ctx, p, event, r, 0)
	}
	t := target{id: q.Message.MessageID, media: len(q.Message.Photo) > 0 || q.Message.Document != nil}
	overtaken := false
	return a.bounded(ctx, p, func(p place) error {
		if !overtaken {
			err := a.change(ctx, p, t, r)
			if err == nil || failure(err).Kind != store.Refused {
				return err
			}
			// It is gone, too old, or cannot hold the answer: say it anew.
			overtaken = true
			a.strip(ctx, p, t)
		}
		_, err := a.post(ctx, p, event, r, 0)
		return err
	})
}
