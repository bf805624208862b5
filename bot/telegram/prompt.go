package telegram

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

// question is a form being filled in step by step, one message for each field. It
// is kept in the store, so that a restart does not lose the thread.
type question struct {
	Event   string // what brought it here: coming again, it is asked again
	Form    bot.Form
	Version int
	Answers []string
	To      int // the message answered, so that only its sender is prompted
	Prompt  int // the message that asks
	At      time.Time
}

// questionKept is how long an answer is waited for. After that a text means what it
// says.
const questionKept = time.Hour

const placeholderMost = 64 // Bot API, ForceReply

// What a person can say instead of an answer.
var (
	skipWords   = []string{"-", "skip", "/skip"}
	cancelWords = []string{"cancel", "/cancel", "stop", "/stop"}
)

func (a *Adapter) questionName(p place, who bot.Person) string {
	return a.fact("ask", key(p.chat)+":"+who.Key)
}

// ask puts the next question of a form, or runs the line when there is none left.
func (a *Adapter) ask(ctx context.Context, p place, who bot.Person, q question) error {
	f := q.Form.Fields[len(q.Answers)]
	r := reply.Reply{Mentions: []string{who.Key}}
	if len(q.Answers) == 0 {
		r.Say(reply.B(q.Form.Title))
	}
	ask := []any{f.Name + "? Such as ", reply.Span{Text: f.Example, Style: reply.Bold}, "."}
	if p.group() && q.To == 0 { // only whoever is named is prompted
		ask = append([]any{reply.Who(who.Key, who.Name), ": "}, ask...)
	}
	r.Say(ask...)
	if len(f.Choices) > 0 {
		r.Say("One of: ", strings.Join(f.Choices, ", "), ".")
	}
	if f.Optional {
		r.Say(reply.Type("-"), " leaves it out, ", reply.Type("cancel"), " ends this.")
	} else {
		r.Say(reply.Type("cancel"), " ends this.")
	}
	msg := first(pack(a.style(p).render(r), textMost))
	markup, err := json.Marshal(tgbotapi.ForceReply{ForceReply: true, Selective: true, InputFieldPlaceholder: clip(plain(f.Example), placeholderMost)})
	if err != nil {
		return err
	}
	extra := map[string]string{}
	if q.To != 0 {
		extra["reply_parameters"] = fmt.Sprintf(`{"message_id":%d,"allow_sending_without_reply":true}`, q.To)
	}
	return a.bounded(ctx, p, func(p place) error {
		sent, err := a.sendPart(ctx, p, part{msg: msg, markup: string(markup)}, extra)
		if err != nil {
			return a.topicTrouble(ctx, p, err)
		}
		q.Prompt, q.At = sent.id, a.Now()
		body, err := json.Marshal(q)
		if err != nil {
			return err
		}
		return a.Keep.Put(ctx, store.Fact{Name: a.questionName(p, who), Value: string(body)})
	})
}

// prompted takes a message as the answer to a question, if it is one: in a private
// chat whatever comes next, in a group only an answer to the question's own message.
// A command ends the questions.
func (a *Adapter) prompted(ctx context.Context, event string, p place, who bot.Person, m *tgbotapi.Message, n *newerMessage) (done bool, err error) {
	name := a.questionName(p, who)
	body, err := a.Keep.Get(ctx, name)
	if err != nil {
		if !errors.Is(err, store.ErrNotFound) {
			a.Log.WarnContext(ctx, "could not look up a question", "error", err)
		}
		return false, nil
	}
	var q question
	if err := json.Unmarshal([]byte(body), &q); err != nil || len(q.Form.Fields) == 0 || a.Now().Sub(q.At) > questionKept {
		return false, a.Keep.Drop(ctx, name)
	}
	text := strings.TrimSpace(m.Text)
	word := strings.ToLower(strings.TrimSuffix(text, "@"+a.name()))
	answer := m.ReplyToMessage != nil && m.ReplyToMessage.MessageID == q.Prompt
	if first, _, _ := strings.Cut(word, " "); !answer && !p.group() {
		_, command := a.words()[first]
		answer = !command || slices.Contains(skipWords, word)
	}
	if q.Event == event { // the answer was taken, the next question may not have been put
		return true, a.ask(ctx, p, who, q)
	}
	switch {
	case !answer && p.group():
		return false, nil
	case !answer:
		return false, a.Keep.Drop(ctx, name)
	case slices.Contains(cancelWords, word):
		var r reply.Reply
		r.Say("Left as it was.")
		return true, errors.Join(a.insist(ctx, p, event, r, a.answers(p, m)), a.Keep.Drop(ctx, name))
	case text == "" || strings.HasPrefix(text, "/") && !slices.Contains(skipWords, word):
		return false, a.Keep.Drop(ctx, name)
	}
	if slices.Contains(skipWords, word) {
		if text = ""; !q.Form.Fields[len(q.Answers)].Optional {
			return true, a.ask(ctx, p, who, q) // needed after all
		}
	}
	q.Event, q.Answers, q.To = event, append(q.Answers, text), a.answers(p, m)
	if len(q.Answers) < len(q.Form.Fields) {
		return true, a.ask(ctx, p, who, q)
	}
	in := a.message(ctx, event, p, m, n)
	in.Sender, in.Text = who, q.Form.Fill(q.Answers)
	if q.Version != 0 {
		in.Press = &reply.Button{Line: in.Text, Version: q.Version}
	}
	r := a.Bot.Handle(ctx, in)
	// First the answer, then the question goes: the other way round a crash between
	// the two would take this text for a line of its own.
	if err := a.insist(ctx, p, event, r, a.answers(p, m)); err != nil {
		return true, err
	}
	return true, a.Keep.Drop(ctx, name)
}
