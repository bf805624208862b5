package telegramtest

import "strconv"

// The kinds of chat (Bot API, Chat).
const (
	private    = "private"
	group      = "group"
	supergroup = "supergroup"
	channel    = "channel"
)

// chat is a chat as the platform knows it. The server's lock guards it.
type chat struct {
	id       int64
	kind     string
	title    string
	username string
	person   *User // of a private chat

	members map[int64]*member
	topics  map[int]*topic // nil where there never were any
	forum   bool

	messages []*message
	next     int // last message id, for chats that count their own

	started   bool  // private: the person has written to the bot
	blocked   bool  // private: the person blocked the bot
	dissolved bool  // group deleted, or the person's account
	movedTo   int64 // the supergroup a group became
	lastBot   int64 // which bot spoke last
}

type topic struct {
	name    string
	deleted bool
	closed  bool
}

// Statuses of a member (Bot API, ChatMember).
const (
	owner         = "creator"
	administrator = "administrator"
	ordinary      = "member"
	restricted    = "restricted"
	gone          = "left"
	banned        = "kicked"
)

type member struct {
	user   *User
	status string
}

func (m *member) in() bool { return m != nil && m.status != gone && m.status != banned }
func (m *member) admin() bool {
	return m != nil && (m.status == owner || m.status == administrator)
}

func (ch *chat) many() bool { return ch.kind == group || ch.kind == supergroup }

// ownIDs tells chats that number their messages themselves.
func (ch *chat) ownIDs() bool { return ch.kind == supergroup || ch.kind == channel }

func (ch *chat) join(u *User, status string) *member {
	m := &member{user: u, status: status}
	ch.members[u.ID] = m
	return m
}

// find returns a message that is still there.
func (ch *chat) find(id int) *message {
	if m := ch.ever(id); m != nil && !m.deleted {
		return m
	}
	return nil
}

// ever returns a message even if it was deleted.
func (ch *chat) ever(id int) *message {
	for _, m := range ch.messages {
		if m.id == id {
			return m
		}
	}
	return nil
}

func (s *Server) newChat(kind, title string) *chat {
	ch := &chat{kind: kind, title: title, members: map[int64]*member{}}
	switch kind {
	case group:
		s.people.nextGroup++
		ch.id = -s.people.nextGroup
	default:
		s.people.nextSuper++
		ch.id = -s.people.nextSuper
	}
	s.people.chats[ch.id] = ch
	return ch
}

func itoa(n int) string { return strconv.Itoa(n) }
