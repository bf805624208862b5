package store

import "slices"

// Folder is a batch with all that planning it looks at.
type Folder struct {
	Batch        Batch
	Conversation Conversation
	Entries      []Entry // its journal, as written
	Chores       []Chore // that it has or had, as due
	Shown        bool    // it has a card that is up
}

// among looks for any of a list of ids, given as JSON.
const among = " IN (SELECT value FROM json_each(?))"

const (
	foldersQuery       = batchColumns + "WHERE batch.id" + among + " ORDER BY batch.id, letter"
	folderConversation = "id IN (SELECT conversation_id FROM batch WHERE id" + among + ")"
	folderEntries      = entryColumns + "WHERE batch_id" + among + " ORDER BY batch_id, id"
	folderChores       = choresOf + "batch_id" + among + " ORDER BY batch_id, due_at, id"
	folderCards        = "SELECT DISTINCT batch_id FROM card WHERE state = 'up' AND batch_id" + among
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
	batches, err := t.batches(foldersQuery, list)
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
	shown, err := gather(t, itself[int64], folderCards, list)
	if err != nil {
		return nil, err
	}
	at := map[int64]Conversation{}
	for _, c := range convs {
		at[c.ID] = c
	}
	out := make([]Folder, 0, len(batches))
	for _, b := range batches {
		f := Folder{Batch: b, Conversation: at[b.Conversation], Shown: slices.Contains(shown, b.ID)}
		f.Entries, entries = cut(entries, func(e Entry) bool { return e.Batch == b.ID })
		f.Chores, chores = cut(chores, func(c Chore) bool { return c.Batch == b.ID })
		out = append(out, f)
	}
	return out, nil
}

// cut parts a list behind those at its front that belong together.
func cut[T any](list []T, same func(T) bool) (front, rest []T) {
	n := slices.IndexFunc(list, func(v T) bool { return !same(v) })
	if n < 0 {
		n = len(list)
	}
	return list[:n:n], list[n:]
}
