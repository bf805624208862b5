package discordtest

import "strconv"

// Permissions is a bit set of topics/permissions.mdx.
type Permissions uint64

// The bits the fake acts upon or hands out.
const (
	CreateInstantInvite    Permissions = 1 << 0
	Administrator          Permissions = 1 << 3
	ManageChannels         Permissions = 1 << 4
	ManageGuild            Permissions = 1 << 5
	AddReactions           Permissions = 1 << 6
	ViewChannel            Permissions = 1 << 10
	SendMessages           Permissions = 1 << 11
	ManageMessages         Permissions = 1 << 13
	EmbedLinks             Permissions = 1 << 14
	AttachFiles            Permissions = 1 << 15
	ReadMessageHistory     Permissions = 1 << 16
	MentionEveryone        Permissions = 1 << 17
	UseExternalEmojis      Permissions = 1 << 18
	ChangeNickname         Permissions = 1 << 26
	ManageRoles            Permissions = 1 << 28
	ManageWebhooks         Permissions = 1 << 29
	UseApplicationCommands Permissions = 1 << 31
	ManageThreads          Permissions = 1 << 34
	CreatePublicThreads    Permissions = 1 << 35
	CreatePrivateThreads   Permissions = 1 << 36
	SendMessagesInThreads  Permissions = 1 << 38

	// AllPermissions is what an owner or administrator has.
	AllPermissions Permissions = 1<<53 - 1

	// EveryoneByDefault is what @everyone may in a guild made here: talk, use
	// commands and start public threads. It is a choice of this package.
	EveryoneByDefault = AddReactions | ViewChannel | SendMessages | EmbedLinks | AttachFiles |
		ReadMessageHistory | ChangeNickname | UseApplicationCommands | CreatePublicThreads | SendMessagesInThreads
)

// Has says whether all bits of want are set.
func (p Permissions) Has(want Permissions) bool { return p&want == want }

func (p Permissions) String() string { return strconv.FormatUint(uint64(p), 10) }

type overwrite struct {
	member      bool
	allow, deny Permissions
}

// basePermissions follows compute_base_permissions of topics/permissions.mdx.
func (g *Guild) basePermissions(p *Person) Permissions {
	m := g.members[p.ID]
	if m == nil {
		return 0
	}
	if g.ownerID == p.ID {
		return AllPermissions
	}
	all := g.roles[0].perms
	for _, r := range g.roles[1:] {
		if m.roles[r.ID] {
			all |= r.perms
		}
	}
	if all.Has(Administrator) {
		return AllPermissions
	}
	return all
}

// permissions follows compute_overwrites of the same page, then its section
// "Implicit Permissions": who may not see a channel may do nothing in it, who
// may not send may not attach either.
func (c *Channel) permissions(p *Person) Permissions {
	if c.guild == nil {
		return c.directPermissions(p)
	}
	perms := c.guild.basePermissions(p)
	if perms == AllPermissions {
		return perms
	}
	if perms == 0 {
		return 0
	}
	home := c
	if c.parent != nil {
		home = c.parent
	}
	if o, ok := home.overwrites[c.guild.ID]; ok {
		perms = perms&^o.deny | o.allow
	}
	var allow, deny Permissions
	for id := range c.guild.members[p.ID].roles {
		o := home.overwrites[id]
		allow, deny = allow|o.allow, deny|o.deny
	}
	perms = perms&^deny | allow
	if o, ok := home.overwrites[p.ID]; ok {
		perms = perms&^o.deny | o.allow
	}
	if !perms.Has(ViewChannel) || c.hiddenFrom(p, perms) {
		return 0
	}
	if !perms.Has(c.sendBit()) {
		perms &^= MentionEveryone | AttachFiles | EmbedLinks
	}
	return perms
}

func (c *Channel) sendBit() Permissions {
	if c.thread != nil {
		return SendMessagesInThreads
	}
	return SendMessages
}

// directPermissions: everything that makes sense between two (the documents
// give app_permissions for direct messages, no more).
func (c *Channel) directPermissions(p *Person) Permissions {
	if p.bot || c.recipient == p {
		return ViewChannel | SendMessages | EmbedLinks | AttachFiles | ReadMessageHistory |
			MentionEveryone | AddReactions | UseExternalEmojis | UseApplicationCommands
	}
	return 0
}

// hiddenFrom: private threads are for those in them and for thread managers.
func (c *Channel) hiddenFrom(p *Person, perms Permissions) bool {
	return c.kind == privateThread && !c.thread.members[p.ID] && !perms.Has(ManageThreads)
}
