package store

import (
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
}

// among looks for any of a list of ids, given as JSON.
const among = " IN (SELECT value FROM json_each(?))"

const (
	foldersQuery = "SELECT " + batchCells + `, (SELECT address FROM place WHERE place.batch_id = batch.id),
		EXISTS (SELECT 1 FROM card WHERE card.batch_id = batch.id AND state = 'up')` +
		batchPieces + "WHERE batch.id" + among + " ORDER BY batch.id, letter"
	folderConversation = "id IN (SELECT conversation_id FROM batch WHERE id" + among + ")"
	folderEntries      = entryColumns + "WHERE batch_id" + among + " ORDER BY batch_id, id"
	folderChores       = choresOf + "batch_id" + among + " ORDER BY batch_id, due_at, id"
)

// Folders reads batches with what is kept about them, by id, in as many queries as
// one of them takes. Ids of no batch are left out.
func (t *Tx) Folders(ids []int64) ([]Folder, error) {
	if len(ids) == 0 {
		return nil, nil
	}
	list, err := toJSON(ids)
	if err != nil {
		return nil, err
	}
	out, err := t.covers(list)
	if err != nil {
		return nil, err
	}
	convs, err := t.conversations(folderConversation, list)
	if err != nil {
		return nil, err
	}
	entries, err := gather(t, entryInto, folderEntries, list)
	if err != nil {
		return nil, err
	}
	chores, err := gather(t, choreInto, folderChores, list)
	if err != nil {
		return nil, err
	}
	at := make(map[int64]Conversation, len(convs))
	for _, c := range convs {
		at[c.ID] = c
	}
	for i := range out {
		f := &out[i]
		f.Conversation = at[f.Batch.Conversation]
		f.Entries, entries = cut(entries, func(e Entry) bool { return e.Batch == f.Batch.ID })
		f.Chores, chores = cut(chores, func(c Chore) bool { return c.Batch == f.Batch.ID })
	}
	return out, nil
}

// covers reads the batches of folders, their places and whether they are shown.
func (t *Tx) covers(list string) ([]Folder, error) {
	var out []Folder
	err := t.each(func(scan func(...any) error) error {
		var (
			r     batchRow
			place *string
			shown bool
		)
		if err := scan(append(r.into(), &place, &shown)...); err != nil {
			return err
		}
		if n := len(out); n == 0 || out[n-1].Batch.ID != r.ID {
			f := Folder{Shown: shown}
			if place != nil {
				f.Place = Address(*place)
			}
			out = append(out, f)
		}
		return r.addTo(&out[len(out)-1].Batch)
	}, foldersQuery, list)
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
