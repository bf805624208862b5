package discordtest

import "slices"

// Option types of interactions/application-commands.mdx.
const (
	optSubcommand  = 1
	optGroup       = 2
	optString      = 3
	optInteger     = 4
	optBoolean     = 5
	optUser        = 6
	optChannel     = 7
	optRole        = 8
	optMentionable = 9
	optNumber      = 10
	optAttachment  = 11
)

// command is a registered application command.
type command struct {
	id      string
	version string
	guild   *Guild // nil for a global one
	def     obj
}

func (k *command) name() string { return text(k.def["name"]) }

// kind is the command's type; slash commands are the default.
func (k *command) kind() int {
	if t := number(k.def["type"]); t != 0 {
		return t
	}
	return 1
}

func (k *command) json(s *Server) obj {
	o := object(withoutNulls(k.def))
	o["id"], o["application_id"], o["version"] = k.id, s.appID, k.version
	o["type"] = k.kind()
	setDefault(o, "description", "")
	setDefault(o, "nsfw", false)
	o["default_member_permissions"] = nil
	if p, ok := k.needs(); ok {
		o["default_member_permissions"] = p.String()
	}
	if k.guild != nil {
		o["guild_id"] = k.guild.ID
	} else {
		setDefault(o, "integration_types", []any{0})
		if o["contexts"] == nil {
			o["contexts"] = nil
		}
	}
	return o
}

// needs is default_member_permissions: which permissions a member needs; ok is
// false when the field is not set.
func (k *command) needs() (p Permissions, ok bool) {
	v := k.def["default_member_permissions"]
	if v == nil {
		return 0, false
	}
	n, err := parsePermissions(v)
	return n, err == nil
}

// worksIn says whether a global command's contexts take a guild or a direct
// message; absent contexts take all, and dm_permission false takes the latter
// away.
func (k *command) worksIn(c *Channel) bool {
	if k.guild != nil {
		return c.guild == k.guild
	}
	if v, ok := k.def["dm_permission"].(bool); ok && !v && c.guild == nil {
		return false
	}
	contexts := list(k.def["contexts"])
	if contexts == nil {
		return true
	}
	here := 1
	if c.guild != nil {
		here = 0
	}
	return slices.ContainsFunc(contexts, func(v any) bool { return number(v) == here })
}

// Command is a registered command, as a test reads it.
type Command struct {
	Name        string
	Description string
	GuildID     string // empty for a global one
	Definition  map[string]any
}

// Commands lists the registered commands, global ones first.
func (s *Server) Commands() []Command {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []Command
	for _, k := range s.allCommands() {
		c := Command{Name: k.name(), Description: text(k.def["description"]), Definition: object(recast(k.def))}
		if k.guild != nil {
			c.GuildID = k.guild.ID
		}
		out = append(out, c)
	}
	return out
}

// WaitCommands waits until the bot has registered some commands.
func (s *Server) WaitCommands() {
	s.t.Helper()
	s.wait("the bot to register its commands", func() bool { return len(s.allCommands()) > 0 })
}

func (s *Server) allCommands() []*command {
	out := slices.Clone(s.global)
	for _, g := range s.guilds {
		out = append(out, g.commands...)
	}
	return out
}
