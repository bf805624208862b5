package telegramtest

// Room is a chat as a person has it open: a private chat, a group, a channel, or
// one topic of a forum. A forum's own Room shows its General topic.
type Room struct {
	s      *Server
	chat   *chat
	thread int
}

// ID is the chat's identifier.
func (r *Room) ID() int64 { return r.chat.id }

// Thread is the topic's message_thread_id, 0 outside topics.
func (r *Room) Thread() int { return r.thread }

// Private is a person's chat with the bot. Nobody has written in it yet, so the
// bot cannot either.
func (s *Server) Private(u *User) *Room {
	s.mu.Lock()
	defer s.mu.Unlock()
	ch := s.people.chats[u.ID]
	if ch == nil {
		ch = &chat{id: u.ID, kind: private, person: u, members: map[int64]*member{}}
		ch.join(u, ordinary)
		ch.join(s.bot, ordinary)
		s.people.chats[ch.id] = ch
	}
	return &Room{s: s, chat: ch}
}

// Group is a basic group with the bot in it. The first member owns it and has just
// added the bot, which hears of that.
func (s *Server) Group(title string, members ...*User) *Room { return s.open(group, title, members) }

// Supergroup is a supergroup without topics.
func (s *Server) Supergroup(title string, members ...*User) *Room {
	return s.open(supergroup, title, members)
}

// Forum is a supergroup with topics.
func (s *Server) Forum(title string, members ...*User) *Room {
	r := s.open(supergroup, title, members)
	r.TopicsOn()
	return r
}

// Channel is a channel the bot administers.
func (s *Server) Channel(title string, by *User) *Room {
	r := s.open(channel, title, []*User{by})
	return r
}

func (s *Server) open(kind, title string, members []*User) *Room {
	s.t.Helper()
	if len(members) == 0 {
		s.t.Fatalf("telegram: %q has nobody in it", title)
	}
	s.mu.Lock()
	ch := s.newChat(kind, title)
	for i, u := range members {
		status := ordinary
		if i == 0 {
			status = owner
		}
		ch.join(u, status)
	}
	s.mu.Unlock()
	r := &Room{s: s, chat: ch}
	r.AddBot(members[0])
	return r
}

// Named gives the chat a public @name.
func (r *Room) Named(username string) *Room {
	r.s.mu.Lock()
	defer r.s.mu.Unlock()
	r.chat.username = username
	return r
}

// shows tells whether a message is to be seen in this room.
func (r *Room) shows(m *message) bool {
	switch {
	case m.deleted:
		return false
	case r.thread != 0:
		return m.inTopic && m.thread == r.thread
	case r.chat.forum:
		return !m.inTopic
	}
	return true
}
