package discord

import (
	"context"
	"time"

	"larderhand/store"
)

// mostWait is how long the gateway's reader waits for a place in a conversation's
// queue. Longer and it would hold up every other conversation.
const mostWait = 50 * time.Millisecond

// put queues work for a conversation, in the order things came in. Where the
// queue is full it calls full instead.
func (a *Adapter) put(ctx context.Context, event string, at store.Address, do func(context.Context), full func()) {
	soon, stop := context.WithTimeout(ctx, mostWait)
	defer stop()
	err := a.inbox.Put(soon, at, func(ctx context.Context) {
		defer a.finished(event)
		a.guard("what is in the queue", func() { do(ctx) })
	})
	if err != nil {
		a.Log.Warn("too much at once in one conversation; something was turned away", "conversation", string(at), "error", err)
		full()
		a.finished(event)
	}
}

func (a *Adapter) finished(event string) {
	if a.Handled != nil {
		a.Handled(event)
	}
}
