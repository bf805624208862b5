package discordtest

func (g *Guild) json() obj {
	roles := []any{}
	for _, r := range g.roles {
		roles = append(roles, r.json())
	}
	return obj{
		"id": g.ID, "name": g.Name, "owner_id": g.ownerID, "roles": roles, "preferred_locale": g.locale,
		"icon": nil, "description": nil, "home_header": nil, "splash": nil, "discovery_splash": nil,
		"features": []any{}, "banner": nil, "application_id": nil, "region": "deprecated",
		"afk_channel_id": nil, "afk_timeout": 300, "system_channel_id": nil, "system_channel_flags": 0,
		"widget_enabled": false, "widget_channel_id": nil, "verification_level": 0,
		"default_message_notifications": 1, "mfa_level": 0, "explicit_content_filter": 0,
		"max_presences": nil, "max_members": 250000, "max_stage_video_channel_users": 50,
		"max_video_channel_users": 25, "vanity_url_code": nil, "premium_tier": 0,
		"premium_subscription_count": 0, "rules_channel_id": nil, "safety_alerts_channel_id": nil,
		"public_updates_channel_id": nil, "premium_progress_bar_enabled": false, "nsfw": false,
		"nsfw_level": 0, "emojis": []any{}, "stickers": []any{}, "incidents_data": nil,
	}
}

// createJSON is the payload of GUILD_CREATE: without the presence intent its
// members are the bot alone (gateway-events.mdx, "Guild Create").
func (g *Guild) createJSON() obj {
	o := g.json()
	channels, threads := []any{}, []any{}
	for _, c := range g.channels {
		switch {
		case c.deleted || !c.permissions(g.s.bot).Has(ViewChannel):
		case c.thread == nil:
			channels = append(channels, c.json())
		case !c.thread.archived:
			threads = append(threads, c.json())
		}
	}
	me := g.members[g.s.bot.ID]
	o["joined_at"], o["large"], o["member_count"] = me.since, false, len(g.members)
	o["members"] = []any{me.json()}
	o["channels"], o["threads"] = channels, threads
	o["voice_states"], o["presences"], o["stage_instances"] = []any{}, []any{}, []any{}
	o["guild_scheduled_events"], o["soundboard_sounds"] = []any{}, []any{}
	return o
}

func (m *member) json() obj {
	o := m.partialJSON()
	o["user"] = m.person.json()
	return o
}

// partialJSON lacks the user, as in message events.
func (m *member) partialJSON() obj {
	var nick any
	if m.nick != "" {
		nick = m.nick
	}
	roles := []any{}
	for id := range m.roles {
		roles = append(roles, id)
	}
	return obj{
		"avatar": nil, "banner": nil, "communication_disabled_until": nil, "flags": 0,
		"joined_at": m.since, "nick": nick, "pending": false, "premium_since": nil,
		"roles": sorted(roles), "mute": false, "deaf": false,
	}
}

// nameOf is what a person is called in a channel.
func (c *Channel) nameOf(p *Person) string {
	if c.guild != nil {
		if m := c.guild.members[p.ID]; m != nil && m.nick != "" {
			return m.nick
		}
	}
	return p.Name
}
