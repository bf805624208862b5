package store

import "errors"

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
		if _, err := t.exec(`UPDATE entry SET
			member_id = (SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = member_id AND m.conversation_id = ?1),
			struck_by = (SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = struck_by AND m.conversation_id = ?1)
			WHERE batch_id = ?2`, into, b.ID); err != nil {
			return err
		}
		// Whom a batch was handed to stands in the entry's body.
		if _, err := t.exec(`UPDATE entry SET body = json_set(body, '$.member',
			(SELECT m.id FROM member m JOIN member k ON k.key = m.key WHERE k.id = json_extract(entry.body, '$.member') AND m.conversation_id = ?1))
			WHERE batch_id = ?2 AND json_extract(body, '$.member') IS NOT NULL`, into, b.ID); err != nil {
			return err
		}
		if _, err := t.exec("UPDATE chore SET conversation_id = ? WHERE batch_id = ?", into, b.ID); err != nil {
			return err
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
	_, err = t.exec("UPDATE conversation SET address = ? WHERE id = ?", string(at), into)
	return err
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
