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

// OwnCards gives all the cards of a batch to another owner, whether they are up or
// not. It leaves what a card shows alone.
func (t *Tx) OwnCards(batch int64, owner, name string) error {
	_, err := t.exec("UPDATE card SET owner = ?, owner_name = ? WHERE batch_id = ?", owner, name, batch)
	return err
}

// Card finds a card by its id, or ErrNotFound.
func (t *Tx) Card(id int64) (Card, error) { return t.card("WHERE id = ?", id) }

// CardByCode finds a card that is up on a platform by its code, or ErrNotFound.
func (t *Tx) CardByCode(code, lane string) (Card, error) {
	return t.card("WHERE code = ? AND code <> '' AND state = 'up' AND ? = (SELECT "+laneOf+" FROM conversation WHERE id = conversation_id)", code, lane)
}

func (t *Tx) card(where string, args ...any) (Card, error) {
	return first(t.cards(where, args...))
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
	return gather(t, func(c *Card) []any {
		return []any{&c.ID, &c.Batch, &c.Conversation, &c.Owner, &c.OwnerName, &c.Ref, &c.Shows, &c.State, &c.Code, instant(&c.At)}
	}, cardColumns+where, args...)
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
	return gather(t, func(v *Voice) []any { return []any{&v.Key, &v.Name} },
		"SELECT key, name FROM card_voice WHERE card_id = ? AND kind = ? ORDER BY at, key", card, kind)
}

const conversationsOf = "SELECT c.id FROM conversation c JOIN member m ON m.conversation_id = c.id WHERE m.key = ? AND " + laneOf + " = ?"

// ConversationsOf lists the conversations on a platform in which a person has
// spoken.
func (t *Tx) ConversationsOf(lane, key string) ([]Conversation, error) {
	return t.conversations("id IN ("+conversationsOf+") ORDER BY id", key, lane)
}
