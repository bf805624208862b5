package store

import (
	"fmt"
	"time"
)

// The urgencies of a chore. Urgent ones are claimed before all others.
const (
	Routine = 0
	Soon    = 1
	Urgent  = 2
)

const open = "state IN ('due', 'retry', 'claimed')"

// Reconcile makes the open chores of a batch those that are wanted: missing ones
// are added, moved ones get their new time, the rest is dropped. A chore already
// sent or given up stays as it is, so wanting it again says nothing twice.
func (t *Tx) Reconcile(conversation, batch int64, wants []Want) error {
	keep := map[[3]string]bool{}
	for _, w := range wants {
		keep[[3]string{w.Piece, w.Kind, w.Slot}] = true
		if err := t.want(conversation, batch, w); err != nil {
			return err
		}
	}
	var drop []int64
	err := t.each(func(scan func(...any) error) error {
		var (
			id                int64
			piece, kind, slot string
		)
		if err := scan(&id, &piece, &kind, &slot); err != nil {
			return err
		}
		if !keep[[3]string{piece, kind, slot}] {
			drop = append(drop, id)
		}
		return nil
	}, "SELECT id, piece, kind, slot FROM chore WHERE batch_id = ? AND state IN ('due', 'retry', 'claimed', 'parked')", batch)
	if err != nil {
		return err
	}
	for _, id := range drop {
		if _, err := t.exec("UPDATE chore SET state = 'dropped', lease = '' WHERE id = ?", id); err != nil {
			return err
		}
	}
	return nil
}

// want plants one chore. A claimed one keeps its lease: whoever holds it looks at
// the batch as it is then.
func (t *Tx) want(conversation, batch int64, w Want) error {
	_, err := t.exec(`INSERT INTO chore (conversation_id, batch_id, piece, kind, slot, due_at, try_at, urgency, state)
		VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?6, ?7, CASE (SELECT parked FROM conversation WHERE id = ?1) WHEN '' THEN 'due' ELSE 'parked' END)
		ON CONFLICT (conversation_id, batch_id, piece, kind, slot) DO UPDATE
		SET due_at = excluded.due_at, try_at = excluded.try_at, urgency = excluded.urgency, state = excluded.state
		WHERE state = 'dropped' OR (state IN ('due', 'retry', 'parked') AND (due_at <> excluded.due_at OR urgency <> excluded.urgency))`,
		conversation, batch, w.Piece, w.Kind, w.Slot, toMillis(w.Due), w.Urgency)
	return err
}

// Enqueue plants a message of the conversation as a whole; the same kind and slot
// is planted once.
func (t *Tx) Enqueue(conversation int64, kind, slot, body string, due time.Time, urgency int) error {
	_, err := t.exec(`INSERT INTO chore (conversation_id, kind, slot, body, due_at, try_at, urgency)
		VALUES (?1, ?2, ?3, ?4, ?5, ?5, ?6) ON CONFLICT DO NOTHING`,
		conversation, kind, slot, body, toMillis(due), urgency)
	return err
}

const choreColumns = "id, conversation_id, batch_id, piece, kind, slot, due_at, urgency, body, attempts, state, sent_at, lease"

func scanChore(scan func(...any) error) (Chore, error) {
	var (
		c         Chore
		due, sent int64
	)
	err := scan(&c.ID, &c.Conversation, &c.Batch, &c.Piece, &c.Kind, &c.Slot, &due, &c.Urgency, &c.Body,
		&c.Attempts, &c.State, &sent, &c.Lease)
	c.Due, c.Sent = fromMillis(due), fromMillis(sent)
	return c, err
}

// Claim takes what is due for whoever holds lease, most urgent first, about limit
// rows, and gives it up again by itself at until. A conversation's due chores are
// claimed together, so that they make one message.
func (t *Tx) Claim(lease string, until time.Time, limit int) ([]Chore, error) {
	for _, urgency := range []int{Urgent, Soon, Routine} {
		res, err := t.exec(`UPDATE chore SET state = 'claimed', lease = ?1, try_at = ?2, attempts = attempts + 1
			WHERE id IN (SELECT id FROM chore WHERE `+open+` AND urgency = ?3 AND try_at <= ?4 ORDER BY try_at LIMIT ?5)`,
			lease, toMillis(until), urgency, toMillis(t.now), limit)
		if err != nil {
			return nil, err
		}
		n, err := res.RowsAffected()
		if err != nil {
			return nil, err
		}
		if n == 0 {
			continue
		}
		_, err = t.exec(`UPDATE chore SET state = 'claimed', lease = ?1, try_at = ?2, attempts = attempts + 1
			WHERE `+open+` AND try_at <= ?3 AND conversation_id IN
			(SELECT DISTINCT conversation_id FROM chore WHERE `+open+` AND urgency = ?4 AND try_at = ?2 AND lease = ?1)`,
			lease, toMillis(until), toMillis(t.now), urgency)
		if err != nil {
			return nil, err
		}
		return t.leased(lease, until)
	}
	return nil, nil
}

func (t *Tx) leased(lease string, until time.Time) ([]Chore, error) {
	var out []Chore
	for _, urgency := range []int{Urgent, Soon, Routine} {
		err := t.each(func(scan func(...any) error) error {
			c, err := scanChore(scan)
			out = append(out, c)
			return err
		}, "SELECT "+choreColumns+" FROM chore WHERE "+open+` AND urgency = ? AND try_at = ? AND lease = ?
			ORDER BY conversation_id, due_at, id`, urgency, toMillis(until), lease)
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// MarkSent records that a claimed chore was said. If the lease has passed to
// someone else, or the chore was dropped meanwhile, nothing changes.
func (t *Tx) MarkSent(c Chore) error {
	_, err := t.exec("UPDATE chore SET state = 'sent', sent_at = ?, lease = '', last_error = '' WHERE id = ? AND lease = ?",
		toMillis(t.now), c.ID, c.Lease)
	return err
}

// MarkDropped records that a claimed chore no longer needs saying.
func (t *Tx) MarkDropped(c Chore) error {
	_, err := t.exec("UPDATE chore SET state = 'dropped', lease = '' WHERE id = ? AND lease = ?", c.ID, c.Lease)
	return err
}

// MarkRetry puts a claimed chore back until next, with what went wrong.
func (t *Tx) MarkRetry(c Chore, next time.Time, cause string) error {
	_, err := t.exec("UPDATE chore SET state = 'retry', try_at = ?, lease = '', last_error = ? WHERE id = ? AND lease = ?",
		toMillis(next), cause, c.ID, c.Lease)
	return err
}

// MarkGivenUp records that a claimed chore will not be tried again.
func (t *Tx) MarkGivenUp(c Chore, cause string) error {
	_, err := t.exec("UPDATE chore SET state = 'given up', lease = '', last_error = ? WHERE id = ? AND lease = ?",
		cause, c.ID, c.Lease)
	return err
}

// Park stops deliveries to a conversation that cannot be reached and keeps what
// is due there. Unpark takes them up again.
func (t *Tx) Park(conversation int64, why string) error {
	if _, err := t.exec("UPDATE conversation SET parked = ? WHERE id = ?", why, conversation); err != nil {
		return err
	}
	_, err := t.exec("UPDATE chore SET state = 'parked', lease = '', last_error = ? WHERE conversation_id = ? AND "+open,
		why, conversation)
	return err
}

// Unpark lets a conversation's chores be delivered again.
func (t *Tx) Unpark(conversation int64) error {
	if _, err := t.exec("UPDATE conversation SET parked = '' WHERE id = ?", conversation); err != nil {
		return err
	}
	_, err := t.exec("UPDATE chore SET state = 'due', try_at = due_at WHERE conversation_id = ? AND state = 'parked'", conversation)
	return err
}

// NextDue is the instant at which the next chore is to be taken up; ok is false
// if none is open.
func (t *Tx) NextDue() (at time.Time, ok bool, err error) {
	for _, urgency := range []int{Urgent, Soon, Routine} {
		var ms *int64
		if err := t.one("SELECT MIN(try_at) FROM chore WHERE "+open+" AND urgency = ?", []any{urgency}, &ms); err != nil {
			return at, false, fmt.Errorf("next due: %w", err)
		}
		if ms != nil && (!ok || fromMillis(*ms).Before(at)) {
			at, ok = fromMillis(*ms), true
		}
	}
	return at, ok, nil
}

// Chores lists the chores a batch has or had, in the order they were due.
func (t *Tx) Chores(batch int64) ([]Chore, error) {
	var out []Chore
	err := t.each(func(scan func(...any) error) error {
		c, err := scanChore(scan)
		out = append(out, c)
		return err
	}, "SELECT "+choreColumns+" FROM chore WHERE batch_id = ? ORDER BY due_at, id", batch)
	return out, err
}
