package store

import (
	"fmt"
	"slices"
)

// The kinds of chore a card causes, planted by TouchCard. Their Body is the card's id.
const (
	ChoreCard    = "card"
	ChoreCardEnd = "card end"
)

// A card's chores are those with its id and a slash before their slot's number; the
// character after a slash is 0.
const touched = `SELECT id, slot, state FROM chore WHERE conversation_id = ?1 AND batch_id = 0 AND piece = '' AND kind = ?2
	AND slot >= ?3 || '/' AND slot < ?3 || '0' ORDER BY slot`

const touchAgain = `UPDATE chore SET due_at = ?2, try_at = ?2, planted_at = ?2, urgency = ?3, attempts = 0, sent_at = 0, lease = '',
	message = '', message_at = 0, last_error = '',
	state = CASE (SELECT parked FROM conversation WHERE id = conversation_id) WHEN '' THEN 'due' ELSE 'parked' END WHERE id = ?1`

// TouchCard plants the chore that brings a card up to date, or, of kind
// ChoreCardEnd, tells its followers that the batch is done. One that waits already
// does for both; one being said right now may have looked before the change. One
// that is over is used again, so that a card has no more of them than ever were on
// their way at once.
func (t *Tx) TouchCard(c Card, kind string) error {
	var (
		slots []string
		waits bool
		over  int64
	)
	err := t.each(func(scan func(...any) error) error {
		var (
			id          int64
			slot, state string
		)
		err := scan(&id, &slot, &state)
		slots = append(slots, slot)
		switch state {
		case StateDue, StateRetry, StateParked:
			waits = true
		case StateSent, StateDropped, StateGivenUp:
			over = id
		}
		return err
	}, touched, c.Conversation, kind, fmt.Sprint(c.ID))
	switch {
	case err != nil || waits:
		return err
	case over != 0:
		_, err := t.exec(touchAgain, over, toMillis(t.now), Routine)
		return err
	}
	n := 0
	for slices.Contains(slots, fmt.Sprintf("%d/%d", c.ID, n)) {
		n++
	}
	return t.Enqueue(c.Conversation, kind, fmt.Sprintf("%d/%d", c.ID, n), fmt.Sprint(c.ID), t.now, Routine)
}
