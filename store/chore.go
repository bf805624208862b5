package store

import "time"

// The urgencies of a chore. Urgent ones are claimed before all others.
const (
	Routine = 0
	Soon    = 1
	Urgent  = 2
)

const open = "state IN ('due', 'retry', 'claimed')"

// laneOf is Address.Lane in SQL.
const laneOf = "substr(address, 1, instr(address || ':', ':') - 1)"

// asWanted says that planting a chore again would change nothing. A claimed one keeps
// its lease: whoever holds it looks at the batch as it is then.
func (c Chore) asWanted(w Want) bool {
	return c.State == StateClaimed || toMillis(c.Due) == toMillis(w.Due) && c.Urgency == w.Urgency
}

func (c Chore) slot() [3]string { return [3]string{c.Piece, c.Kind, c.Slot} }

func (w Want) slot() [3]string { return [3]string{w.Piece, w.Kind, w.Slot} }

// AsWanted says that Reconcile would change nothing about chores, which are all that a
// batch has and had.
func AsWanted(chores []Chore, wants []Want) bool {
	plant, drop := compare(chores, wants)
	return len(plant) == 0 && len(drop) == 0
}

// compare finds what is wanted and not there as it is wanted, and the chores that are
// open and wanted no more. One that is over is wanted in vain.
func compare(have []Chore, wants []Want) (plant []Want, drop []Chore) {
	at := make(map[[3]string]int, len(have))
	for i, c := range have {
		if c.State != StateDropped {
			at[c.slot()] = i
		}
	}
	kept := make([]bool, len(have))
	for _, w := range wants {
		i, is := at[w.slot()]
		switch {
		case !is:
			plant = append(plant, w)
			continue
		case kept[i] || have[i].State == StateSent || have[i].State == StateGivenUp: // wanted twice is wanted once
		case !have[i].asWanted(w):
			plant = append(plant, w)
		}
		kept[i] = true
	}
	for i, c := range have {
		switch c.State {
		case StateSent, StateGivenUp, StateDropped:
		default:
			if !kept[i] {
				drop = append(drop, c)
			}
		}
	}
	return plant, drop
}

// Reconcile makes the open chores of a batch those that are wanted: missing ones
// are added, moved ones get their new time, the rest is dropped. A chore already
// sent or given up stays as it is, so wanting it again says nothing twice. have is all
// that the batch has and had, read in this transaction.
func (t *Tx) Reconcile(conversation, batch int64, have []Chore, wants []Want) error {
	plant, drop := compare(have, wants)
	for _, w := range plant {
		if err := t.want(conversation, batch, w); err != nil {
			return err
		}
	}
	for _, c := range drop {
		if _, err := t.exec("UPDATE chore SET state = 'dropped', sent_at = ?, lease = '' WHERE id = ?", t.over(), c.ID); err != nil {
			return err
		}
	}
	return nil
}

// over is when a chore is over that is so from now on: never 0, by which those that
// have to be said yet are known.
func (t *Tx) over() int64 { return max(toMillis(t.now), 1) }

// berth is the range of ids for chores due in one minute. Rows lie in the order of
// their ids, so those taken up together lie together, whenever each was planted, and
// taking them up rewrites few pages.
func berth(due time.Time) (from, to int64) {
	const room = 1 << 24 // chores a minute
	minute := min(max(toMillis(due), 0)/time.Minute.Milliseconds(), 1<<38)
	return minute*room + 1, (minute+1)*room - 1
}

// berthed gives the next free id of a berth from ?1 to ?2; in a full one NULL, with
// which a row goes behind all others.
const berthed = "(SELECT CASE WHEN MAX(id) IS NULL THEN ?1 WHEN MAX(id) < ?2 THEN MAX(id) + 1 END FROM chore WHERE id BETWEEN ?1 AND ?2)"

const wantQuery = `INSERT INTO chore (id, conversation_id, batch_id, piece, kind, slot, due_at, try_at, urgency, planted_at, state, lane)
	SELECT ` + berthed + `, id, ?4, ?5, ?6, ?7, ?8, ?8, ?9, ?10, CASE parked WHEN '' THEN 'due' ELSE 'parked' END, ` + laneOf + `
	FROM conversation WHERE id = ?3
	ON CONFLICT (conversation_id, batch_id, piece, kind, slot) DO UPDATE
	SET id = CASE WHEN state = 'dropped' OR due_at = excluded.due_at THEN id ELSE excluded.id END,
	due_at = excluded.due_at, try_at = excluded.try_at, urgency = excluded.urgency, state = excluded.state, attempts = 0,
	planted_at = excluded.planted_at, sent_at = 0
	WHERE state = 'dropped' OR (state IN ('due', 'retry', 'parked') AND (due_at <> excluded.due_at OR urgency <> excluded.urgency))`

// want plants one chore. One that is moved gets another id; one that was dropped keeps
// its own, by which whoever may be saying it still will record that.
func (t *Tx) want(conversation, batch int64, w Want) error {
	from, to := berth(w.Due)
	_, err := t.exec(wantQuery, from, to, conversation, batch, w.Piece, w.Kind, w.Slot, toMillis(w.Due), w.Urgency, toMillis(t.now))
	return err
}

const enqueueQuery = `INSERT INTO chore (id, conversation_id, kind, slot, body, due_at, try_at, urgency, planted_at, state, lane)
	SELECT ` + berthed + `, id, ?4, ?5, ?6, ?7, ?7, ?8, ?9, CASE parked WHEN '' THEN 'due' ELSE 'parked' END, ` + laneOf + `
	FROM conversation WHERE id = ?3
	ON CONFLICT (conversation_id, batch_id, piece, kind, slot) DO NOTHING`

// Enqueue plants a message of the conversation as a whole; the same kind and slot
// is planted once.
func (t *Tx) Enqueue(conversation int64, kind, slot, body string, due time.Time, urgency int) error {
	from, to := berth(due)
	_, err := t.exec(enqueueQuery, from, to, conversation, kind, slot, body, toMillis(due), urgency, toMillis(t.now))
	return err
}

const choreColumns = "id, conversation_id, batch_id, piece, kind, slot, due_at, urgency, body, attempts, state, sent_at, lease, message, message_at, planted_at"

func choreInto(c *Chore) []any {
	return []any{&c.ID, &c.Conversation, &c.Batch, &c.Piece, &c.Kind, &c.Slot, instant(&c.Due), &c.Urgency, &c.Body,
		&c.Attempts, &c.State, instant(&c.Sent), &c.Lease, &c.Message, instant(&c.MessageAt), instant(&c.Planted)}
}

const choresOf = "SELECT " + choreColumns + " FROM chore WHERE "

// Chores lists the chores a batch has or had, in the order they were due.
func (t *Tx) Chores(batch int64) ([]Chore, error) {
	return gather(t, choreInto, choresQuery(ofOne), batch)
}
