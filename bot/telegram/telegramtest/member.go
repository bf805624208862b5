package telegramtest

// changeBot gives the bot a new status in a chat and tells it. The lock is held.
func (s *Server) changeBot(ch *chat, by *User, status string) {
	old := member{user: s.bot, status: gone}
	if m := ch.members[s.bot.ID]; m != nil {
		old = *m
	}
	now := ch.join(s.bot, status)
	s.push("my_chat_member", object{"chat": wireChat(ch), "from": wireUser(by), "date": s.date(),
		"old_chat_member": wireMember(&old), "new_chat_member": wireMember(now)})
	s.touch()
}

// announce posts a service message. The lock is held.
func (s *Server) announce(ch *chat, by *User, shown string, fields object) *message {
	m := s.post(&message{chat: ch, from: by, service: fields, serviceText: shown})
	s.deliver("", m)
	return m
}

// act runs something a person does to a chat.
func (r *Room) act(do func(s *Server, ch *chat)) {
	r.s.mu.Lock()
	defer r.s.mu.Unlock()
	do(r.s, r.chat)
	r.s.touch()
}

// AddBot puts the bot into a group or channel.
func (r *Room) AddBot(by *User) {
	r.act(func(s *Server, ch *chat) {
		if ch.kind == channel {
			s.changeBot(ch, by, administrator)
			return
		}
		s.changeBot(ch, by, ordinary)
		s.announce(ch, by, by.name()+" added "+s.bot.name(), object{"new_chat_members": []object{wireUser(s.bot)}})
	})
}

// Kick removes the bot from a group.
func (r *Room) Kick(by *User) {
	r.act(func(s *Server, ch *chat) {
		s.changeBot(ch, by, banned)
		m := s.post(&message{chat: ch, from: by, service: object{"left_chat_member": wireUser(s.bot)},
			serviceText: by.name() + " removed " + s.bot.name()})
		s.push("message", s.wireMessage(m, false))
	})
}

// Mute takes away the bot's right to write, in a supergroup (basic groups restrict
// nobody); Unmute gives it back.
func (r *Room) Mute(by *User) {
	r.s.t.Helper()
	if r.chat.kind != supergroup {
		r.s.t.Fatalf("telegram: only a supergroup can restrict the bot")
	}
	r.act(func(s *Server, ch *chat) { s.changeBot(ch, by, restricted) })
}

// Unmute is described at Mute.
func (r *Room) Unmute(by *User) {
	r.act(func(s *Server, ch *chat) { s.changeBot(ch, by, ordinary) })
}

// PromoteBot makes the bot an administrator, which then reads everything said.
func (r *Room) PromoteBot(by *User) {
	r.act(func(s *Server, ch *chat) { s.changeBot(ch, by, administrator) })
}

// Block is what a person does in the private chat; Unblock ends it.
func (r *Room) Block() {
	r.act(func(s *Server, ch *chat) {
		s.changeBot(ch, ch.person, banned)
		ch.blocked = true
	})
}

// Unblock is described at Block.
func (r *Room) Unblock() {
	r.act(func(s *Server, ch *chat) {
		ch.blocked = false
		s.changeBot(ch, ch.person, ordinary)
	})
}

// Dissolve deletes a group, or the person's account of a private chat.
func (r *Room) Dissolve() {
	r.act(func(s *Server, ch *chat) { ch.dissolved = true })
}

// Join lets people in.
func (r *Room) Join(people ...*User) {
	r.act(func(s *Server, ch *chat) {
		for _, u := range people {
			s.changeMember(ch, u, ordinary)
			s.announce(ch, u, u.name()+" joined", object{"new_chat_members": []object{wireUser(u)}})
		}
	})
}

// Leave takes a person out.
func (r *Room) Leave(u *User) {
	r.act(func(s *Server, ch *chat) {
		s.changeMember(ch, u, gone)
		s.announce(ch, u, u.name()+" left", object{"left_chat_member": wireUser(u)})
	})
}

// Promote makes a person an administrator; Demote ends that.
func (r *Room) Promote(u *User) {
	r.act(func(s *Server, ch *chat) { s.changeMember(ch, u, administrator) })
}

// Demote is described at Promote.
func (r *Room) Demote(u *User) {
	r.act(func(s *Server, ch *chat) { s.changeMember(ch, u, ordinary) })
}

// changeMember gives a person a status. Only a bot that is an administrator and
// asked for it hears of that (Bot API, Update.chat_member).
func (s *Server) changeMember(ch *chat, u *User, status string) {
	old := member{user: u, status: gone}
	if m := ch.members[u.ID]; m != nil {
		old = *m
	}
	now := ch.join(u, status)
	if ch.members[s.bot.ID].admin() {
		s.push("chat_member", object{"chat": wireChat(ch), "from": wireUser(u), "date": s.date(),
			"old_chat_member": wireMember(&old), "new_chat_member": wireMember(now)})
	}
}

// Migrate turns a basic group into a supergroup and returns that. Both chats say
// so, and the old identifier is answered with the new one from now on.
func (r *Room) Migrate(by *User) *Room {
	r.s.t.Helper()
	return r.migrate(by, true)
}

// MigrateUnheard is a Migrate whose service messages never reach the bot, which
// then learns of it only when a call is refused.
func (r *Room) MigrateUnheard(by *User) *Room {
	r.s.t.Helper()
	return r.migrate(by, false)
}

func (r *Room) migrate(by *User, heard bool) *Room {
	r.s.t.Helper()
	s, old := r.s, r.chat
	s.mu.Lock()
	defer s.mu.Unlock()
	if old.kind != group || old.movedTo != 0 {
		s.t.Fatalf("telegram: only a basic group can become a supergroup, and once")
	}
	now := s.newChat(supergroup, old.title)
	for _, m := range old.members {
		now.join(m.user, m.status)
	}
	to := s.post(&message{chat: old, from: by, service: object{"migrate_to_chat_id": now.id}, serviceText: "the group became a supergroup"})
	from := s.post(&message{chat: now, from: by, service: object{"migrate_from_chat_id": old.id}, serviceText: "the group became a supergroup"})
	if heard {
		s.deliver("", to)
		s.deliver("", from)
	}
	old.movedTo = now.id
	s.touch()
	return &Room{s: s, chat: now}
}
