package discordtest

func getMe(c *call) answer { return done(c.s.bot.privateJSON()) }

func getUser(c *call) answer {
	p := c.s.people[c.id("user_id")]
	if p == nil {
		return unknownUser()
	}
	return done(p.json())
}

// openDM succeeds for a person who takes no messages too; it is the sending
// that fails.
func openDM(c *call) answer {
	p := c.s.people[text(c.object()["recipient_id"])]
	if p == nil || p == c.s.bot {
		return refuse(400, 50033, "Invalid Recipient(s)")
	}
	return done(p.dm().json())
}

func getApplication(c *call) answer {
	guilds := 0
	for _, g := range c.s.guilds {
		if g.hasBot() {
			guilds++
		}
	}
	return done(obj{
		"id": c.s.appID, "name": c.s.bot.Name, "icon": nil, "description": "", "type": nil,
		"bot": c.s.bot.json(), "bot_public": true, "bot_require_code_grant": false,
		"verify_key": "0000000000000000000000000000000000000000000000000000000000000000",
		"flags":      0, "flags_new": "0", "redirect_uris": []any{}, "interactions_endpoint_url": nil,
		"role_connections_verification_url": nil, "owner": ownerJSON(c.s),
		"approximate_guild_count": guilds, "approximate_user_install_count": 0,
		"approximate_user_authorization_count": 0, "explicit_content_filter": 0, "team": nil,
		"eligible_oauth2_scopes": []any{}, "integration_types_config": obj{"0": obj{}},
	})
}

// ownerJSON: whoever made the application; no one a test needs to meet.
func ownerJSON(s *Server) obj {
	return (&Person{s: s, ID: s.appID, Name: "the owner"}).json()
}
