package store

import (
	"context"
	"errors"
	"time"
)

// The functions here open a transaction each; the scheduler calls them.

// Claim takes up what is due; see Tx.Claim.
func (db *DB) Claim(ctx context.Context, now time.Time, lease string, until time.Time, limit int) (out []Chore, err error) {
	err = db.Update(ctx, now, func(tx *Tx) error {
		out, err = tx.Claim(lease, until, limit)
		return err
	})
	return out, err
}

// Retry puts claimed chores back until next.
func (db *DB) Retry(ctx context.Context, now time.Time, chores []Chore, next time.Time, cause string) error {
	return db.Update(ctx, now, func(tx *Tx) error {
		for _, c := range chores {
			if err := tx.MarkRetry(c, next, cause); err != nil {
				return err
			}
		}
		return nil
	})
}

// GiveUp ends claimed chores that will never be taken.
func (db *DB) GiveUp(ctx context.Context, now time.Time, chores []Chore, cause string) error {
	return db.Update(ctx, now, func(tx *Tx) error {
		for _, c := range chores {
			if err := tx.MarkGivenUp(c, cause); err != nil {
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

// NextDue is when the next chore is to be taken up; see Tx.NextDue.
func (db *DB) NextDue(ctx context.Context) (at time.Time, ok bool, err error) {
	err = db.View(ctx, time.Time{}, func(tx *Tx) error {
		at, ok, err = tx.NextDue()
		return err
	})
	return at, ok, err
}

// Move gives a conversation its new address. If it is there already nothing
// changes; if another conversation has begun there, its settings give way and its
// batches keep their place under numbers of their own.
func (t *Tx) Move(conversation int64, to Address) error {
	there, err := t.Conversation(to)
	if errors.Is(err, ErrNotFound) {
		_, err := t.exec("UPDATE conversation SET address = ? WHERE id = ?", string(to), conversation)
		return err
	}
	if err != nil || there.ID == conversation {
		return err
	}
	return t.merge(there.ID, conversation, to)
}

// merge moves what began at the new address into the conversation that moves
// there.
func (t *Tx) merge(from, into int64, at Address) error {
	batches, err := t.Batches(from, true)
	if err != nil {
		return err
	}
	if _, err := t.exec("UPDATE member SET conversation_id = ?1 WHERE conversation_id = ?2 AND key NOT IN (SELECT key FROM member WHERE conversation_id = ?1)", into, from); err != nil {
		return err
	}
	for _, b := range batches {
		var number int
		if err := t.one("UPDATE conversation SET next_batch = next_batch + 1 WHERE id = ? RETURNING next_batch - 1", []any{into}, &number); err != nil {
			return err
		}
		if _, err := t.exec("UPDATE batch SET conversation_id = ?, number = ?, keeper_id = (SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = keeper_id AND m.conversation_id = ?) WHERE id = ?",
			into, number, into, b.ID); err != nil {
			return err
		}
		if _, err := t.exec(`UPDATE entry SET member_id = (SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = member_id AND m.conversation_id = ?)
			WHERE batch_id = ?`, into, b.ID); err != nil {
			return err
		}
		if _, err := t.exec("UPDATE chore SET conversation_id = ? WHERE batch_id = ?", into, b.ID); err != nil {
			return err
		}
	}
	if _, err := t.exec("UPDATE OR IGNORE chore SET conversation_id = ? WHERE conversation_id = ?", into, from); err != nil {
		return err
	}
	if _, err := t.exec("DELETE FROM conversation WHERE id = ?", from); err != nil {
		return err
	}
	_, err = t.exec("UPDATE conversation SET address = ? WHERE id = ?", string(at), into)
	return err
}
