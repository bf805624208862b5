package discordtest

// covered says which schemas an event is held to: "" is the payload itself, a
// name one of its fields. Interactions as such are not in the description; what
// they carry is.
var covered = map[string]map[string]string{
	"READY":               {"user": "UserPIIResponse"},
	"GUILD_CREATE":        {"": "GuildResponse", "members": "GuildMemberResponse", "channels": "GuildChannelResponse", "threads": "ThreadResponse"},
	"GUILD_UPDATE":        {"": "GuildResponse"},
	"GUILD_ROLE_CREATE":   {"role": "GuildRoleResponse"},
	"GUILD_ROLE_UPDATE":   {"role": "GuildRoleResponse"},
	"GUILD_MEMBER_UPDATE": {"": "GuildMemberResponse"},
	"CHANNEL_CREATE":      {"": "GuildChannelResponse"},
	"CHANNEL_UPDATE":      {"": "GuildChannelResponse"},
	"CHANNEL_DELETE":      {"": "GuildChannelResponse"},
	"THREAD_CREATE":       {"": "ThreadResponse"},
	"THREAD_UPDATE":       {"": "ThreadResponse"},
	"MESSAGE_CREATE":      {"": "MessageResponse"},
	"MESSAGE_UPDATE":      {"": "MessageResponse"},
	"INTERACTION_CREATE":  {"member": "PrivateGuildMemberResponse", "user": "UserResponse", "message": "MessageResponse"},
}

func (s *Server) checkEvent(event string, payload any) {
	if s.spec == nil || covered[event] == nil {
		return
	}
	s.countOther()
	o := object(payload)
	for field, schema := range covered[event] {
		values := []any{payload}
		if field != "" {
			if o[field] == nil {
				continue
			}
			values = []any{o[field]}
			if l, ok := o[field].([]any); ok {
				values = l
			}
		}
		for _, v := range values {
			s.holdEvent(event, field, v, schema)
		}
	}
	if event == "INTERACTION_CREATE" {
		s.holdEvent(event, "channel", o["channel"], channelSchema(o["channel"]))
		if r := object(o["data"])["resolved"]; r != nil {
			s.holdEvent(event, "data.resolved", r, "ResolvedObjectsResponse")
		}
	}
}

func channelSchema(v any) string {
	switch number(object(v)["type"]) {
	case directMessage:
		return "PrivateChannelResponse"
	case newsThread, publicThread, privateThread:
		return "ThreadResponse"
	}
	return "GuildChannelResponse"
}

func (s *Server) holdEvent(event, field string, v any, schema string) {
	if err := s.spec.component(v, schema); err != nil {
		s.violate("fake: %s %s is not as the OpenAPI description has it: %v", event, field, err)
	}
}
