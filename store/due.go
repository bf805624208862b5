package store

import (
	"context"
	"time"
)

// The functions here open a transaction each; the scheduler calls them.

// Claim takes up what is due in a lane; see Tx.Claim.
func (db *DB) Claim(ctx context.Context, now time.Time, lane, lease string, until time.Time, limit int) (out []Chore, err error) {
	err = db.Update(ctx, now, func(tx *Tx) error {
		out, err = tx.Claim(lane, lease, until, limit)
		return err
	})
	return out, err
}

// Upcoming is when each lane has something to be taken up next; see Tx.Upcoming.
func (db *DB) Upcoming(ctx context.Context) (out map[string]time.Time, err error) {
	err = db.View(ctx, time.Time{}, func(tx *Tx) error {
		out, err = tx.Upcoming()
		return err
	})
	return out, err
}

// Release puts claimed chores back until next as if they had not been taken up.
func (db *DB) Release(ctx context.Context, now time.Time, chores []Chore, next time.Time) error {
	return db.eachChore(ctx, now, chores, func(tx *Tx, c Chore) error { return tx.Release(c, next) })
}

// Retry puts claimed chores back until next after a failure; see Tx.MarkRetry.
func (db *DB) Retry(ctx context.Context, now time.Time, chores []Chore, next time.Time, cause string, unsaid bool) error {
	return db.eachChore(ctx, now, chores, func(tx *Tx, c Chore) error { return tx.MarkRetry(c, next, cause, unsaid) })
}

func (db *DB) eachChore(ctx context.Context, now time.Time, chores []Chore, do func(*Tx, Chore) error) error {
	return db.Update(ctx, now, func(tx *Tx) error {
		for _, c := range chores {
			if err := do(tx, c); err != nil {
				return err
			}
		}
		return nil
	})
}

// Park holds a conversation's chores back until it speaks again.
func (db *DB) Park(ctx context.Context, now time.Time, conversation int64, why string) error {
	return db.Update(ctx, now, func(tx *Tx) error { return tx.Park(conversation, why) })
}

// Move gives a conversation its new address.
func (db *DB) Move(ctx context.Context, now time.Time, conversation int64, to Address) error {
	return db.Update(ctx, now, func(tx *Tx) error { return tx.Move(conversation, to) })
}
