package telegramtest

import (
	"cmp"
	"slices"
)

func (s *Server) getMe(*call) (any, *refusal) {
	o := wireUser(s.bot)
	o["can_join_groups"] = true
	o["can_read_all_group_messages"] = !s.cfg.privacy
	o["supports_inline_queries"] = false
	return o, nil
}

func (s *Server) endSession(c *call) (any, *refusal) {
	s.off = c.method
	return true, nil
}

func (s *Server) getChat(c *call) (any, *refusal) {
	ch, no := s.access(c, toRead)
	if no != nil {
		return nil, no
	}
	o := wireChat(ch)
	o["accent_color_id"] = 0
	o["max_reaction_count"] = 11
	gifts := object{}
	for _, kind := range []string{"unlimited_gifts", "limited_gifts", "unique_gifts", "premium_subscription", "gifts_from_channels"} {
		gifts[kind] = false
	}
	o["accepted_gift_types"] = gifts
	if ch.many() {
		o["permissions"] = object{"can_send_messages": true, "can_send_photos": true, "can_send_documents": true}
	}
	return o, nil
}

func (s *Server) getChatMember(c *call) (any, *refusal) {
	id := c.integer("user_id")
	want := toReadMembers
	if id == s.bot.ID {
		want = toRead
	}
	ch, no := s.access(c, want)
	if no != nil {
		return nil, no
	}
	u := s.people.users[id]
	if u == nil {
		s.violate(c.rec.Method, "there is no user %d", id)
		return nil, badRequest("user not found")
	}
	if m := ch.members[id]; m != nil {
		return wireMember(m), nil
	}
	return wireMember(&member{user: u, status: gone}), nil
}

// getChatAdministrators leaves other bots out (Bot API).
func (s *Server) getChatAdministrators(c *call) (any, *refusal) {
	ch, no := s.access(c, toReadMembers)
	if no != nil {
		return nil, no
	}
	if ch.kind == private {
		return nil, badRequest("there are no administrators in the private chat")
	}
	out := []object{}
	for _, m := range ch.sorted() {
		if m.admin() && (!m.user.IsBot || m.user == s.bot) {
			out = append(out, wireMember(m))
		}
	}
	return out, nil
}

func (ch *chat) sorted() []*member {
	var out []*member
	for _, m := range ch.members {
		out = append(out, m)
	}
	slices.SortFunc(out, func(a, b *member) int { return cmp.Compare(a.user.ID, b.user.ID) })
	return out
}
