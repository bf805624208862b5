package store

// Place is the address of the place a batch has of its own, or ErrNotFound: then it
// lives where its conversation is.
func (t *Tx) Place(batch int64) (Address, error) {
	var a string
	err := t.one("SELECT address FROM place WHERE batch_id = ?", []any{batch}, &a)
	return Address(a), err
}

// PlacedAt finds the batch whose own place an address is, or ErrNotFound.
func (t *Tx) PlacedAt(a Address) (Batch, error) {
	var id int64
	if err := t.one("SELECT batch_id FROM place WHERE address = ?", []any{string(a)}, &id); err != nil {
		return Batch{}, err
	}
	return t.BatchByID(id)
}

// SetPlace gives a batch a place of its own, over the one it had; "" sends it back
// to its conversation.
func (t *Tx) SetPlace(batch int64, a Address) error {
	if a == "" {
		_, err := t.exec("DELETE FROM place WHERE batch_id = ?", batch)
		return err
	}
	_, err := t.exec("INSERT INTO place (batch_id, address) VALUES (?, ?) ON CONFLICT (batch_id) DO UPDATE SET address = excluded.address", batch, string(a))
	return err
}
