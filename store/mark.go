package store

import "time"

const (
	sentQuery   = "UPDATE chore SET state = 'sent', sent_at = ?, lease = '', last_error = '' WHERE id = ? AND state <> 'sent'"
	parkQuery   = "UPDATE chore SET state = 'parked', lease = '', message = '', last_error = ? WHERE conversation_id = ? AND sent_at = 0 AND " + open
	unparkQuery = "UPDATE chore SET state = 'due', try_at = due_at WHERE conversation_id = ? AND sent_at = 0 AND state = 'parked'"
)

// MarkSent records that a chore was said. It was, whoever holds the lease by now
// and even if it was dropped meanwhile.
func (t *Tx) MarkSent(c Chore) error {
	_, err := t.exec(sentQuery, toMillis(t.now), c.ID)
	return err
}

// The marks below change nothing if the lease has passed to someone else or the
// chore was dropped meanwhile.

// MarkDropped records that a claimed chore no longer needs saying.
func (t *Tx) MarkDropped(c Chore) error {
	_, err := t.exec("UPDATE chore SET state = 'dropped', sent_at = ?, lease = '' WHERE id = ? AND lease = ? AND state = 'claimed'", t.over(), c.ID, c.Lease)
	return err
}

// MarkRetry puts a claimed chore back until next, with what went wrong. unsaid
// means that it certainly did not arrive, so that it need not go out again under
// the key it had.
func (t *Tx) MarkRetry(c Chore, next time.Time, cause string, unsaid bool) error {
	_, err := t.exec(`UPDATE chore SET state = 'retry', try_at = ?, lease = '', last_error = ?,
		message = CASE ? WHEN 1 THEN '' ELSE message END WHERE id = ? AND lease = ? AND state = 'claimed'`,
		toMillis(next), cause, unsaid, c.ID, c.Lease)
	return err
}

// Release puts a claimed chore back until next as if it had not been taken up; a
// key it was given just now is forgotten.
func (t *Tx) Release(c Chore, next time.Time) error {
	_, err := t.exec(`UPDATE chore SET state = CASE WHEN attempts > 1 THEN 'retry' ELSE 'due' END, attempts = attempts - 1,
		try_at = ?, lease = '', message = CASE substr(message, 1, ?) WHEN substr(lease, 1, ?) || '-' THEN '' ELSE message END
		WHERE id = ? AND lease = ? AND state = 'claimed'`,
		toMillis(next), min(len(c.Lease), keyLength)+1, keyLength, c.ID, c.Lease)
	return err
}

// MarkGivenUp records that a claimed chore will not be tried again, for its
// Cause.
func (t *Tx) MarkGivenUp(c Chore) error {
	_, err := t.exec("UPDATE chore SET state = 'given up', sent_at = ?, lease = '', last_error = ? WHERE id = ? AND lease = ? AND state = 'claimed'",
		toMillis(t.now), c.Cause, c.ID, c.Lease)
	return err
}

// Park stops deliveries to a conversation that cannot be reached and keeps what
// is due there. Unpark takes them up again.
func (t *Tx) Park(conversation int64, why string) error {
	if _, err := t.exec("UPDATE conversation SET parked = ? WHERE id = ?", why, conversation); err != nil {
		return err
	}
	_, err := t.exec(parkQuery, why, conversation)
	return err
}

// Unpark lets a conversation's chores be delivered again.
func (t *Tx) Unpark(conversation int64) error {
	if _, err := t.exec("UPDATE conversation SET parked = '' WHERE id = ?", conversation); err != nil {
		return err
	}
	_, err := t.exec(unparkQuery, conversation)
	return err
}
