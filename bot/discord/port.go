package discord

import (
	"context"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

// Bot answers messages.
type Bot interface {
	Handle(ctx context.Context, m bot.Message) reply.Reply
	Form(line string) (bot.Form, bool)
	Commands() []bot.Command
}

// Suggester offers what may be meant while an option is being typed. A Bot that is
// none offers nothing.
type Suggester interface {
	Suggest(ctx context.Context, at store.Address, what bot.Suggestable, typed string) []bot.Suggestion
}

// Repeater gives an answer once more, so that its pages can be turned; see
// bot.Bot's Again. Without it pages cannot be turned.
type Repeater interface {
	Again(ctx context.Context, m bot.Message) (reply.Reply, bool)
}

// Keep holds small facts over restarts. Get gives store.ErrNotFound for one that is
// not there; Put keeps all of its facts or none.
type Keep interface {
	Get(ctx context.Context, name string) (string, error)
	Put(ctx context.Context, facts ...store.Fact) error
}
