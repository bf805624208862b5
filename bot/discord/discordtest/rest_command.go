package discordtest

import (
	"net/http"
	"strconv"
	"time"
)

// Counts of interactions/application-commands.mdx: 100 slash commands a scope
// and 200 creates a day and guild.
const (
	maxSlashCommands  = 100
	maxOtherCommands  = 15
	maxCreatesPerDay  = 200
	maxCommandSize    = 8000
	commandCreatesDay = 24 * time.Hour
)

// scope is where a command request goes: the guild of its path, or all.
func (c *call) scope() (g *Guild, had *[]*command, no answer) {
	if c.id("application_id") != c.s.appID {
		return nil, nil, refuse(404, 10002, "Unknown Application")
	}
	if id := c.id("guild_id"); id != "" {
		if g = c.s.guild(id); g == nil || !g.hasBot() {
			return nil, nil, missingAccess()
		}
		return g, &g.commands, answer{}
	}
	return nil, &c.s.global, answer{}
}

func listCommands(c *call) answer {
	_, had, no := c.scope()
	if had == nil {
		return no
	}
	return done(commandsJSON(c.s, *had))
}

// putCommands is the bulk overwrite: the list becomes exactly this.
func putCommands(c *call) answer {
	g, had, no := c.scope()
	if had == nil {
		return no
	}
	var next []*command
	for _, v := range list(c.body) {
		k, ok := c.upsert(g, *had, object(v))
		if !ok {
			return c.tooManyCreates()
		}
		next = append(next, k)
	}
	*had = next
	return done(commandsJSON(c.s, next))
}

func postCommand(c *call) answer {
	g, had, no := c.scope()
	if had == nil {
		return no
	}
	k, ok := c.upsert(g, *had, c.object())
	if !ok {
		return c.tooManyCreates()
	}
	status := 201
	for i, old := range *had {
		if old.id == k.id {
			(*had)[i], status = k, 200
		}
	}
	if status == 201 {
		*had = append(*had, k)
	}
	return answer{status: status, body: k.json(c.s)}
}

// upsert keeps the id of a command of the same name and type; a new name counts
// towards the daily creates, false past them.
func (c *call) upsert(g *Guild, had []*command, def obj) (*command, bool) {
	k := &command{guild: g, def: def, version: c.s.newID()}
	for _, old := range had {
		if old.name() == k.name() && old.kind() == k.kind() {
			k.id = old.id
			return k, true
		}
	}
	where := c.id("guild_id")
	var recent []time.Time
	for _, t := range c.s.creates[where] {
		if c.s.now().Sub(t) < commandCreatesDay {
			recent = append(recent, t)
		}
	}
	if len(recent) >= maxCreatesPerDay {
		return nil, false
	}
	c.s.creates[where] = append(recent, c.s.now())
	k.id = c.s.newID()
	return k, true
}

// tooManyCreates comes as a 429 that lasts until the first create of the day is
// a day old. It is no bucket's limit, so the bucket headers are not in it.
func (c *call) tooManyCreates() answer {
	wait := commandCreatesDay - c.s.now().Sub(c.s.creates[c.id("guild_id")][0])
	a := limited("", wait, "user", false).reply
	a.header = http.Header{"Retry-After": a.header["Retry-After"]}
	body := object(a.body)
	body["code"], body["message"] = 30034, "Maximum number of daily application command creates has been reached (200)"
	return a
}

func deleteCommand(c *call) answer {
	_, had, no := c.scope()
	if had == nil {
		return no
	}
	for i, k := range *had {
		if k.id == c.id("command_id") {
			*had = append((*had)[:i:i], (*had)[i+1:]...)
			return noContent()
		}
	}
	return refuse(404, 10063, "Unknown application command")
}

func commandsJSON(s *Server, ks []*command) []any {
	out := []any{}
	for _, k := range ks {
		out = append(out, k.json(s))
	}
	return out
}

// parsePermissions reads a bit set, written as a string by the prose documents
// and as an integer by the OpenAPI description.
func parsePermissions(v any) (Permissions, error) {
	if n, ok := whole(v); ok {
		return Permissions(n), nil
	}
	n, err := strconv.ParseUint(text(v), 10, 64)
	return Permissions(n), err
}
