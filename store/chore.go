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

const openOfBatch = "SELECT id, piece, kind, slot, state, due_at, urgency FROM chore WHERE batch_id = ? AND state IN ('due', 'retry', 'claimed', 'parked')"

// planted is a chore that is open, as far as planning anew asks.
type planted struct {
	id, due int64
	urgency int
	state   string
	wanted  bool
}

// asWanted says that planting it again would change nothing. A claimed one keeps
// its lease: whoever holds it looks at the batch as it is then.
func (p *planted) asWanted(w Want) bool {
	return p.state == StateClaimed || p.due == toMillis(w.Due) && p.urgency == w.Urgency
}

// AsWanted says that Reconcile would change nothing about chores, which are all that a
// batch has and had.
func AsWanted(chores []Chore, wants []Want) bool {
	have := map[[3]string]planted{}
	open := 0
	for _, c := range chores {
		switch c.State {
		case StateDropped:
			continue
		case StateSent, StateGivenUp:
		default:
			open++
		}
		have[[3]string{c.Piece, c.Kind, c.Slot}] = planted{due: toMillis(c.Due), urgency: c.Urgency, state: c.State}
	}
	for _, w := range wants {
		key := [3]string{w.Piece, w.Kind, w.Slot}
		p, is := have[key]
		over := p.state == StateSent || p.state == StateGivenUp
		if !is || !over && !p.asWanted(w) {
			return false
		}
		if !over {
			open--
			have[key] = planted{state: StateSent} // wanted twice is wanted once
		}
	}
	return open == 0
}

// Reconcile makes the open chores of a batch those that are wanted: missing ones
// are added, moved ones get their new time, the rest is dropped. A chore already
// sent or given up stays as it is, so wanting it again says nothing twice.
func (t *Tx) Reconcile(conversation, batch int64, wants []Want) error {
	have := map[[3]string]*planted{}
	err := t.each(func(scan func(...any) error) error {
		var (
			p                 planted
			piece, kind, slot string
		)
		err := scan(&p.id, &piece, &kind, &slot, &p.state, &p.due, &p.urgency)
		have[[3]string{piece, kind, slot}] = &p
		return err
	}, openOfBatch, batch)
	if err != nil {
		return err
	}
	for _, w := range wants {
		p, is := have[[3]string{w.Piece, w.Kind, w.Slot}]
		if is {
			p.wanted = true
			if p.asWanted(w) {
				continue
			}
		}
		if err := t.want(conversation, batch, w); err != nil {
			return err
		}
	}
	for _, p := range have {
		if p.wanted {
			continue
		}
		if _, err := t.exec("UPDATE chore SET state = 'dropped', sent_at = ?, lease = '' WHERE id = ?", t.over(), p.id); err != nil {
			return err
		}
	}
	return nil
}

// over is when a chore is over that is so from now on: never 0, by which those that
// have to be said yet are known.
func (t *Tx) over() int64 { return max(toMillis(t.now), 1) }

// want plants one chore.
func (t *Tx) want(conversation, batch int64, w Want) error {
	_, err := t.exec(`INSERT INTO chore (conversation_id, batch_id, piece, kind, slot, due_at, try_at, urgency, planted_at, state, lane)
		SELECT id, ?2, ?3, ?4, ?5, ?6, ?6, ?7, ?8, CASE parked WHEN '' THEN 'due' ELSE 'parked' END, `+laneOf+`
		FROM conversation WHERE id = ?1
		ON CONFLICT (conversation_id, batch_id, piece, kind, slot) DO UPDATE
		SET due_at = excluded.due_at, try_at = excluded.try_at, urgency = excluded.urgency, state = excluded.state, attempts = 0,
		planted_at = excluded.planted_at, sent_at = 0
		WHERE state = 'dropped' OR (state IN ('due', 'retry', 'parked') AND (due_at <> excluded.due_at OR urgency <> excluded.urgency))`,
		conversation, batch, w.Piece, w.Kind, w.Slot, toMillis(w.Due), w.Urgency, toMillis(t.now))
	return err
}

// Enqueue plants a message of the conversation as a whole; the same kind and slot
// is planted once.
func (t *Tx) Enqueue(conversation int64, kind, slot, body string, due time.Time, urgency int) error {
	_, err := t.exec(`INSERT INTO chore (conversation_id, kind, slot, body, due_at, try_at, urgency, planted_at, state, lane)
		SELECT id, ?2, ?3, ?4, ?5, ?5, ?6, ?7, CASE parked WHEN '' THEN 'due' ELSE 'parked' END, `+laneOf+`
		FROM conversation WHERE id = ?1 ON CONFLICT DO NOTHING`,
		conversation, kind, slot, body, toMillis(due), urgency, toMillis(t.now))
	return err
}

const choreColumns = "id, conversation_id, batch_id, piece, kind, slot, due_at, urgency, body, attempts, state, sent_at, lease, message, message_at, planted_at"

func scanChore(scan func(...any) error) (Chore, error) {
	var (
		c                        Chore
		due, sent, from, planted int64
	)
	err := scan(&c.ID, &c.Conversation, &c.Batch, &c.Piece, &c.Kind, &c.Slot, &due, &c.Urgency, &c.Body,
		&c.Attempts, &c.State, &sent, &c.Lease, &c.Message, &from, &planted)
	c.Due, c.Sent, c.MessageAt, c.Planted = fromMillis(due), fromMillis(sent), fromMillis(from), fromMillis(planted)
	return c, err
}

// Chores lists the chores a batch has or had, in the order they were due.
func (t *Tx) Chores(batch int64) ([]Chore, error) {
	var out []Chore
	err := t.each(func(scan func(...any) error) error {
		c, err := scanChore(scan)
		out = append(out, c)
		return err
	}, "SELECT "+choreColumns+" FROM chore WHERE batch_id = ? ORDER BY due_at, id", batch)
	return out, err
}
