package store

import (
	"errors"
	"fmt"
	"strings"
)

// ChoreRenumbered tells a conversation that batches which came to it from another
// have new numbers. Its Body is JSON of a list of Renumbered.
const ChoreRenumbered = "renumbered"

// Renumbered is a batch that has a new number, since the one it had was taken where
// it came to.
type Renumbered struct {
	Was int `json:"was"`
	Is  int `json:"is"`
}

// Move gives a conversation its new address. If it is there already nothing
// changes.
//
// If another conversation is there, the two become one. Where a topic goes on in
// its chat, the chat's own conversation stays as it is: what people there type and
// press means what it meant. Otherwise the other one began only after the move, and
// gives way to the one that moves.
func (t *Tx) Move(conversation int64, to Address) error {
	moving, err := t.ConversationByID(conversation)
	if errors.Is(err, ErrNotFound) || err == nil && moving.Address == to {
		return nil // it is part of the one there by now, or is there
	}
	if err != nil {
		return err
	}
	// Messages do not move along: elsewhere the name of one may be that of another.
	if _, err := t.exec("UPDATE card SET ref = '', shows = '' WHERE conversation_id = ?", conversation); err != nil {
		return err
	}
	there, err := t.Conversation(to)
	if errors.Is(err, ErrNotFound) {
		return t.rename(conversation, to)
	}
	if err != nil {
		return err
	}
	if strings.HasPrefix(string(moving.Address), string(to)+"/") {
		return t.merge(conversation, there)
	}
	if err := t.merge(there.ID, moving); err != nil {
		return err
	}
	return t.rename(conversation, to)
}

func (t *Tx) rename(conversation int64, to Address) error {
	_, err := t.exec("UPDATE conversation SET address = ? WHERE id = ?", string(to), conversation)
	return err
}

// merge moves all that a conversation has into another, which keeps its settings
// and its numbers.
func (t *Tx) merge(from int64, in Conversation) error {
	into := in.ID
	batches, err := t.Batches(from, true)
	if err != nil {
		return err
	}
	if _, err := t.exec("UPDATE member SET conversation_id = ?1 WHERE conversation_id = ?2 AND key NOT IN (SELECT key FROM member WHERE conversation_id = ?1)", into, from); err != nil {
		return err
	}
	var told []Renumbered
	for _, b := range batches {
		number, err := t.mergeBatch(b, into)
		if err != nil {
			return err
		}
		if number != b.Number {
			told = append(told, Renumbered{Was: b.Number, Is: number})
		}
	}
	if _, err := t.exec("UPDATE OR IGNORE chore SET conversation_id = ? WHERE conversation_id = ?", into, from); err != nil {
		return err
	}
	if err := t.mergeGroup(from, into); err != nil {
		return err
	}
	if _, err := t.exec("DELETE FROM conversation WHERE id = ?", from); err != nil {
		return err
	}
	if err := t.reach(in); err != nil || len(told) == 0 {
		return err
	}
	body, err := toJSON(told)
	if err != nil {
		return err
	}
	return t.Enqueue(into, ChoreRenumbered, fmt.Sprint(from), body, t.now, Soon)
}

// mergeBatch moves a batch and gives its number there: its own if no batch there has
// come to that yet, otherwise the next.
func (t *Tx) mergeBatch(b Batch, into int64) (number int, err error) {
	if err := t.one("UPDATE conversation SET next_batch = 1 + max(next_batch, ?) WHERE id = ? RETURNING next_batch - 1", []any{b.Number, into}, &number); err != nil {
		return 0, err
	}
	if _, err := t.exec("UPDATE batch SET conversation_id = ?, number = ?, keeper_id = (SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = keeper_id AND m.conversation_id = ?) WHERE id = ?",
		into, number, into, b.ID); err != nil {
		return 0, err
	}
	for _, query := range []string{
		`UPDATE entry SET
			member_id = (SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = member_id AND m.conversation_id = ?1),
			struck_by = (SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = struck_by AND m.conversation_id = ?1)
			WHERE batch_id = ?2`,
		// Whom a batch was handed to stands in the entry's body.
		`UPDATE entry SET body = json_set(body, '$.member',
			(SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = json_extract(entry.body, '$.member') AND m.conversation_id = ?1))
			WHERE batch_id = ?2 AND json_extract(body, '$.member') IS NOT NULL`,
		"UPDATE chore SET conversation_id = ?1 WHERE batch_id = ?2",
	} {
		if _, err := t.exec(query, into, b.ID); err != nil {
			return 0, err
		}
	}
	return number, nil
}

// mergeGroup moves what a group has besides its batches: cards shown there, recipes
// shared there, and what its members keep in stock and plan.
func (t *Tx) mergeGroup(from, into int64) error {
	for _, query := range []string{
		"UPDATE OR IGNORE card SET conversation_id = ?1 WHERE conversation_id = ?2",
		"UPDATE OR IGNORE recipe_share SET conversation_id = ?1 WHERE conversation_id = ?2",
		`UPDATE stock SET member_id = (SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = stock.member_id AND m.conversation_id = ?1)
			WHERE member_id IN (SELECT id FROM member WHERE conversation_id = ?2)`,
		`UPDATE planned SET member_id = (SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = planned.member_id AND m.conversation_id = ?1)
			WHERE member_id IN (SELECT id FROM member WHERE conversation_id = ?2)`,
	} {
		if _, err := t.exec(query, into, from); err != nil {
			return err
		}
	}
	return nil
}

// reach makes what came into a conversation wait, or not, as everything there does.
func (t *Tx) reach(c Conversation) error {
	if c.Parked == "" {
		_, err := t.exec(unparkQuery, c.ID)
		return err
	}
	_, err := t.exec(parkQuery, c.Parked, c.ID)
	return err
}
