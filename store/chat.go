package store

import (
	"context"
	"strings"
	"time"
)

// A chat on a platform may hold several conversations: the one at its own address
// and those under it, such as topics, whose addresses go on after a slash. The
// functions here are about a chat as a whole, a transaction each.

// MoveChat gives every conversation of a chat its new address. Moving a chat that
// has moved already changes nothing.
func (db *DB) MoveChat(ctx context.Context, now time.Time, from, to Address) error {
	return db.Update(ctx, now, func(tx *Tx) error {
		list, err := tx.inChat(from)
		if err != nil {
			return err
		}
		for _, c := range list {
			if err := tx.Move(c.ID, to+Address(strings.TrimPrefix(string(c.Address), string(from)))); err != nil {
				return err
			}
		}
		return nil
	})
}

// ParkChat holds back the chores of every conversation of a chat.
func (db *DB) ParkChat(ctx context.Context, now time.Time, chat Address, why string) error {
	return db.Update(ctx, now, func(tx *Tx) error {
		list, err := tx.inChat(chat)
		if err != nil {
			return err
		}
		for _, c := range list {
			if err := tx.Park(c.ID, why); err != nil {
				return err
			}
		}
		return nil
	})
}

// UnparkChat takes them up again; what fell due meanwhile is due now.
func (db *DB) UnparkChat(ctx context.Context, now time.Time, chat Address) error {
	return db.Update(ctx, now, func(tx *Tx) error {
		list, err := tx.inChat(chat)
		if err != nil {
			return err
		}
		for _, c := range list {
			if c.Parked == "" {
				continue
			}
			if err := tx.Unpark(c.ID); err != nil {
				return err
			}
		}
		return nil
	})
}

// inChat lists the conversations at an address and under it.
func (t *Tx) inChat(chat Address) ([]Conversation, error) {
	return t.conversations("address = ?1 OR (address >= ?1 || '/' AND address < ?1 || '0') ORDER BY id", string(chat))
}
