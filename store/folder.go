package store

import (
	"encoding/json"
	"slices"
)

// Folder is a batch with all that planning and pinging look at.
type Folder struct {
	Batch        Batch
	Conversation Conversation
	Entries      []Entry // its journal, as written
	Chores       []Chore // that it has or had, as due
	Place        Address // of its own; empty if it has none
	Shown        bool    // it has a card that is up
	Members      int     // people seen in its conversation
}

// The queries of folders, of one batch by its id or of several by a list of ids as
// JSON, which takes longer to look through than one is to find.
const (
	ofOne  = " = ?"
	ofMany = " IN (SELECT value FROM json_each(?))"
)

func coverQuery(of string) string {
	return "SELECT " + batchCells + `, address, settings, parked, created_at,
		(SELECT address FROM place WHERE place.batch_id = batch.id),
		EXISTS (SELECT 1 FROM card WHERE card.batch_id = batch.id AND state = 'up'),
		(SELECT COUNT(*) FROM member WHERE member.conversation_id = batch.conversation_id)` + batchPieces +
		`JOIN (SELECT id AS home, address, settings, parked, created_at FROM conversation) ON home = conversation_id
		WHERE id` + of + " ORDER BY id, letter"
}

func entriesQuery(of string) string {
	return entryColumns + "WHERE batch_id" + of + " ORDER BY batch_id, id"
}

func choresQuery(of string) string {
	return choresOf + "batch_id" + of + " ORDER BY batch_id, due_at, id"
}

// Folders reads batches with what is kept about them, by id, in as many queries as
// one of them takes. Ids of no batch are left out.
func (t *Tx) Folders(ids []int64) ([]Folder, error) {
	if len(ids) == 0 {
		return nil, nil
	}
	of, which := ofOne, any(ids[0])
	if len(ids) > 1 {
		list, err := toJSON(ids)
		if err != nil {
			return nil, err
		}
		of, which = ofMany, list
	}
	out, err := t.covers(of, which)
	if err != nil {
		return nil, err
	}
	entries, err := gather(t, entryInto, entriesQuery(of), which)
	if err != nil {
		return nil, err
	}
	chores, err := gather(t, choreInto, choresQuery(of), which)
	if err != nil {
		return nil, err
	}
	for i := range out {
		f := &out[i]
		f.Entries, entries = cut(entries, func(e Entry) bool { return e.Batch == f.Batch.ID })
		f.Chores, chores = cut(chores, func(c Chore) bool { return c.Batch == f.Batch.ID })
	}
	return out, nil
}

// covers reads the batches of folders and all but the journal and the chores.
func (t *Tx) covers(of string, which any) ([]Folder, error) {
	var out []Folder
	err := t.each(func(scan func(...any) error) error {
		var (
			r        batchRow
			f        Folder
			settings string
			place    *string
		)
		c := &f.Conversation
		err := scan(append(r.into(), &c.Address, &settings, &c.Parked, instant(&c.Created), &place, &f.Shown, &f.Members)...)
		if err != nil {
			return err
		}
		if n := len(out); n == 0 || out[n-1].Batch.ID != r.ID {
			if err := json.Unmarshal([]byte(settings), &c.Settings); err != nil {
				return err
			}
			if place != nil {
				f.Place = Address(*place)
			}
			c.ID = r.Conversation
			out = append(out, f)
		}
		return r.addTo(&out[len(out)-1].Batch)
	}, coverQuery(of), which)
	return out, err
}

// cut parts a list behind those at its front that belong together.
func cut[T any](list []T, same func(T) bool) (front, rest []T) {
	n := slices.IndexFunc(list, func(v T) bool { return !same(v) })
	if n < 0 {
		n = len(list)
	}
	return list[:n:n], list[n:]
}
