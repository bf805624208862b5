package bot

import (
	"context"
	"errors"
	"fmt"
	"time"

	"larderhand/bot/course"
	"larderhand/scheduler/safely"
	"larderhand/store"
)

// replanAtOnce is how many batches are looked at in one reading.
const replanAtOnce = 100

// ReplanAll plans every running batch anew: after the clock was set back, so that
// what was said on the wrong clock hides nothing, or when the rules of zones
// changed, so that a ping hour is what it is called. It changes nothing that is
// right already and may be called again after a failure.
//
// Batches are looked at in readings, which keep nobody from writing, and those that
// are not right are planned one at a time, so that whoever wants to say something
// meanwhile waits for a moment only. A batch that cannot be planned is logged and
// left; it is an error only if it was the store that failed, or if none could be.
func (b *Bot) ReplanAll(ctx context.Context, now time.Time) error {
	right, bad := 0, error(nil)
	for after, more := int64(0), true; more; {
		if err := ctx.Err(); err != nil {
			return err
		}
		var list, wrong []int64
		err := b.Ledger.View(ctx, now, func(tx Tx) error {
			var err error
			if list, err = tx.RunningBatches(after, replanAtOnce); err != nil {
				return err
			}
			for _, id := range list {
				if ok, err := b.asPlanned(tx, id); err != nil || !ok { // what is the matter shows again in planning
					wrong = append(wrong, id)
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
		for _, id := range wrong {
			err := b.Ledger.Update(ctx, now, func(tx Tx) error { return b.replanByID(tx, id) })
			var broken *store.Broken
			switch {
			case err == nil:
			case ctx.Err() != nil || errors.As(err, &broken):
				return err
			default:
				b.Log.ErrorContext(ctx, "a batch could not be planned anew", "batch", id, "error", err)
				bad = fmt.Errorf("plan batch %d anew: %w", id, err)
				right--
			}
		}
		right += len(list)
		if more = len(list) == replanAtOnce; more {
			after = list[len(list)-1]
		}
	}
	if right > 0 {
		return nil
	}
	return bad
}

// asPlanned says that planning a batch anew would change nothing. A batch that is gone
// is right.
func (b *Bot) asPlanned(tx Tx, id int64) (ok bool, err error) {
	err = planning(id, func() error {
		list, err := tx.Folders([]int64{id})
		ok = len(list) == 0 || b.leaf(list[0], tx.Now()).right()
		return err
	})
	return ok, err
}

// replanByID plans a batch anew, and has its cards brought up to date if that changed
// anything. A batch that is gone is right.
func (b *Bot) replanByID(tx Tx, id int64) error {
	return planning(id, func() error {
		list, err := tx.Folders([]int64{id})
		if err != nil || len(list) == 0 {
			return err
		}
		return b.refile(tx, list[0])
	})
}

// replanTogether plans batches anew as replanByID does one, reading them all at once.
// One that cannot be planned is logged and left.
func (b *Bot) replanTogether(ctx context.Context, tx Tx, ids []int64) error {
	folders, err := tx.Folders(ids)
	if err != nil {
		return err
	}
	for _, f := range folders {
		err := planning(f.Batch.ID, func() error { return b.refile(tx, f) })
		if safely.Panicked(err) {
			b.Log.ErrorContext(ctx, "what comes next in a batch could not be planned", "batch", f.Batch.ID, "error", err)
			continue
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// refile makes a batch what its folder says it ought to be.
func (b *Bot) refile(tx Tx, f store.Folder) error {
	p := b.leaf(f, tx.Now())
	if p.right() {
		return nil
	}
	if err := p.write(tx); err != nil || !f.Shown {
		return err
	}
	return touchCards(tx, p.state)
}

// leaf is look where all there is to read has been read.
func (b *Bot) leaf(f store.Folder, now time.Time) planned {
	return leaf(f, b.location(f.Conversation.Settings), now)
}

// planning does something about a batch. Where its journal says more than the program
// can make sense of, the panic is an error: that is nobody else's trouble.
func planning(batch int64, do func() error) error {
	return safely.Do(fmt.Sprintf("planning batch %d", batch), do)
}

// planned is a batch with what it ought to have.
type planned struct {
	conv  int64
	row   store.Batch // as it is kept
	state course.State
	said  []store.Chore
	wants []store.Want
}

// look reads a batch and works out what it ought to have; it changes nothing.
func look(tx Tx, conv store.Conversation, loc *time.Location, b store.Batch) (planned, error) {
	f := store.Folder{Batch: b, Conversation: conv}
	var err error
	if f.Entries, err = tx.Entries(b.ID); err != nil {
		return planned{}, err
	}
	if f.Chores, err = tx.Chores(b.ID); err != nil {
		return planned{}, err
	}
	return leaf(f, loc, tx.Now()), nil
}

// leaf works out what a batch ought to have from all that is kept about it.
func leaf(f store.Folder, loc *time.Location, now time.Time) planned {
	p := planned{conv: f.Conversation.ID, row: f.Batch, state: course.Fold(f.Batch, f.Entries), said: f.Chores}
	p.wants = course.Wants(p.state, rhythm(f.Conversation.Settings, loc, now), p.said)
	return p
}

// rowRight says that the batch's row is what its journal says.
func (p planned) rowRight() bool {
	return p.row.Stage == string(p.state.Stage()) && p.row.Version == p.state.Version
}

// right says that there is nothing to write.
func (p planned) right() bool { return p.rowRight() && store.AsWanted(p.said, p.wants) }

// write makes the batch's row and its chores what they ought to be.
func (p *planned) write(tx Tx) error {
	if !p.rowRight() {
		p.row.Stage, p.row.Version = string(p.state.Stage()), p.state.Version
		p.state.Batch.Stage, p.state.Batch.Version = p.row.Stage, p.row.Version
		if err := tx.SaveBatch(p.row); err != nil {
			return err
		}
	}
	return tx.Reconcile(p.conv, p.row.ID, p.said, p.wants)
}

// replan makes a batch's row and its chores what its journal says, and has its cards
// brought up to date. It ends every change, in the change's own transaction.
func replan(tx Tx, conv store.Conversation, loc *time.Location, b store.Batch) (course.State, error) {
	p, err := look(tx, conv, loc, b)
	if err != nil {
		return p.state, err
	}
	if err := p.write(tx); err != nil {
		return p.state, err
	}
	return p.state, touchCards(tx, p.state)
}
