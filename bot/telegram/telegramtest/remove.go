package telegramtest

// deleteKept is how long a message can be deleted for everyone: 48 hours (Bot API,
// deleteMessage).
const deleteKept = 48 * 60 * 60

func (s *Server) deleteMessage(c *call) (any, *refusal) {
	ch, no := s.access(c, toWrite)
	if no != nil {
		return nil, no
	}
	m := ch.find(int(c.integer("message_id")))
	if m == nil {
		return nil, badRequest("message to delete not found")
	}
	if s.date()-m.date >= deleteKept || !m.mine && ch.kind != private && !ch.members[s.bot.ID].admin() {
		return nil, badRequest("message can't be deleted for everyone")
	}
	m.deleted = true
	return true, nil
}

// pinnable finds the message to pin. In a group only an administrator may (Bot
// API, pinChatMessage).
func (s *Server) pinnable(c *call, what string) (*message, *refusal) {
	ch, no := s.access(c, toWrite)
	if no != nil {
		return nil, no
	}
	if ch.kind != private && !ch.members[s.bot.ID].admin() {
		return nil, badRequest("not enough rights to manage pinned messages in the chat")
	}
	if what == "unpin" && !c.has("message_id") {
		for i := len(ch.messages) - 1; i >= 0; i-- {
			if m := ch.messages[i]; m.pinned && !m.deleted {
				return m, nil
			}
		}
	}
	m := ch.find(int(c.integer("message_id")))
	if m == nil || m.service != nil {
		return nil, badRequest("message to " + what + " not found")
	}
	return m, nil
}

func (s *Server) pinChatMessage(c *call) (any, *refusal) {
	m, no := s.pinnable(c, "pin")
	if no != nil {
		return nil, no
	}
	m.pinned = true
	return true, nil
}

func (s *Server) unpinChatMessage(c *call) (any, *refusal) {
	m, no := s.pinnable(c, "unpin")
	if no != nil {
		return nil, no
	}
	m.pinned = false
	return true, nil
}

func (s *Server) leaveChat(c *call) (any, *refusal) {
	ch, no := s.access(c, toEdit)
	if no != nil {
		return nil, no
	}
	if ch.kind == private {
		return nil, badRequest("chat member status can't be changed in private chats") // from memory
	}
	s.changeBot(ch, s.bot, gone)
	return true, nil
}
