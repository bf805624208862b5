package bot

import (
	"context"
	"fmt"
	"time"

	"larderhand/store"
)

// replanAtOnce is how many batches are planned anew in one transaction, so that
// whoever wants to say something meanwhile waits for a moment only.
const replanAtOnce = 100

// ReplanAll plans every running batch anew: after the clock was set back, so that
// what was said on the wrong clock hides nothing, or when the rules of zones
// changed, so that a ping hour is what it is called. It changes nothing that is
// right already and may be called again after a failure.
func (b *Bot) ReplanAll(ctx context.Context, now time.Time) error {
	for after, more := int64(0), true; more; {
		if err := ctx.Err(); err != nil {
			return err
		}
		err := b.Ledger.Update(ctx, now, func(tx Tx) error {
			list, err := tx.RunningBatches(after, replanAtOnce)
			more = len(list) == replanAtOnce
			if err != nil {
				return err
			}
			convs := map[int64]store.Conversation{}
			for _, batch := range list {
				after = batch.ID
				if err := b.replanOne(tx, convs, batch); err != nil {
					return fmt.Errorf("plan batch %d anew: %w", batch.ID, err)
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// replanOne plans one batch anew; convs keeps the conversations met so far.
func (b *Bot) replanOne(tx Tx, convs map[int64]store.Conversation, batch store.Batch) error {
	conv, ok := convs[batch.Conversation]
	if !ok {
		var err error
		if conv, err = tx.ConversationByID(batch.Conversation); err != nil {
			return err
		}
		convs[conv.ID] = conv
	}
	_, err := replan(tx, conv, b.location(conv.Settings), batch)
	return err
}
