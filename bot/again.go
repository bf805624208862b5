package bot

import (
	"context"

	"larderhand/bot/reply"
)

// Again gives once more what an event was answered, and changes nothing: what was
// kept of the answer, or, for a line that only reads, the answer as it is now. It
// is what paging through a long answer uses. ok is false where neither is to be
// had.
func (b *Bot) Again(ctx context.Context, m Message) (r reply.Reply, ok bool) {
	if m.At.IsZero() {
		m.At = b.Clock.Now()
	}
	err := b.Ledger.View(ctx, m.At, func(tx Tx) error {
		var err error
		r, err = b.recall(tx, m)
		return err
	})
	if err == nil {
		return r, true
	}
	if cmd, _, found := b.find(m.Text); !found || !cmd.Reads {
		return r, false
	}
	m.Event = ""
	return b.Handle(ctx, m), true
}
