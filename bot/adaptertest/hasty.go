package adaptertest

import (
	"context"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

// Hasty is a sender whose first try may take no longer than Within, as a scheduler
// gives each no longer than it has.
type Hasty struct {
	bot.Sender
	Within time.Duration
	GaveUp func() // called once, when the first try has failed
	Tries  []Try
}

// Try is what came of sending something under a key.
type Try struct {
	Key string
	Err error
}

// Send sends, the first time with a deadline.
func (h *Hasty) Send(ctx context.Context, to store.Address, key string, r reply.Reply) (string, error) {
	first := len(h.Tries) == 0
	if first {
		var cancel func()
		ctx, cancel = context.WithTimeout(ctx, h.Within)
		defer cancel()
	}
	ref, err := h.Sender.Send(ctx, to, key, r)
	h.Tries = append(h.Tries, Try{key, err})
	if first && err != nil {
		h.GaveUp()
	}
	return ref, err
}
