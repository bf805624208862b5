package store

import (
	"fmt"
	"time"
)

const (
	// keyLength is how much of a lease goes into a message's key: with a
	// conversation's number it stays within the 25 characters the strictest
	// platform takes, and 12 letters of a random text never meet again.
	keyLength = 12
	// keyFor is how long a message that may have arrived is kept together and
	// sent again under its key. No platform knows a key for longer than a few
	// minutes; after that the chores may join others in a new message.
	keyFor = 5 * time.Minute
)

// claimSet is what claiming does to a row. ?1 lease, ?2 end of the lease, ?3 now,
// ?4 since when a key still holds.
const claimSet = `UPDATE chore SET state = 'claimed', lease = ?1, try_at = ?2, attempts = attempts + 1,
	message_at = CASE WHEN message <> '' AND message_at > ?4 THEN message_at ELSE ?3 END,
	message = CASE WHEN message <> '' AND message_at > ?4 THEN message ELSE substr(?1, 1, 12) || '-' || conversation_id END `

// The first claim is of a lane's rows at an urgency, the second of what else is
// due in their conversations.
const (
	claimFirst = `WHERE id IN (SELECT id FROM chore INDEXED BY chore_open
		WHERE ` + open + ` AND lane = ?5 AND urgency = ?6 AND try_at <= ?3 ORDER BY try_at LIMIT ?7)`
	claimRest = `WHERE sent_at = 0 AND ` + open + ` AND (try_at <= ?3 OR state = 'retry' AND due_at <= ?3 AND (message = '' OR message_at <= ?4)) AND conversation_id IN
		(SELECT conversation_id FROM chore INDEXED BY chore_open
		WHERE ` + open + ` AND lane = ?5 AND urgency = ?6 AND try_at = ?2 AND lease = ?1)`
)

// Claim takes what is due in a lane for whoever holds lease (a text whose first 12
// characters nobody else has), most urgent first,
// about limit rows, and gives it up again by itself at until. A conversation's due
// chores are claimed together, those waiting for another try too, so that they make
// one message; only those that may already have been said together a moment ago
// keep the message they had, and wait their own time for its next try.
func (t *Tx) Claim(lane, lease string, until time.Time, limit int) ([]Chore, error) {
	args := []any{lease, toMillis(until), toMillis(t.now), toMillis(t.now.Add(-keyFor)), lane}
	for _, urgency := range []int{Urgent, Soon, Routine} {
		res, err := t.exec(claimSet+claimFirst, append(args[:len(args):len(args)], urgency, limit)...)
		if err != nil {
			return nil, fmt.Errorf("claim: %w", err)
		}
		n, err := res.RowsAffected()
		if err != nil {
			return nil, err
		}
		if n == 0 {
			continue
		}
		_, err = t.exec(claimSet+claimRest, append(args[:len(args):len(args)], urgency)...)
		if err != nil {
			return nil, fmt.Errorf("claim the rest of the conversations: %w", err)
		}
		return t.leased(lane, lease, until)
	}
	return nil, nil
}

const leasedQuery = "SELECT " + choreColumns + `, (SELECT address FROM conversation WHERE id = conversation_id)
	FROM chore INDEXED BY chore_open WHERE ` + open + ` AND lane = ? AND urgency = ? AND try_at = ? AND lease = ?
	ORDER BY conversation_id, due_at, id`

func (t *Tx) leased(lane, lease string, until time.Time) ([]Chore, error) {
	var out []Chore
	for _, urgency := range []int{Urgent, Soon, Routine} {
		list, err := gather(t, func(c *Chore) []any { return append(choreInto(c), &c.Address) }, leasedQuery, lane, urgency, toMillis(until), lease)
		if err != nil {
			return nil, err
		}
		out = append(out, list...)
	}
	return out, nil
}

// The lanes are found by jumping from one to the next in the index, so that a
// million chores in one lane cost no more than one.
const lanesQuery = `WITH RECURSIVE lane(name) AS (
	SELECT (SELECT MIN(lane) FROM chore INDEXED BY chore_open WHERE ` + open + `)
	UNION ALL
	SELECT (SELECT MIN(lane) FROM chore INDEXED BY chore_open WHERE ` + open + ` AND lane > lane.name) FROM lane WHERE name IS NOT NULL)
	SELECT name FROM lane WHERE name IS NOT NULL`

const nextQuery = "SELECT MIN(try_at) FROM chore INDEXED BY chore_open WHERE " + open + " AND lane = ? AND urgency = ?"

// Upcoming is the instant at which each lane has something to be taken up next;
// a lane with nothing open is left out.
func (t *Tx) Upcoming() (map[string]time.Time, error) {
	lanes, err := gather(t, itself[string], lanesQuery)
	if err != nil {
		return nil, fmt.Errorf("lanes: %w", err)
	}
	out := make(map[string]time.Time, len(lanes))
	for _, lane := range lanes {
		for _, urgency := range []int{Urgent, Soon, Routine} {
			var ms *int64
			if err := t.one(nextQuery, []any{lane, urgency}, &ms); err != nil {
				return nil, fmt.Errorf("next due: %w", err)
			}
			if ms == nil {
				continue
			}
			if at, ok := out[lane]; !ok || fromMillis(*ms).Before(at) {
				out[lane] = fromMillis(*ms)
			}
		}
	}
	return out, nil
}

// recoverQuery gives up the claims of a process that is no more: whoever opens the
// file has it alone, so every claim found then is such a one.
const recoverQuery = "UPDATE chore INDEXED BY chore_claimed SET state = 'retry', try_at = due_at, lease = '' WHERE state = 'claimed'"
