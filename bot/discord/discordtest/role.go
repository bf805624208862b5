package discordtest

import (
	"cmp"
	"slices"
)

// Role is a guild's role.
type Role struct {
	guild *Guild
	ID    string
	Name  string

	perms       Permissions
	position    int
	managed     bool
	mentionable bool
}

// AddRole makes a role above those there are.
func (g *Guild) AddRole(name string, p Permissions) *Role {
	var r *Role
	g.s.locked(func() {
		r = &Role{guild: g, ID: g.s.newID(), Name: name, perms: p, position: len(g.roles)}
		g.roles = append(g.roles, r)
		g.s.emit("GUILD_ROLE_CREATE", g.ID, intentGuilds, obj{"guild_id": g.ID, "role": r.json()})
	})
	return r
}

// Everyone is the role all members have.
func (g *Guild) Everyone() *Role { return g.roles[0] }

// BotRole is the role the bot got with its invite.
func (g *Guild) BotRole() *Role { return g.botRole }

// Set changes what the role may and tells the bot.
func (r *Role) Set(p Permissions) {
	g := r.guild
	g.s.locked(func() {
		r.perms = p
		g.s.emit("GUILD_ROLE_UPDATE", g.ID, intentGuilds, obj{"guild_id": g.ID, "role": r.json()})
	})
}

// Mentionable lets anybody ping the role.
func (r *Role) Mentionable() { r.guild.s.locked(func() { r.mentionable = true }) }

// Give gives a member a role.
func (g *Guild) Give(p *Person, r *Role) {
	g.s.locked(func() {
		g.members[p.ID].roles[r.ID] = true
		g.memberChanged(p)
	})
}

// Take takes a role from a member.
func (g *Guild) Take(p *Person, r *Role) {
	g.s.locked(func() {
		delete(g.members[p.ID].roles, r.ID)
		g.memberChanged(p)
	})
}

// memberChanged: GUILD_MEMBER_UPDATE needs a privileged intent, save for the
// bot's own (gateway.mdx, "Caveats").
func (g *Guild) memberChanged(p *Person) {
	if p.bot {
		o := g.members[p.ID].json()
		o["guild_id"] = g.ID
		g.s.emit("GUILD_MEMBER_UPDATE", g.ID, 0, o)
	}
}

func (g *Guild) role(id string) *Role {
	for _, r := range g.roles {
		if r.ID == id {
			return r
		}
	}
	return nil
}

func (r *Role) json() obj {
	return obj{
		"id": r.ID, "name": r.Name, "permissions": r.perms.String(), "position": r.position,
		"color": 0, "colors": obj{"primary_color": 0, "secondary_color": nil, "tertiary_color": nil},
		"hoist": false, "managed": r.managed, "mentionable": r.mentionable,
		"icon": nil, "unicode_emoji": nil, "flags": 0,
	}
}

// sorted orders ids, so that payloads made from a map come out the same.
func sorted(ids []any) []any {
	slices.SortFunc(ids, func(a, b any) int { return cmp.Compare(text(a), text(b)) })
	return ids
}
