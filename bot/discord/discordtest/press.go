package discordtest

import "slices"

// Press presses a button of a message, named by its label or custom id. It ends
// the test when the message or the button is gone or disabled by now.
func (a *Seat) Press(m Message, what string) *Use {
	a.s.t.Helper()
	return a.touchPart(m, what, nil, false)
}

// PressStale presses a button as it was when m was read, as happens when two
// people press at once or a client has not seen an edit yet. The message itself
// may have changed since.
func (a *Seat) PressStale(m Message, what string) *Use {
	a.s.t.Helper()
	return a.touchPart(m, what, nil, true)
}

// Pick chooses values in a select menu, named by its custom id; a value may be
// given by its label. For menus of people, roles or channels values are ids.
func (a *Seat) Pick(m Message, menu string, values ...string) *Use {
	a.s.t.Helper()
	return a.touchPart(m, menu, values, false)
}

func (a *Seat) touchPart(m Message, what string, values []string, stale bool) *Use {
	a.s.t.Helper()
	a.mustSee("press "+what, 0)
	a.s.waitSession(a.channel)
	a.s.mu.Lock()
	defer a.s.mu.Unlock()
	defer a.s.touch()
	now := a.anyMessage(m.ID)
	if now == nil || !now.seenBy(a.person) && !stale {
		a.fail("press %q: the message is gone", what)
	}
	parts := now.parts
	if stale {
		v, err := decode(m.Raw)
		if err != nil {
			a.fail("press %q: %v", what, err)
		}
		parts = list(object(v)["components"])
	}
	part := clickable(parts, what)
	switch {
	case part == nil:
		a.fail("press %q: the message has no such component: %v", what, now.view().Labels())
	case truth(part["disabled"]):
		a.fail("press %q: it is disabled", what)
	case number(part["style"]) == linkButton:
		a.fail("press %q: a link tells the bot nothing", what)
	}
	i := a.s.newInteraction(componentUse, a.person, a.channel)
	i.source = now
	data := obj{"custom_id": part["custom_id"], "component_type": part["type"], "id": part["id"]}
	if number(part["type"]) != button {
		data["values"] = a.picked(part, values, data)
	}
	i.payload["message"], i.payload["data"] = now.json(), data
	a.s.note("%s presses %s", a.person.Name, text(part["custom_id"]))
	i.send()
	return &Use{i: i}
}

// anyMessage finds a message, a deleted one too.
func (a *Seat) anyMessage(id string) *message {
	for _, m := range a.channel.messages {
		if m.id == id {
			return m
		}
	}
	return nil
}

// picked checks values against a menu and fills the resolved data.
func (a *Seat) picked(part obj, values []string, data obj) []any {
	least, most := number(part["min_values"]), number(part["max_values"])
	if len(values) < least || len(values) > most {
		a.fail("pick in %q: %d values, it takes %d to %d", text(part["custom_id"]), len(values), least, most)
	}
	f := &filling{a: a, resolved: obj{}}
	out := []any{}
	for _, v := range values {
		switch kind := number(part["type"]); {
		case kind == stringSelect:
			out = append(out, a.option(part, v))
		case a.s.people[v] != nil && (kind == userSelect || kind == mentionableSelect):
			out = append(out, f.person(a.s.people[v]))
		case a.s.channels[v] != nil && kind == channelSelect:
			out = append(out, f.resolve("channels", v, a.s.channels[v].json()))
		case a.channel.guild != nil && a.channel.guild.role(v) != nil && (kind == roleSelect || kind == mentionableSelect):
			out = append(out, f.resolve("roles", v, a.channel.guild.role(v).json()))
		default:
			a.fail("pick in %q: %q is nothing it offers", text(part["custom_id"]), v)
		}
	}
	if len(f.resolved) > 0 {
		data["resolved"] = f.resolved
	}
	return out
}

func (a *Seat) option(part obj, want string) any {
	options := list(part["options"])
	at := slices.IndexFunc(options, func(v any) bool {
		o := object(v)
		return text(o["value"]) == want || text(o["label"]) == want
	})
	if at < 0 {
		a.fail("pick in %q: there is no option %q", text(part["custom_id"]), want)
	}
	return object(options[at])["value"]
}
