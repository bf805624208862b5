package discordtest

// theGuild finds a guild the bot is in.
func (c *call) theGuild() (*Guild, answer) {
	g := c.s.guild(c.id("guild_id"))
	if g == nil || !g.hasBot() {
		return nil, unknownGuild()
	}
	return g, answer{}
}

func getGuild(c *call) answer {
	g, no := c.theGuild()
	if g == nil {
		return no
	}
	return done(g.json())
}

func listRoles(c *call) answer {
	g, no := c.theGuild()
	if g == nil {
		return no
	}
	return done(g.json()["roles"])
}

func listChannels(c *call) answer {
	g, no := c.theGuild()
	if g == nil {
		return no
	}
	out := []any{}
	for _, ch := range g.channels {
		if ch.thread == nil && !ch.deleted {
			out = append(out, ch.json())
		}
	}
	return done(out)
}

func getMember(c *call) answer {
	g, no := c.theGuild()
	if g == nil {
		return no
	}
	id := c.id("user_id")
	if m := g.members[id]; m != nil {
		return done(m.json())
	}
	if c.s.people[id] == nil {
		return unknownUser()
	}
	return unknownMember()
}

// listMembers needs the privileged GUILD_MEMBERS intent (gateway.mdx, "HTTP
// Restrictions"), which this bot has not got.
func listMembers(*call) answer { return missingAccess() }

func listMyGuilds(c *call) answer {
	out := []any{}
	for _, g := range c.s.guilds {
		if g.hasBot() {
			out = append(out, obj{
				"id": g.ID, "name": g.Name, "icon": nil, "banner": nil, "owner": false,
				"permissions": g.basePermissions(c.s.bot).String(), "features": []any{},
			})
		}
	}
	return done(out)
}

func leaveGuild(c *call) answer {
	g, no := c.theGuild()
	if g == nil {
		return no
	}
	g.removeBot()
	return noContent()
}
