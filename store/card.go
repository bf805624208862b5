package store

import "time"

// Card is a batch shown in a conversation and kept up to date there.
type Card struct {
	ID           int64
	Batch        int64
	Conversation int64  // where it is shown
	Owner        string // whose batch it is
	OwnerName    string
	Ref          string // the platform's name for the message; empty until it is posted
	Shows        string // digest of what it shows now
	State        string
	Code         string // what it is found by from elsewhere; empty: it is not
	At           time.Time
}

// The states of a card.
const (
	CardUp   = "up"
	CardDown = "down" // to be taken down
	CardGone = "gone"
)

// Voice is someone who follows a card, or has cheered.
type Voice struct {
	Key, Name string
}

// The kinds of voice.
const (
	Follows = "follow"
	Cheers  = "cheer"
)

// AddCard shows a batch in a conversation, or gives the card that is up there.
func (t *Tx) AddCard(c Card) (Card, error) {
	have, err := t.cards("WHERE batch_id = ? AND conversation_id = ? AND state = 'up'", c.Batch, c.Conversation)
	if err != nil || len(have) > 0 {
		if err == nil {
			c = have[0]
		}
		return c, err
	}
	c.State, c.At = CardUp, t.now
	res, err := t.exec("INSERT INTO card (batch_id, conversation_id, owner, owner_name, code, at) VALUES (?, ?, ?, ?, ?, ?)",
		c.Batch, c.Conversation, c.Owner, c.OwnerName, c.Code, toMillis(t.now))
	if err != nil {
		return c, err
	}
	c.ID, err = res.LastInsertId()
	return c, err
}

// SaveCard writes a card's message, what it shows and its state.
func (t *Tx) SaveCard(c Card) error {
	_, err := t.exec("UPDATE card SET ref = ?, shows = ?, state = ? WHERE id = ?", c.Ref, c.Shows, c.State, c.ID)
	return err
}

// Card finds a card by its id, or ErrNotFound.
func (t *Tx) Card(id int64) (Card, error) { return t.card("WHERE id = ?", id) }

// CardByCode finds a card that is up on a platform by its code, or ErrNotFound.
func (t *Tx) CardByCode(code, lane string) (Card, error) {
	return t.card("WHERE code = ? AND code <> '' AND state = 'up' AND ? = (SELECT "+laneOf+" FROM conversation WHERE id = conversation_id)", code, lane)
}

func (t *Tx) card(where string, args ...any) (Card, error) {
	list, err := t.cards(where, args...)
	if err == nil && len(list) == 0 {
		err = ErrNotFound
	}
	if err != nil {
		return Card{}, err
	}
	return list[0], nil
}

// CardsOf lists the cards of a batch that are up.
func (t *Tx) CardsOf(batch int64) ([]Card, error) {
	return t.cards("WHERE batch_id = ? AND state = 'up' ORDER BY id", batch)
}

const cardsIn = "WHERE conversation_id = ? AND state = 'up' ORDER BY id"

// CardsIn lists the cards that are up in a conversation.
func (t *Tx) CardsIn(conversation int64) ([]Card, error) {
	return t.cards(cardsIn, conversation)
}

const cardColumns = "SELECT id, batch_id, conversation_id, owner, owner_name, ref, shows, state, code, at FROM card "

func (t *Tx) cards(where string, args ...any) ([]Card, error) {
	var out []Card
	err := t.each(func(scan func(...any) error) error {
		var (
			c  Card
			at int64
		)
		err := scan(&c.ID, &c.Batch, &c.Conversation, &c.Owner, &c.OwnerName, &c.Ref, &c.Shows, &c.State, &c.Code, &at)
		c.At = fromMillis(at)
		out = append(out, c)
		return err
	}, cardColumns+where, args...)
	return out, err
}

// Speak notes that someone follows a card or cheers; twice is once. on takes it up,
// otherwise it is taken back. changed says whether anything is different now.
func (t *Tx) Speak(card int64, kind string, v Voice, on bool) (changed bool, err error) {
	query, args := "DELETE FROM card_voice WHERE card_id = ? AND kind = ? AND key = ?", []any{card, kind, v.Key}
	if on {
		query = "INSERT INTO card_voice (card_id, kind, key, name, at) VALUES (?, ?, ?, ?, ?) ON CONFLICT DO NOTHING"
		args = append(args, v.Name, toMillis(t.now))
	}
	res, err := t.exec(query, args...)
	if err != nil {
		return false, err
	}
	n, err := res.RowsAffected()
	return n > 0, err
}

// Voices lists who follows a card, or cheered, in the order they did.
func (t *Tx) Voices(card int64, kind string) ([]Voice, error) {
	var out []Voice
	err := t.each(func(scan func(...any) error) error {
		var v Voice
		err := scan(&v.Key, &v.Name)
		out = append(out, v)
		return err
	}, "SELECT key, name FROM card_voice WHERE card_id = ? AND kind = ? ORDER BY at, key", card, kind)
	return out, err
}

const conversationsOf = "SELECT c.id FROM conversation c JOIN member m ON m.conversation_id = c.id WHERE m.key = ? AND " + laneOf + " = ? ORDER BY c.id"

// ConversationsOf lists the conversations on a platform in which a person has
// spoken.
func (t *Tx) ConversationsOf(lane, key string) ([]Conversation, error) {
	return t.conversations(conversationsOf, key, lane)
}

func (t *Tx) conversations(query string, args ...any) ([]Conversation, error) {
	var ids []int64
	err := t.each(func(scan func(...any) error) error {
		var id int64
		err := scan(&id)
		ids = append(ids, id)
		return err
	}, query, args...)
	if err != nil {
		return nil, err
	}
	out := make([]Conversation, len(ids))
	for i, id := range ids {
		if out[i], err = t.ConversationByID(id); err != nil {
			return nil, err
		}
	}
	return out, nil
}
