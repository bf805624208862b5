package discordtest

import (
	"regexp"
	"slices"
	"strings"
)

// mentions is whom a message notifies.
type mentions struct {
	people   []*Person
	roles    []*Role
	everyone bool
}

// mentionRoom is where a message lands and what its author may do there.
type mentionRoom struct {
	channel *Channel
	author  *Person
	parse   []string // what is parsed when allowed_mentions is absent
}

// The defaults differ: a regular message parses all, an interaction's or a
// webhook's only users (resources/message.mdx, "Default Settings for Allowed
// Mentions").
func regularRoom(c *Channel, by *Person) mentionRoom {
	return mentionRoom{c, by, []string{"users", "roles", "everyone"}}
}

func answerRoom(c *Channel, by *Person) mentionRoom {
	return mentionRoom{c, by, []string{"users"}}
}

var mentionPattern = regexp.MustCompile(`<@(!|&)?(\d+)>|@everyone|@here`)

// readMentions finds who is notified: named in the text, allowed by
// allowed_mentions, and, for roles and everyone, permitted to the author.
func readMentions(content string, allowed any, room mentionRoom) mentions {
	var out mentions
	allow := object(allowed)
	parse := room.parse
	if allow != nil {
		parse = strs(allow["parse"])
	}
	loud := room.channel.permissions(room.author).Has(MentionEveryone)
	for _, m := range mentionPattern.FindAllStringSubmatch(content, -1) {
		switch kind, id := m[1], m[2]; {
		case id == "":
			out.everyone = out.everyone || loud && slices.Contains(parse, "everyone")
		case kind == "&":
			r := room.role(id)
			if r != nil && (r.mentionable || loud) && !slices.Contains(out.roles, r) &&
				(slices.Contains(parse, "roles") || slices.Contains(strs(allow["roles"]), id)) {
				out.roles = append(out.roles, r)
			}
		default:
			p := room.channel.s.people[id]
			if p != nil && !slices.Contains(out.people, p) &&
				(slices.Contains(parse, "users") || slices.Contains(strs(allow["users"]), id)) {
				out.people = append(out.people, p)
			}
		}
	}
	return out
}

func (room mentionRoom) role(id string) *Role {
	if room.channel.guild == nil {
		return nil
	}
	return room.channel.guild.role(id)
}

func (m mentions) peopleJSON() []any {
	out := []any{}
	for _, p := range m.people {
		out = append(out, p.json())
	}
	return out
}

func (m mentions) rolesJSON() []any {
	out := []any{}
	for _, r := range m.roles {
		out = append(out, r.ID)
	}
	return out
}

// names lists whom the message pings, as people are called.
func (m mentions) names() []string {
	var out []string
	if m.everyone {
		out = append(out, "everyone")
	}
	for _, r := range m.roles {
		out = append(out, r.Name)
	}
	for _, p := range m.people {
		out = append(out, p.Name)
	}
	return out
}

var namedPattern = regexp.MustCompile(`<(@[!&]?|#)(\d+)>`)

// readable shows mentions the way a client does, by name.
func (s *Server) readable(c *Channel, in string) string {
	return namedPattern.ReplaceAllStringFunc(in, func(m string) string {
		id := strings.Trim(m, "<@!&#>")
		switch {
		case strings.HasPrefix(m, "<#"):
			if ch := s.channels[id]; ch != nil {
				return "#" + ch.name
			}
		case strings.HasPrefix(m, "<@&"):
			if c.guild != nil && c.guild.role(id) != nil {
				return "@" + c.guild.role(id).Name
			}
		default:
			if p := s.people[id]; p != nil {
				return "@" + c.nameOf(p)
			}
		}
		return m
	})
}

func strs(v any) []string {
	var out []string
	for _, x := range list(v) {
		out = append(out, text(x))
	}
	return out
}
