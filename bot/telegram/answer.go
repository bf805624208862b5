package telegram

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/cenkalti/backoff/v5"
	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

var errTooLarge = errors.New("the file is too large")

// said answers a message.
func (a *Adapter) said(ctx context.Context, event string, p place, m *tgbotapi.Message, n *newerMessage) error {
	who, ok := a.speaker(ctx, p, m, n)
	if !ok {
		return nil
	}
	done, err := a.prompted(ctx, event, p, who, m, n)
	if done {
		return err
	}
	if err != nil { // it is still there, and would take the next message for its answer
		a.Log.ErrorContext(ctx, "a question could not be dropped", "conversation", p.address(), "error", err)
	}
	req, ok := a.read(p, m)
	called := p.group() && m.Text != "" // by name, and nothing said
	if !ok || req.line == "" && !called && m.Document == nil && len(m.Photo) == 0 {
		return nil // for someone else, or a sticker and the like
	}
	if req.command != nil && req.bare && !req.command.Whole() {
		if form, ok := a.Bot.Form(req.line); ok {
			return a.ask(ctx, p, who, question{Event: event, Form: form, Answers: []string{}, To: m.MessageID})
		}
	}
	in := a.message(ctx, event, p, m, n)
	in.Sender, in.Text = who, req.line
	files, err := a.attached(ctx, m)
	if err != nil {
		return a.insist(ctx, p, event, a.noFile(ctx, err), a.answers(p, m))
	}
	in.Files = files
	return a.insist(ctx, p, event, a.Bot.Handle(ctx, in), a.answers(p, m))
}

// answers is the message a reply is shown as the answer to: in a group, so that
// everyone sees who asked.
func (a *Adapter) answers(p place, m *tgbotapi.Message) int {
	if !p.group() {
		return 0
	}
	return m.MessageID
}

func (a *Adapter) noFile(ctx context.Context, err error) reply.Reply {
	var r reply.Reply
	if errors.Is(err, errTooLarge) {
		r.Say(fmt.Sprintf("That file is too large for me; I read up to %d MB.", bot.MostFile>>20))
		return r
	}
	a.Log.WarnContext(ctx, "a file could not be fetched", "error", err)
	r.Say("I could not fetch that file. Please send it again.")
	return r
}

// Bounds of delivering an answer to someone who waits for it.
const (
	insistFor   = 3 * time.Minute
	insistTries = 8
)

// insist delivers an answer, waiting as the platform asks within a bound, so that
// it is not lost. A group that moved is followed. What cannot be delivered in the
// end is logged; the error is only that ctx ended before that was clear.
func (a *Adapter) insist(ctx context.Context, p place, event string, r reply.Reply, answers int) error {
	return a.bounded(ctx, p, func(p place) error {
		_, err := a.post(ctx, p, event, r, answers)
		return err
	})
}

func (a *Adapter) bounded(ctx context.Context, p place, try func(place) error) error {
	policy := backoff.NewExponentialBackOff()
	policy.InitialInterval, policy.MaxInterval = 300*time.Millisecond, 20*time.Second
	_, err := backoff.Retry(ctx, func() (struct{}, error) {
		err := try(a.resolve(p))
		if err == nil {
			return struct{}{}, nil
		}
		f := failure(err)
		switch f.Kind {
		case store.Wait:
			return struct{}{}, &backoff.RetryAfterError{Duration: f.After}
		case store.Moved:
			to, perr := parseAddress(f.To)
			if perr != nil {
				return struct{}{}, backoff.Permanent(f)
			}
			if to.chat != p.chat {
				a.move(ctx, p.chat, to.chat)
			} else {
				if merr := a.Places.MoveChat(ctx, a.Now(), p.address(), f.To); merr != nil {
					return struct{}{}, merr
				}
				p = to
			}
			return struct{}{}, &backoff.RetryAfterError{}
		case store.Gone, store.Refused:
			return struct{}{}, backoff.Permanent(f)
		}
		return struct{}{}, f
	}, backoff.WithBackOff(policy), backoff.WithMaxElapsedTime(insistFor), backoff.WithMaxTries(insistTries))
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err == nil {
		return nil
	}
	var f *store.Failure
	if errors.As(err, &f) && f.Kind == store.Gone {
		a.park(ctx, p.address(), f.Error())
	}
	a.Log.ErrorContext(ctx, "an answer could not be delivered", "conversation", p.address(), "error", err)
	return nil
}
