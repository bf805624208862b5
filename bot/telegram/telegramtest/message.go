package telegramtest

import "larderhand/bot/telegram/telegramtest/internal/markup"

// message is a message as the platform keeps it. The server's lock guards it.
type message struct {
	id   int
	chat *chat
	mine bool  // the bot under test sent it
	from *User // nil for channel posts
	as   *chat // sender_chat

	date, edited int64
	edits        int
	thread       int  // message_thread_id
	inTopic      bool // is_topic_message
	replyTo      int

	text    markup.Text
	caption markup.Text
	photo   bool
	file    *storedFile

	markup  *replyMarkup
	past    [][]Button // buttons it once had
	silent  bool
	preview bool
	pinned  bool
	forward *message // the channel post it was copied from

	service     object // what a service message adds on the wire
	serviceText string // and how a person reads it
	deleted     bool
}

// post gives a message its number and date and puts it in its chat. The lock is
// held.
func (s *Server) post(m *message) *message {
	if m.chat.ownIDs() {
		m.chat.next++
		m.id = m.chat.next
	} else {
		s.people.nextShared++
		m.id = s.people.nextShared
	}
	m.date = s.date()
	m.chat.messages = append(m.chat.messages, m)
	if m.from != nil && m.from.IsBot && m.as == nil {
		m.chat.lastBot = m.from.ID
	}
	s.touch()
	return m
}

// place puts a reply where the message it answers is, unless a topic was named.
func (m *message) place(thread int) {
	answered := m.chat.find(m.replyTo)
	switch {
	case m.chat.forum:
		if thread == 0 && answered != nil {
			thread = answered.thread
		}
		m.thread, m.inTopic = thread, thread != 0
	case m.chat.kind == supergroup && answered != nil:
		// A reply in a group without topics carries the number of the message its
		// thread began with, and that is no topic.
		m.thread = answered.id
		if answered.thread != 0 {
			m.thread = answered.thread
		}
	}
}

// inline is the keyboard under the message, nil if there is none.
func (m *message) inline() [][]Button {
	if m.markup == nil {
		return nil
	}
	return m.markup.rows
}

// remember keeps buttons that an edit is about to take away: an app that has not
// caught up can still press them.
func (m *message) remember() { m.past = append(m.past, m.inline()...) }
