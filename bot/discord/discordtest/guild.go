package discordtest

// Guild is a server, in the platform's own word for it.
type Guild struct {
	s    *Server
	ID   string
	Name string

	ownerID  string
	locale   string
	roles    []*Role // the first is @everyone
	botRole  *Role
	members  map[string]*member
	channels []*Channel
	commands []*command
}

type member struct {
	person *Person
	nick   string
	roles  map[string]bool
	since  string
}

// GuildOption changes a guild made with AddGuild.
type GuildOption func(*Guild)

// EveryonePermissions sets what @everyone may; EveryoneByDefault by default.
func EveryonePermissions(p Permissions) GuildOption {
	return func(g *Guild) { g.roles[0].perms = p }
}

// BotPermissions sets what the bot's own role adds, the number of an invite
// link; nothing by default.
func BotPermissions(p Permissions) GuildOption { return func(g *Guild) { g.botRole.perms = p } }

// InGuildLocale sets the guild's language; "en-US" by default.
func InGuildLocale(locale string) GuildOption { return func(g *Guild) { g.locale = locale } }

// WithoutBot makes a guild the bot is not in yet.
func WithoutBot() GuildOption { return func(g *Guild) { delete(g.members, g.s.bot.ID) } }

// AddGuild makes a guild with the bot in it and an owner nobody plays. Sessions
// that are up get its GUILD_CREATE.
func (s *Server) AddGuild(name string, opts ...GuildOption) *Guild {
	var g *Guild
	s.locked(func() {
		g = &Guild{s: s, ID: s.newID(), Name: name, locale: "en-US", members: map[string]*member{}}
		g.roles = []*Role{{guild: g, ID: g.ID, Name: "@everyone", perms: EveryoneByDefault}}
		g.botRole = &Role{guild: g, ID: s.newID(), Name: s.bot.Name, position: 1, managed: true}
		g.roles = append(g.roles, g.botRole)
		g.ownerID = s.newID()
		g.admit(s.bot)
		for _, o := range opts {
			o(g)
		}
		s.guilds = append(s.guilds, g)
		if g.hasBot() {
			s.emitGuildCreate(g)
		}
	})
	return g
}

func (g *Guild) hasBot() bool { return g.members[g.s.bot.ID] != nil }

func (g *Guild) admit(p *Person) *member {
	m := &member{person: p, roles: map[string]bool{}, since: stamp(g.s.now())}
	if p.bot {
		m.roles[g.botRole.ID] = true
	}
	g.members[p.ID] = m
	return m
}

// Join makes a person a member, with the given roles besides @everyone.
func (g *Guild) Join(p *Person, roles ...*Role) {
	g.s.locked(func() {
		m := g.admit(p)
		for _, r := range roles {
			m.roles[r.ID] = true
		}
	})
}

// Leave takes a person out of the guild.
func (g *Guild) Leave(p *Person) { g.s.locked(func() { delete(g.members, p.ID) }) }

// SetOwner makes a person the guild's owner, who may do everything.
func (g *Guild) SetOwner(p *Person) {
	g.s.locked(func() {
		g.ownerID = p.ID
		g.s.emit("GUILD_UPDATE", g.ID, intentGuilds, g.json())
	})
}

// Rename gives a member a name of their own in this guild.
func (g *Guild) Rename(p *Person, nick string) { g.s.locked(func() { g.members[p.ID].nick = nick }) }

// RemoveBot throws the bot out: it gets GUILD_DELETE, and its requests for the
// guild's channels are refused from then on.
func (g *Guild) RemoveBot() {
	g.s.locked(func() { g.removeBot() })
}

func (g *Guild) removeBot() {
	g.s.note("the bot is removed from %s", g.Name)
	g.s.emit("GUILD_DELETE", g.ID, intentGuilds, obj{"id": g.ID})
	delete(g.members, g.s.bot.ID)
}

// InviteBot brings the bot in (again).
func (g *Guild) InviteBot() {
	g.s.locked(func() {
		g.admit(g.s.bot)
		g.s.emitGuildCreate(g)
	})
}

// Outage makes the guild unavailable, which is not the same as removal:
// GUILD_DELETE carries unavailable.
func (g *Guild) Outage() {
	g.s.locked(func() {
		g.s.emit("GUILD_DELETE", g.ID, intentGuilds, obj{"id": g.ID, "unavailable": true})
	})
}

// Recover ends an outage.
func (g *Guild) Recover() { g.s.locked(func() { g.s.emitGuildCreate(g) }) }

// PermissionsOf is what a person may in the guild before any channel's
// overwrites.
func (g *Guild) PermissionsOf(p *Person) Permissions {
	g.s.mu.Lock()
	defer g.s.mu.Unlock()
	return g.basePermissions(p)
}

func (s *Server) guild(id string) *Guild {
	for _, g := range s.guilds {
		if g.ID == id {
			return g
		}
	}
	return nil
}
