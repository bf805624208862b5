package store

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

// Pictures lists the pictures of a batch's entries that stand, the oldest first.
func (t *Tx) Pictures(batch int64) ([]Picture, error) {
	var out []Picture
	err := t.each(func(scan func(...any) error) error {
		var p Picture
		err := scan(&p.Entry, &p.Name, &p.Type, &p.Data)
		out = append(out, p)
		return err
	}, "SELECT p.entry_id, p.name, p.type, p.data FROM picture p JOIN entry e ON e.id = p.entry_id WHERE e.batch_id = ? AND e.struck_at = 0 ORDER BY e.id", batch)
	return out, err
}
