package discordtest

// Gateway intents of events/gateway.mdx, "List of Intents".
const (
	intentGuilds         = 1 << 0
	intentMembers        = 1 << 1
	intentPresences      = 1 << 8
	intentGuildMessages  = 1 << 9
	intentDirectMessages = 1 << 12
	intentContent        = 1 << 15

	privilegedIntents = intentMembers | intentPresences | intentContent
	// knownIntents leaves out the bits the list does not name.
	knownIntents = 1<<17 - 1 | 3<<20 | 3<<24
)

func (c *Channel) messageIntent() int {
	if c.guild == nil {
		return intentDirectMessages
	}
	return intentGuildMessages
}

// asSeenByBot blanks what the bot may not read without the message content
// intent. It reads its own messages, direct messages and those that mention it
// (events/gateway.mdx, "Message Content Intent").
func (s *Server) asSeenByBot(m *message) obj {
	o := m.json()
	mine := m.author == s.bot || m.channel.guild == nil
	for _, p := range m.mentions.people {
		mine = mine || p == s.bot
	}
	if !mine {
		o["content"], o["embeds"], o["attachments"], o["components"] = "", []any{}, []any{}, []any{}
	}
	return o
}

// emitMessage sends MESSAGE_CREATE or MESSAGE_UPDATE with their extra fields.
// Ephemeral messages make no event here.
func (s *Server) emitMessage(event string, m *message) {
	if m.onlyFor != nil {
		return
	}
	o := s.asSeenByBot(m)
	o["channel_type"] = m.channel.kind
	if g := m.channel.guild; g != nil {
		if !m.channel.permissions(s.bot).Has(ViewChannel) {
			return
		}
		o["guild_id"] = g.ID
		if author := g.members[m.author.ID]; author != nil && m.via == nil {
			o["member"] = author.partialJSON()
		}
	}
	s.emit(event, m.channel.guildID(), m.channel.messageIntent(), o)
}

// emitGuildCreate: GUILD_CREATE comes with the guilds intent.
func (s *Server) emitGuildCreate(g *Guild) {
	s.emit("GUILD_CREATE", g.ID, intentGuilds, g.createJSON())
}
