package store

import (
	"encoding/json"
	"errors"
	"time"
)

// Conversation finds a conversation by its address, or ErrNotFound.
func (t *Tx) Conversation(a Address) (Conversation, error) {
	return t.conversation("address = ?", string(a))
}

// ConversationByID finds a conversation by its id, or ErrNotFound.
func (t *Tx) ConversationByID(id int64) (Conversation, error) {
	return t.conversation("id = ?", id)
}

func (t *Tx) conversation(where string, arg any) (Conversation, error) {
	return first(t.conversations(where, arg))
}

const conversationColumns = "SELECT id, address, settings, parked, created_at FROM conversation WHERE "

func (t *Tx) conversations(where string, args ...any) ([]Conversation, error) {
	var out []Conversation
	err := t.each(func(scan func(...any) error) error {
		var (
			c        Conversation
			settings string
		)
		if err := scan(&c.ID, &c.Address, &settings, &c.Parked, instant(&c.Created)); err != nil {
			return err
		}
		out = append(out, c)
		return json.Unmarshal([]byte(settings), &out[len(out)-1].Settings)
	}, conversationColumns+where, args...)
	return out, err
}

// SaveConversation adds the conversation (ID 0) or writes its settings, and gives
// it back with its id.
func (t *Tx) SaveConversation(c Conversation) (Conversation, error) {
	settings, err := toJSON(c.Settings)
	if err != nil {
		return c, err
	}
	if c.ID != 0 {
		_, err := t.exec("UPDATE conversation SET settings = ?, parked = ? WHERE id = ?", settings, c.Parked, c.ID)
		return c, err
	}
	c.Created = t.now
	res, err := t.exec("INSERT INTO conversation (address, settings, created_at) VALUES (?, ?, ?)",
		string(c.Address), settings, toMillis(t.now))
	if err != nil {
		return c, err
	}
	c.ID, err = res.LastInsertId()
	return c, err
}

// Member finds a person by key, adding them or taking up a new name as needed.
func (t *Tx) Member(conversation int64, key, name string) (Member, error) {
	m, err := t.member("conversation_id = ? AND key = ?", conversation, key)
	switch {
	case errors.Is(err, ErrNotFound):
		res, err := t.exec("INSERT INTO member (conversation_id, key, name) VALUES (?, ?, ?)", conversation, key, name)
		if err != nil {
			return m, err
		}
		id, err := res.LastInsertId()
		return Member{ID: id, Conversation: conversation, Key: key, Name: name}, err
	case err != nil:
		return m, err
	case name != "" && m.Name != name:
		m.Name = name
		_, err := t.exec("UPDATE member SET name = ? WHERE id = ?", name, m.ID)
		return m, err
	}
	return m, nil
}

// MemberByID finds a person by id, or ErrNotFound.
func (t *Tx) MemberByID(id int64) (Member, error) { return t.member("id = ?", id) }

// FindMember finds a person by key without adding them, or ErrNotFound.
func (t *Tx) FindMember(conversation int64, key string) (Member, error) {
	return t.member("conversation_id = ? AND key = ?", conversation, key)
}

// Members lists the people seen in a conversation, oldest first.
func (t *Tx) Members(conversation int64) ([]Member, error) {
	return t.members("conversation_id = ? ORDER BY id", conversation)
}

func (t *Tx) members(where string, args ...any) ([]Member, error) {
	return gather(t, func(m *Member) []any { return []any{&m.ID, &m.Conversation, &m.Key, &m.Name, instant(&m.Confirmed)} },
		"SELECT id, conversation_id, key, name, confirmed_at FROM member WHERE "+where, args...)
}

func (t *Tx) member(where string, args ...any) (Member, error) {
	return first(t.members(where, args...))
}

// Confirm notes that a person said they weigh curing mix on a 0.1 g scale.
func (t *Tx) Confirm(member int64) error {
	_, err := t.exec("UPDATE member SET confirmed_at = ? WHERE id = ?", toMillis(t.now), member)
	return err
}

// Draft is a person's cure worked out but not yet opened, as the JSON the bot
// wrote; ErrNotFound if there is none.
func (t *Tx) Draft(member int64) (body string, at time.Time, err error) {
	err = t.one("SELECT body, at FROM draft WHERE member_id = ?", []any{member}, &body, instant(&at))
	return body, at, err
}

// SaveDraft keeps a person's draft; an empty body drops it.
func (t *Tx) SaveDraft(member int64, body string) error {
	if body == "" {
		_, err := t.exec("DELETE FROM draft WHERE member_id = ?", member)
		return err
	}
	_, err := t.exec(`INSERT INTO draft (member_id, body, at) VALUES (?, ?, ?)
		ON CONFLICT (member_id) DO UPDATE SET body = excluded.body, at = excluded.at`, member, body, toMillis(t.now))
	return err
}
