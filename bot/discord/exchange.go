package discord

import (
	"context"
	"net/http"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot"
	"larderhand/bot/reply"
)

// Callback types of interactions/receiving-and-responding.mdx.
const (
	ackReply       = 4 // a message
	ackReplyLater  = 5 // a message that says it is coming
	ackUpdateLater = 6 // the pressed message may change later
	ackUpdate      = 7 // the pressed message changes
	ackChoices     = 8
	ackForm        = 9
)

// Discord wants a first answer within three seconds and takes more for fifteen
// minutes.
const (
	firstWithin = 2500 * time.Millisecond
	moreWithin  = 14 * time.Minute
)

// exchange is one interaction being answered. The first answer is given once,
// either with what is to be said or, when that takes too long, to say that it is
// coming.
type exchange struct {
	a       *Adapter
	i       *discordgo.Interaction
	line    string // what it asked, for turning pages
	pressed bool   // it comes from a message, which may be changed
	thread  string // a thread to point to

	attached []*discordgo.MessageAttachment

	mu    sync.Mutex
	given int // the callback given; 0 for none
	timer *time.Timer
}

// callback is a first answer.
type callback struct {
	Type int `json:"type"`
	Data any `json:"data,omitempty"`
}

// soon puts the answer off unless it is given within d.
func (x *exchange) soon(ctx context.Context, d time.Duration) {
	x.a.work.Add(1)
	x.timer = time.AfterFunc(d, func() {
		defer x.a.work.Done()
		ctx, stop := x.a.outlast(ctx)
		defer stop()
		x.mu.Lock()
		defer x.mu.Unlock()
		if x.given != 0 {
			return
		}
		kind := ackReplyLater
		if x.pressed {
			kind = ackUpdateLater
		}
		x.first(ctx, kind, nil, nil)
	})
}

func (x *exchange) inTime() {
	if x.timer != nil && x.timer.Stop() {
		x.a.work.Done()
	}
	x.timer = nil
}

// first gives the first answer; x.mu is held. An answer already acknowledged is one
// whose acknowledgement did not reach us.
func (x *exchange) first(ctx context.Context, kind int, data any, files []reply.File) bool {
	address := discordgo.EndpointInteractionResponse(x.i.ID, x.i.Token)
	err := x.a.retry(ctx, firstWithin, func() error {
		_, err := x.a.call.do(ctx, http.MethodPost, address, callback{kind, data}, uploads(files))
		return err
	})
	if e := status(err); e != nil && e.code == codeAcknowledged {
		err = nil
	}
	if err != nil {
		x.a.Log.WarnContext(ctx, "an interaction could not be answered", "error", err)
		return false
	}
	x.given = kind
	return true
}

// finish gives the answer: at once, or in place of the one that was put off.
func (x *exchange) finish(ctx context.Context, r reply.Reply) {
	if r.Replace && x.pressed {
		x.replace(ctx, x.inPlace(r))
		return
	}
	b := card(r, 0, pageRef{event: x.i.ID, line: x.line})
	b.pointing(x.thread)
	if b.empty() {
		b = card(private("Done."), 0, pageRef{})
	}
	x.inTime()
	x.mu.Lock()
	defer x.mu.Unlock()
	switch x.given {
	case 0:
		x.first(ctx, ackReply, b, b.files)
	case ackReplyLater:
		if r.Private {
			x.whisper(ctx, b)
			return
		}
		x.edit(ctx, b)
	default:
		x.followUp(ctx, b)
	}
}

// replace changes the pressed message.
func (x *exchange) replace(ctx context.Context, b body) {
	x.inTime()
	x.mu.Lock()
	defer x.mu.Unlock()
	b.Flags = 0 // what is visible to whom was settled when it was sent
	if x.given == 0 {
		x.first(ctx, ackUpdate, b, b.files)
		return
	}
	x.edit(ctx, b)
}

// whisper answers the asker alone where an answer for all was announced: that one
// says so and goes, since whom an announced answer is for cannot be changed.
func (x *exchange) whisper(ctx context.Context, b body) {
	said := newBody(nil)
	said.Content = "That is for one of you alone."
	if !x.edit(ctx, said) || !x.followUp(ctx, b) {
		return
	}
	address := discordgo.EndpointWebhookMessage(x.i.AppID, x.i.Token, "@original")
	if _, err := x.a.call.do(ctx, http.MethodDelete, address, nil, nil); err != nil {
		x.a.Log.InfoContext(ctx, "a note that an answer was private stays", "error", err)
	}
}

// edit fills the answer that was put off, or changes the pressed message.
func (x *exchange) edit(ctx context.Context, b body) bool {
	return x.later(ctx, http.MethodPatch, discordgo.EndpointWebhookMessage(x.i.AppID, x.i.Token, "@original"), b)
}

// followUp answers with another message.
func (x *exchange) followUp(ctx context.Context, b body) bool {
	return x.later(ctx, http.MethodPost, discordgo.EndpointWebhookToken(x.i.AppID, x.i.Token), b)
}

func (x *exchange) later(ctx context.Context, method, address string, b body) bool {
	err := x.a.retry(ctx, moreWithin, func() error {
		_, err := x.a.call.do(ctx, method, address, b, uploads(b.files))
		return err
	})
	if err != nil {
		x.a.Log.WarnContext(ctx, "the rest of an answer could not be given", "error", err)
	}
	return err == nil
}

// open shows a form.
func (x *exchange) open(ctx context.Context, m modal) {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.first(ctx, ackForm, m, nil)
}

// choice is one suggestion as it is sent.
type choice struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

func (x *exchange) choices(ctx context.Context, list []choice) {
	if list == nil {
		list = []choice{}
	}
	x.mu.Lock()
	defer x.mu.Unlock()
	x.first(ctx, ackChoices, map[string]any{"choices": list}, nil)
}

func choicesOf(list []bot.Suggestion) []choice {
	var out []choice
	for _, s := range list {
		if len([]rune(s.Value)) > 100 || s.Value == "" || len(out) == maxChoices {
			continue
		}
		out = append(out, choice{Name: clip(s.Label, 100), Value: s.Value})
	}
	return out
}

// aside says something to the asker alone, out of turn.
func (x *exchange) aside(ctx context.Context, in bot.Message, text string) {
	x.a.aside(ctx, in, func(ctx context.Context) { x.finish(ctx, private(text)) })
}
