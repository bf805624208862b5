package telegramtest

// TopicsOn makes a forum of a supergroup.
func (r *Room) TopicsOn() {
	r.act(func(s *Server, ch *chat) {
		ch.forum = true
		if ch.topics == nil {
			ch.topics = map[int]*topic{}
		}
	})
}

// TopicsOff ends that. The topics are kept, out of reach.
func (r *Room) TopicsOff() {
	r.act(func(s *Server, ch *chat) { ch.forum = false })
}

// NewTopic opens a topic. Its number is that of the message that says so.
func (r *Room) NewTopic(by *User, name string) *Room {
	r.s.t.Helper()
	s, ch := r.s, r.chat
	s.mu.Lock()
	defer s.mu.Unlock()
	if !ch.forum {
		s.t.Fatalf("telegram: %q has no topics", ch.title)
	}
	m := &message{chat: ch, from: by, inTopic: true, serviceText: by.name() + " opened " + name,
		service: object{"forum_topic_created": object{"name": name, "icon_color": 7322096}}}
	if ch.next == 0 {
		ch.next = generalTopic // message 1 stands for the General topic
	}
	m.thread = ch.next + 1
	s.post(m)
	ch.topics[m.id] = &topic{name: name}
	s.deliver("", m)
	return &Room{s: s, chat: ch, thread: m.id}
}

// RenameTopic gives the room's topic another name. Messages that answer no other go on
// answering the one that opened it, under its old name.
func (r *Room) RenameTopic(by *User, name string) {
	r.act(func(s *Server, ch *chat) {
		t := ch.topics[r.thread]
		if t == nil {
			return
		}
		t.name = name
		m := s.post(&message{chat: ch, from: by, thread: r.thread, inTopic: true, serviceText: by.name() + " calls it " + name,
			service: object{"forum_topic_edited": object{"name": name}}})
		s.deliver("", m)
	})
}

// DeleteTopic deletes the room's topic with everything in it. Bots are not told.
func (r *Room) DeleteTopic() {
	r.act(func(s *Server, ch *chat) {
		if t := ch.topics[r.thread]; t != nil {
			t.deleted = true
		}
		for _, m := range ch.messages {
			if m.inTopic && m.thread == r.thread {
				m.deleted = true
			}
		}
	})
}

// CloseTopic stops everyone but administrators from writing in the room's topic.
func (r *Room) CloseTopic(by *User) { r.setClosed(by, true) }

// ReopenTopic ends a CloseTopic.
func (r *Room) ReopenTopic(by *User) { r.setClosed(by, false) }

func (r *Room) setClosed(by *User, closed bool) {
	r.act(func(s *Server, ch *chat) {
		t := ch.topics[r.thread]
		if t == nil {
			return
		}
		t.closed = closed
		field := "forum_topic_reopened"
		if closed {
			field = "forum_topic_closed"
		}
		m := s.post(&message{chat: ch, from: by, thread: r.thread, inTopic: true,
			service: object{field: object{}}, serviceText: field})
		s.deliver("", m)
	})
}
