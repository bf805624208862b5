package store

import "slices"

// Picture is a picture that came with a journal entry.
type Picture struct {
	Entry int64
	Name  string
	Type  string // media type
	Data  []byte
}

// SavePicture keeps a picture with its entry, over one kept before.
func (t *Tx) SavePicture(p Picture) error {
	_, err := t.exec(`INSERT INTO picture (entry_id, name, type, data) VALUES (?, ?, ?, ?)
		ON CONFLICT (entry_id) DO UPDATE SET name = excluded.name, type = excluded.type, data = excluded.data`, p.Entry, p.Name, p.Type, p.Data)
	return err
}

const (
	standing      = "FROM picture p JOIN entry e ON e.id = p.entry_id WHERE e.batch_id = ? AND e.struck_at = 0"
	pictureCount  = "SELECT count(*) " + standing
	pictureNewest = "SELECT p.entry_id, p.name, p.type, p.data " + standing + " ORDER BY e.id DESC LIMIT ?"
)

// Pictures gives the newest pictures of a batch's entries that stand, most at most,
// the oldest of them first, and says how many there are in all.
func (t *Tx) Pictures(batch int64, most int) (newest []Picture, all int, err error) {
	if err := t.one(pictureCount, []any{batch}, &all); err != nil || all == 0 {
		return nil, 0, err
	}
	newest, err = gather(t, func(p *Picture) []any { return []any{&p.Entry, &p.Name, &p.Type, &p.Data} }, pictureNewest, batch, most)
	slices.Reverse(newest)
	return newest, all, err
}
