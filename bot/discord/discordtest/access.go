package discordtest

import "strings"

// CommandOverwrite is an administrator's rule in Server Settings, Integrations:
// it allows or forbids a command, or with an empty Command all of the bot's, to
// a role, a person or in a channel.
type CommandOverwrite struct {
	Guild   *Guild
	Command string
	Role    *Role
	Person  *Person
	Channel *Channel
	Allow   bool

	id string // of the command meant; a rule goes when that is taken away
}

// OverrideCommand adds a rule; a later rule for the same target wins. It is kept for
// the command's id, as the platform does: one taken away and made again is another.
func (s *Server) OverrideCommand(o CommandOverwrite) {
	s.t.Helper()
	s.locked(func() {
		for _, k := range s.allCommands() {
			if k.name() == o.Command && (k.guild == nil || k.guild == o.Guild) {
				o.id = k.id
			}
		}
		s.overwrites = append(s.overwrites, o)
	})
	if o.Command != "" && o.id == "" {
		s.t.Fatalf("discordtest: no command is named %s", o.Command)
	}
}

// mayUse follows interactions/application-commands.mdx, "Permissions": why a
// member may not use a command in a channel; empty when they may.
func (k *command) mayUse(p *Person, c *Channel) string {
	if !k.worksIn(c) {
		return "it is not offered in this kind of channel"
	}
	if c.guild == nil {
		return ""
	}
	perms := c.permissions(p)
	if perms.Has(Administrator) {
		return ""
	}
	if !perms.Has(UseApplicationCommands) {
		return p.Name + " may not use application commands here"
	}
	s := c.s
	if ok, set := s.rule(k, c.guild, func(o CommandOverwrite) bool { return o.Channel != nil && (o.Channel == c || o.Channel == c.parent) }); set && !ok {
		return "an administrator forbade it in this channel"
	}
	member := c.guild.members[p.ID]
	if ok, set := s.rule(k, c.guild, func(o CommandOverwrite) bool { return o.Person == p }); set {
		return verdict(ok, "an administrator forbade it to "+p.Name)
	}
	allowed, denied := false, false
	for _, r := range c.guild.roles[1:] {
		if ok, set := s.rule(k, c.guild, func(o CommandOverwrite) bool { return o.Role == r }); set && member.roles[r.ID] {
			allowed, denied = allowed || ok, denied || !ok
		}
	}
	if allowed || denied {
		return verdict(allowed, "an administrator forbade it to a role of "+p.Name)
	}
	if ok, set := s.rule(k, c.guild, func(o CommandOverwrite) bool { return o.Role == c.guild.roles[0] }); set {
		return verdict(ok, "an administrator forbade it to @everyone")
	}
	need, set := k.needs()
	if set && (need == 0 || !perms.Has(need)) {
		return "it needs permissions (" + need.String() + ") that " + p.Name + " has not got"
	}
	return ""
}

func verdict(ok bool, why string) string {
	if ok {
		return ""
	}
	return why
}

// rule finds the latest rule for a target; one for the command itself goes
// before one for all commands.
func (s *Server) rule(k *command, g *Guild, is func(CommandOverwrite) bool) (allow, set bool) {
	for _, id := range []string{"", k.id} {
		for _, o := range s.overwrites {
			if o.Guild == g && o.id == id && is(o) {
				allow, set = o.Allow, true
			}
		}
	}
	return allow, set
}

// CanUse says whether the person's client offers a slash command here, and if
// not, why. Only the command's first word counts.
func (a *Seat) CanUse(name string) (ok bool, why string) {
	a.s.mu.Lock()
	defer a.s.mu.Unlock()
	k, why := a.command(strings.Fields(name)[0])
	if k == nil {
		return false, why
	}
	return true, ""
}

// command finds the slash command a person would pick here by its name, or by
// its name in the language of their client.
func (a *Seat) command(name string) (*command, string) {
	var found []*command
	why := "no command is named " + name
	for _, k := range a.s.allCommands() {
		if k.kind() != 1 || k.guild != nil && k.guild != a.channel.guild || !a.called(k.def, name) {
			continue
		}
		if no := k.mayUse(a.person, a.channel); no != "" {
			why = no
			continue
		}
		found = append(found, k)
	}
	switch len(found) {
	case 0:
		return nil, why
	case 1:
		return found[0], ""
	}
	return nil, "two commands named " + name + " show here, a global one and the guild's own"
}

// called says whether a command or option goes by a name, for this person.
func (a *Seat) called(def obj, name string) bool {
	return text(def["name"]) == name || text(object(def["name_localizations"])[a.person.locale]) == name
}
