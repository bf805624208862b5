package discordtest

// Person is a user of the platform: a human, or the bot itself.
type Person struct {
	s    *Server
	ID   string
	Name string

	bot       bool
	locale    string
	direct    *Channel
	dmsClosed bool
}

// PersonOption changes a person made with AddPerson.
type PersonOption func(*Person)

// InLocale sets the language of the person's client, such as "de"; "en-US" by
// default.
func InLocale(locale string) PersonOption { return func(p *Person) { p.locale = locale } }

// AddPerson makes a user who is in no guild yet.
func (s *Server) AddPerson(name string, opts ...PersonOption) *Person {
	var p *Person
	s.locked(func() {
		p = &Person{s: s, ID: s.newID(), Name: name, locale: "en-US"}
		for _, o := range opts {
			o(p)
		}
		s.people[p.ID] = p
	})
	return p
}

// CloseDMs makes every direct message of the bot to the person fail with 50007,
// as with a user who allows none.
func (p *Person) CloseDMs() { p.s.locked(func() { p.dmsClosed = true }) }

// OpenDMs undoes CloseDMs.
func (p *Person) OpenDMs() { p.s.locked(func() { p.dmsClosed = false }) }

// reachable says whether the bot may write to the person: they share a guild
// and direct messages are open.
func (p *Person) reachable() bool {
	if p.dmsClosed {
		return false
	}
	for _, g := range p.s.guilds {
		if g.members[p.ID] != nil && g.members[p.s.bot.ID] != nil {
			return true
		}
	}
	return false
}

// Mention is how the person is named in a message's source.
func (p *Person) Mention() string { return "<@" + p.ID + ">" }

func (p *Person) json() obj {
	o := obj{
		"id": p.ID, "username": p.Name, "global_name": p.Name, "discriminator": "0",
		"avatar": nil, "public_flags": 0, "flags": 0, "primary_guild": nil,
	}
	if p.bot {
		o["bot"] = true
		o["global_name"] = nil
		o["discriminator"] = "0001"
	}
	return o
}

// privateJSON is the bot's view of itself.
func (p *Person) privateJSON() obj {
	o := p.json()
	o["mfa_enabled"], o["locale"], o["verified"], o["email"] = false, p.locale, true, nil
	return o
}

// dm returns the channel between the person and the bot, making it at need.
func (p *Person) dm() *Channel {
	if p.direct == nil {
		c := &Channel{s: p.s, ID: p.s.newID(), kind: directMessage, recipient: p}
		p.s.channels[c.ID] = c
		p.direct = c
	}
	return p.direct
}
