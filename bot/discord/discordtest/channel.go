package discordtest

// Channel types of resources/channel.mdx.
const (
	textChannel   = 0
	directMessage = 1
	voiceChannel  = 2
	announcements = 5
	newsThread    = 10
	publicThread  = 11
	privateThread = 12
)

// Channel is a guild's channel, one of its threads, or a direct message.
type Channel struct {
	s  *Server
	ID string

	name       string
	topic      string
	kind       int
	guild      *Guild
	parent     *Channel
	recipient  *Person
	overwrites map[string]overwrite
	thread     *thread
	messages   []*message
	deleted    bool
}

// AddChannel makes a text channel.
func (g *Guild) AddChannel(name string) *Channel { return g.addChannel(name, textChannel) }

// AddAnnouncements makes an announcement channel.
func (g *Guild) AddAnnouncements(name string) *Channel { return g.addChannel(name, announcements) }

func (g *Guild) addChannel(name string, kind int) *Channel {
	var c *Channel
	g.s.locked(func() {
		c = &Channel{s: g.s, ID: g.s.newID(), name: name, kind: kind, guild: g, overwrites: map[string]overwrite{}}
		g.channels = append(g.channels, c)
		g.s.channels[c.ID] = c
		c.announce("CHANNEL_CREATE")
	})
	return c
}

// announce tells the bot of a channel, if it can see it.
func (c *Channel) announce(event string) {
	if c.guild.hasBot() && c.permissions(c.s.bot).Has(ViewChannel) {
		c.s.emit(event, c.guild.ID, intentGuilds, c.json())
	}
}

// Name is the channel's name as it stands.
func (c *Channel) Name() string {
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	return c.name
}

// Mention is how the channel is named in a message's source.
func (c *Channel) Mention() string { return "<#" + c.ID + ">" }

// Delete removes the channel or thread, by somebody's hand.
func (c *Channel) Delete() { c.s.locked(func() { c.delete() }) }

func (c *Channel) delete() {
	c.s.note("#%s is deleted", c.name)
	if c.thread != nil {
		c.s.emit("THREAD_DELETE", c.guild.ID, intentGuilds, obj{
			"id": c.ID, "guild_id": c.guild.ID, "parent_id": c.parent.ID, "type": c.kind,
		})
	} else if c.guild != nil {
		c.announce("CHANNEL_DELETE")
		for _, t := range c.guild.channels {
			if t.parent == c {
				t.deleted = true
			}
		}
	}
	c.deleted = true
}

// AllowRole and its three siblings set the channel's overwrite for a role or a
// person; a bit that is neither allowed nor denied follows the roles.
func (c *Channel) AllowRole(r *Role, p Permissions) { c.setOverwrite(r.ID, false, p, 0) }

// DenyRole denies a role something in this channel.
func (c *Channel) DenyRole(r *Role, p Permissions) { c.setOverwrite(r.ID, false, 0, p) }

// Allow grants a person something in this channel.
func (c *Channel) Allow(who *Person, p Permissions) { c.setOverwrite(who.ID, true, p, 0) }

// Deny denies a person, or the bot, something in this channel.
func (c *Channel) Deny(who *Person, p Permissions) { c.setOverwrite(who.ID, true, 0, p) }

func (c *Channel) setOverwrite(id string, isMember bool, allow, deny Permissions) {
	c.s.locked(func() {
		o := c.overwrites[id]
		o.member = isMember
		o.allow = (o.allow | allow) &^ deny
		o.deny = (o.deny | deny) &^ allow
		c.overwrites[id] = o
		c.announce("CHANNEL_UPDATE")
	})
}

// PermissionsOf is what a person may do here, all overwrites counted.
func (c *Channel) PermissionsOf(p *Person) Permissions {
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	return c.permissions(p)
}

func (c *Channel) guildID() string {
	if c.guild == nil {
		return ""
	}
	return c.guild.ID
}

func (c *Channel) lastMessageID() any {
	for i := len(c.messages) - 1; i >= 0; i-- {
		if m := c.messages[i]; !m.deleted && m.onlyFor == nil {
			return m.id
		}
	}
	return nil
}

func (c *Channel) json() obj {
	o := obj{"id": c.ID, "type": c.kind, "flags": 0, "last_message_id": c.lastMessageID()}
	switch {
	case c.kind == directMessage:
		o["recipients"] = []any{c.recipient.json()}
	case c.thread != nil:
		c.thread.fill(c, o)
	default:
		o["guild_id"], o["name"], o["position"], o["nsfw"] = c.guild.ID, c.name, 0, false
		o["parent_id"], o["rate_limit_per_user"] = nil, 0
		o["topic"] = nil
		if c.topic != "" {
			o["topic"] = c.topic
		}
		o["permission_overwrites"] = c.overwritesJSON()
	}
	return o
}

func (c *Channel) overwritesJSON() []any {
	ids := []any{}
	for id := range c.overwrites {
		ids = append(ids, id)
	}
	out := []any{}
	for _, id := range sorted(ids) {
		o := c.overwrites[text(id)]
		kind := 0
		if o.member {
			kind = 1
		}
		out = append(out, obj{"id": id, "type": kind, "allow": o.allow.String(), "deny": o.deny.String()})
	}
	return out
}
