package store

import (
	"database/sql"
	"encoding/json"
	"time"
)

// CreateBatch adds a batch with its pieces and gives it the conversation's next
// number. Numbers are never used twice.
func (t *Tx) CreateBatch(b Batch) (Batch, error) {
	err := t.one("UPDATE conversation SET next_batch = next_batch + 1 WHERE id = ? RETURNING next_batch - 1",
		[]any{b.Conversation}, &b.Number)
	if err != nil {
		return b, err
	}
	plan, err := toJSON(b.Plan)
	if err != nil {
		return b, err
	}
	res, err := t.exec(`INSERT INTO batch (conversation_id, number, keeper_id, opened_at, plan, stage, version)
		VALUES (?, ?, ?, ?, ?, ?, ?)`, b.Conversation, b.Number, b.Keeper, toMillis(b.Opened), plan, b.Stage, b.Version)
	if err != nil {
		return b, err
	}
	if b.ID, err = res.LastInsertId(); err != nil {
		return b, err
	}
	for _, p := range b.Pieces {
		if err := t.SavePiece(b.ID, p); err != nil {
			return b, err
		}
	}
	return b, nil
}

// SavePiece adds or rewrites a piece of a batch.
func (t *Tx) SavePiece(batch int64, p Piece) error {
	body, err := toJSON(p)
	if err != nil {
		return err
	}
	_, err = t.exec(`INSERT INTO piece (batch_id, letter, body) VALUES (?, ?, ?)
		ON CONFLICT (batch_id, letter) DO UPDATE SET body = excluded.body`, batch, p.Letter, body)
	return err
}

// SaveBatch writes a batch's stage, version, keeper, start and plan.
func (t *Tx) SaveBatch(b Batch) error {
	plan, err := toJSON(b.Plan)
	if err != nil {
		return err
	}
	_, err = t.exec("UPDATE batch SET stage = ?, version = ?, keeper_id = ?, opened_at = ?, plan = ? WHERE id = ?",
		b.Stage, b.Version, b.Keeper, toMillis(b.Opened), plan, b.ID)
	return err
}

const (
	batchCells   = "id, conversation_id, number, keeper_id, opened_at, plan, stage, version, piece.body"
	batchPieces  = " FROM batch LEFT JOIN piece ON piece.batch_id = batch.id "
	batchColumns = "SELECT " + batchCells + batchPieces
)

// Batch finds a batch by the number it has in a conversation, or ErrNotFound: a
// number from another conversation does not exist here.
func (t *Tx) Batch(conversation int64, number int) (Batch, error) {
	return t.batch("WHERE conversation_id = ? AND number = ? ORDER BY letter", conversation, number)
}

// BatchByID finds a batch by its id, or ErrNotFound.
func (t *Tx) BatchByID(id int64) (Batch, error) { return t.batch("WHERE id = ? ORDER BY letter", id) }

func (t *Tx) batch(where string, args ...any) (Batch, error) {
	return first(t.batches(batchColumns+where, args...))
}

// Batches lists a conversation's batches by number, all or only those not ended.
func (t *Tx) Batches(conversation int64, all bool) ([]Batch, error) {
	if all {
		return t.batches(batchColumns+"WHERE conversation_id = ? ORDER BY number, letter", conversation)
	}
	return t.batches(batchColumns+"WHERE conversation_id = ? AND stage NOT IN ('closed', 'discarded') ORDER BY number, letter", conversation)
}

// RunningBatches lists the ids of batches not ended in whatever conversation, up to
// limit of those that come after one. It reads none of them, so one that cannot be
// read hides no other.
func (t *Tx) RunningBatches(after int64, limit int) ([]int64, error) {
	return gather(t, itself[int64], "SELECT id FROM batch WHERE id > ? AND stage NOT IN ('closed', 'discarded') ORDER BY id LIMIT ?", after, limit)
}

// batches reads batches with their pieces.
func (t *Tx) batches(query string, args ...any) ([]Batch, error) {
	var out []Batch
	err := t.each(func(scan func(...any) error) error {
		var r batchRow
		err := scan(r.into()...)
		if err != nil {
			return err
		}
		if n := len(out); n == 0 || out[n-1].ID != r.ID {
			out = append(out, Batch{})
		}
		return r.addTo(&out[len(out)-1])
	}, query, args...)
	return out, err
}

// batchRow is a row of a query of batches with their pieces: one each piece, those
// of a batch together.
type batchRow struct {
	Batch
	plan  string
	piece sql.NullString
}

func (r *batchRow) into() []any {
	return []any{&r.ID, &r.Conversation, &r.Number, &r.Keeper, instant(&r.Opened), &r.plan, &r.Stage, &r.Version, &r.piece}
}

// addTo adds what the row says to its batch, which is empty before its first row.
func (r *batchRow) addTo(b *Batch) error {
	if b.ID == 0 {
		*b = r.Batch
		if err := json.Unmarshal([]byte(r.plan), &b.Plan); err != nil {
			return err
		}
	}
	if !r.piece.Valid {
		return nil
	}
	b.Pieces = append(b.Pieces, Piece{})
	return json.Unmarshal([]byte(r.piece.String), &b.Pieces[len(b.Pieces)-1])
}

// Append writes a line in a batch's journal and gives it back with its id.
func (t *Tx) Append(e Entry) (Entry, error) {
	e.Recorded = t.now
	if e.Body == "" {
		e.Body = "{}"
	}
	res, err := t.exec(`INSERT INTO entry (batch_id, piece, kind, at, recorded_at, member_id, body)
		VALUES (?, ?, ?, ?, ?, ?, ?)`, e.Batch, e.Piece, e.Kind, toMillis(e.At), toMillis(e.Recorded), e.Member, e.Body)
	if err != nil {
		return e, err
	}
	e.ID, err = res.LastInsertId()
	return e, err
}

// Strike strikes an entry out; it stays readable. An entry already struck, or not
// there, is ErrNotFound.
func (t *Tx) Strike(entry, member int64) error {
	res, err := t.exec("UPDATE entry SET struck_at = ?, struck_by = ? WHERE id = ? AND struck_at = 0",
		toMillis(t.now), member, entry)
	if err != nil {
		return err
	}
	if n, err := res.RowsAffected(); err != nil || n == 0 {
		return ErrNotFound
	}
	return nil
}

// Unstrike makes a struck entry of a batch stand again. One that stands, or is not
// there, is ErrNotFound.
func (t *Tx) Unstrike(batch, entry int64) error {
	res, err := t.exec("UPDATE entry SET struck_at = 0, struck_by = NULL WHERE id = ? AND batch_id = ? AND struck_at <> 0", entry, batch)
	if err != nil {
		return err
	}
	if n, err := res.RowsAffected(); err != nil || n == 0 {
		return ErrNotFound
	}
	return nil
}

const entryColumns = `SELECT id, batch_id, piece, kind, at, recorded_at, member_id, body, struck_at FROM entry `

func entryInto(e *Entry) []any {
	return []any{&e.ID, &e.Batch, &e.Piece, &e.Kind, instant(&e.At), instant(&e.Recorded), &e.Member, &e.Body, instant(&e.Struck)}
}

// Entries reads a batch's journal in the order it was written.
func (t *Tx) Entries(batch int64) ([]Entry, error) {
	return gather(t, entryInto, entriesQuery(ofOne), batch)
}

// Remember keeps what was answered to an event, so that the event coming again
// gets the same answer and changes nothing.
//
// Each call also drops a few answers a month old, so that the table ends somewhere
// even where Forget is never called.
func (t *Tx) Remember(event, reply string) error {
	_, err := t.exec("DELETE FROM seen WHERE event IN (SELECT event FROM seen WHERE at < ? ORDER BY at LIMIT 20)", toMillis(t.now.AddDate(0, 0, -30)))
	if err != nil {
		return err
	}
	_, err = t.exec("INSERT INTO seen (event, reply, at) VALUES (?, ?, ?)", event, reply, toMillis(t.now))
	return err
}

// Recall gives the answer to an event handled before, or ErrNotFound.
func (t *Tx) Recall(event string) (reply string, err error) {
	err = t.one("SELECT reply FROM seen WHERE event = ?", []any{event}, &reply)
	return reply, err
}

// Forget drops answers older than an instant.
func (t *Tx) Forget(before time.Time) error {
	_, err := t.exec("DELETE FROM seen WHERE at < ?", toMillis(before))
	return err
}
