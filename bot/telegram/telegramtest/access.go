package telegramtest

import (
	"strconv"
	"strings"
)

// need is what a method wants of a chat.
type need int

const (
	toRead need = iota
	toEdit
	toWrite
	toReadMembers
)

// chatParam finds the chat a parameter names, nil if there is none.
func (s *Server) chatParam(value string) *chat {
	if name, ok := strings.CutPrefix(value, "@"); ok {
		for _, ch := range s.people.chats {
			if ch.username != "" && strings.EqualFold(ch.username, name) && ch.kind != private {
				return ch
			}
		}
		return nil
	}
	id, err := strconv.ParseInt(value, 10, 64)
	if err != nil {
		return nil
	}
	return s.people.chats[id]
}

func (s *Server) chatIDOf(c *call) int64 {
	if ch := s.chatParam(c.params["chat_id"]); ch != nil {
		return ch.id
	}
	return 0
}

// checkPlace reports a chat that never was and a topic that cannot be: both are
// mistakes of the bot, whatever became of the chat since.
func (s *Server) checkPlace(c *call) {
	where := c.params["chat_id"]
	if where == "" {
		return
	}
	ch := s.chatParam(where)
	if ch == nil {
		if id, _ := strconv.ParseInt(where, 10, 64); s.people.users[id] == nil {
			s.violate(c.rec.Method, "there is no chat %s", where)
		}
		return
	}
	if !c.has("message_thread_id") {
		return
	}
	switch n := int(c.integer("message_thread_id")); {
	case ch.topics == nil:
		s.violate(c.rec.Method, "message_thread_id %d in a chat that never had topics", n)
	case n == generalTopic:
		s.violate(c.rec.Method, "message_thread_id %d: for the General topic the parameter is left out", n)
	case ch.topics[n] == nil:
		s.violate(c.rec.Method, "message_thread_id %d: the chat never had that topic", n)
	}
}

const generalTopic = 1

// access finds the chat of a call and tells whether the bot may do something
// there, with the server's own errors (Client.cpp, check_chat_access).
func (s *Server) access(c *call, want need) (*chat, *refusal) {
	where := c.params["chat_id"]
	if where == "" {
		return nil, badRequest("chat_id is empty")
	}
	ch := s.chatParam(where)
	if ch == nil {
		id, _ := strconv.ParseInt(where, 10, 64)
		if u := s.people.users[id]; u != nil && want == toWrite && s.met(u) {
			return nil, forbidden("bot can't initiate conversation with a user")
		}
		return nil, badRequest("chat not found")
	}
	switch ch.kind {
	case private:
		return ch, s.accessPrivate(ch, want)
	case group:
		return ch, s.accessGroup(ch, want)
	default:
		return ch, s.accessSupergroup(ch)
	}
}

// met tells whether the bot has seen a person in one of its groups.
func (s *Server) met(u *User) bool {
	for _, ch := range s.people.chats {
		if ch.many() && ch.members[u.ID] != nil {
			return true
		}
	}
	return false
}

func (s *Server) accessPrivate(ch *chat, want need) *refusal {
	switch {
	case ch.dissolved && want != toRead:
		return forbidden("user is deactivated")
	case !ch.started && want == toWrite:
		return forbidden("bot can't initiate conversation with a user")
	case ch.blocked && want == toWrite:
		return forbidden("bot was blocked by the user")
	}
	return nil
}

func (s *Server) accessGroup(ch *chat, want need) *refusal {
	me := ch.members[s.bot.ID]
	switch {
	case ch.movedTo != 0 && (want == toWrite || want == toReadMembers):
		no := badRequest("group chat was upgraded to a supergroup chat")
		no.movedTo = ch.movedTo
		return no
	case ch.dissolved && (want == toWrite || want == toReadMembers):
		return forbidden("the group chat was deleted")
	case want == toRead || ch.movedTo != 0 || ch.dissolved:
		return nil
	case me != nil && me.status == banned:
		return forbidden("bot was kicked from the group chat")
	case !me.in():
		return forbidden("bot is not a member of the group chat")
	}
	return nil
}

func (s *Server) accessSupergroup(ch *chat) *refusal {
	me := ch.members[s.bot.ID]
	switch {
	case me != nil && me.status == banned:
		return forbidden("bot was kicked from the " + ch.kind + " chat")
	case !me.in():
		return forbidden("bot is not a member of the " + ch.kind + " chat")
	}
	return nil
}

// accessTopic tells whether the topic a call names can be written to.
func (s *Server) accessTopic(c *call, ch *chat) *refusal {
	n := int(c.integer("message_thread_id"))
	if n == 0 {
		return nil
	}
	t := ch.topics[n]
	if !ch.forum || t == nil || t.deleted || n == generalTopic {
		return badRequest("message thread not found")
	}
	if t.closed && !ch.members[s.bot.ID].admin() {
		return badRequest("TOPIC_CLOSED") // from memory
	}
	return nil
}

// mayPost tells whether the bot's rights let it send something there.
func (s *Server) mayPost(ch *chat, what string) *refusal {
	me := ch.members[s.bot.ID]
	if me != nil && me.status == restricted {
		return badRequest("not enough rights to send " + what + " to the chat")
	}
	if ch.kind == channel && !me.admin() {
		return badRequest("need administrator rights in the channel chat") // from memory
	}
	return nil
}
