package discordtest

import (
	"fmt"
	"slices"
	"strings"
)

// OptionValue is one option of a slash command, filled in.
type OptionValue struct {
	Name  string
	Value any
}

// Opt fills in an option. The value's Go type has to suit the option: a string,
// an int, a float64, a bool, a *Person, a *Channel, a *Role or a File.
func Opt(name string, value any) OptionValue { return OptionValue{name, value} }

// Slash runs a slash command such as "cure" or, with subcommands, "batch open".
// It ends the test where the client would not let the person: an unknown
// command or option, one they may not use, a required option missing, a value
// of the wrong type, outside the choices or the bounds.
func (a *Seat) Slash(name string, options ...OptionValue) *Use {
	a.s.t.Helper()
	i := a.use(name, options, commandUse, "")
	return &Use{i: i}
}

// use builds a command's or an autocompletion's interaction and sends it.
func (a *Seat) use(name string, options []OptionValue, kind int, focused string) *interaction {
	a.s.t.Helper()
	a.mustSee("use /"+name, 0)
	words := strings.Fields(name)
	a.s.wait("the command /"+words[0], func() bool {
		k, _ := a.command(words[0])
		return k != nil || len(a.s.allCommands()) > 0
	})
	a.s.waitSession(a.channel)
	a.s.mu.Lock()
	defer a.s.mu.Unlock()
	defer a.s.touch()
	if t := a.channel.thread; t != nil && t.archived {
		a.fail("/%s: application commands cannot be used in an archived thread", name)
	}
	k, why := a.command(words[0])
	if k == nil {
		a.fail("/%s: %s", name, why)
	}
	i := a.s.newInteraction(kind, a.person, a.channel)
	f := &filling{a: a, path: "/" + name, resolved: obj{}, focused: focused, partial: kind == autocompleteUse}
	data := obj{"id": k.id, "name": k.name(), "type": k.kind()}
	if k.guild != nil {
		data["guild_id"] = k.guild.ID
	}
	opts, full := f.descend(list(k.def["options"]), words[1:], options)
	data["options"] = opts
	i.name = strings.TrimSpace(k.name() + " " + full)
	if len(f.resolved) > 0 {
		data["resolved"] = f.resolved
	}
	i.payload["data"] = data
	if kind == commandUse {
		a.s.note("%s uses /%s %v", a.person.Name, i.name, options)
	}
	i.send()
	return i
}

// filling turns options into the payload's form.
type filling struct {
	a        *Seat
	path     string
	resolved obj
	focused  string
	partial  bool // autocompletion: what is missing or wrong is still being typed
}

// descend walks down subcommands; full is their names in the default language.
func (f *filling) descend(defs []any, words []string, options []OptionValue) (out []any, full string) {
	if len(words) == 0 {
		if len(defs) > 0 && number(object(defs[0])["type"]) <= optGroup {
			f.a.fail("%s: a subcommand has to be chosen", f.path)
		}
		return f.plain(defs, options), ""
	}
	for _, v := range defs {
		def := object(v)
		if kind := number(def["type"]); kind <= optGroup && f.a.called(def, words[0]) {
			inner, rest := f.descend(list(def["options"]), words[1:], options)
			full = strings.TrimSpace(text(def["name"]) + " " + rest)
			return []any{obj{"name": def["name"], "type": kind, "options": inner}}, full
		}
	}
	f.a.fail("%s: there is no subcommand %q", f.path, words[0])
	return nil, ""
}

func (f *filling) plain(defs []any, options []OptionValue) []any {
	out := []any{}
	given := map[string]bool{}
	for _, o := range options {
		at := slices.IndexFunc(defs, func(v any) bool { return f.a.called(object(v), o.Name) })
		if at < 0 {
			f.a.fail("%s: there is no option %q", f.path, o.Name)
		}
		def := object(defs[at])
		name := text(def["name"])
		if given[name] {
			f.a.fail("%s: option %q twice", f.path, name)
		}
		given[name] = true
		entry := obj{"name": name, "type": def["type"], "value": f.value(def, o.Value)}
		if name == f.focused || o.Name == f.focused && f.focused != "" {
			f.mustSuggest(def)
			entry["focused"] = true
		}
		out = append(out, entry)
	}
	for _, v := range defs {
		if def := object(v); truth(def["required"]) && !given[text(def["name"])] && !f.partial {
			f.a.fail("%s: option %q is required", f.path, text(def["name"]))
		}
	}
	return out
}

// resolve adds an entity to the resolved data under its kind and id.
func (f *filling) resolve(kind, id string, v obj) string {
	group := object(f.resolved[kind])
	if group == nil {
		group = obj{}
		f.resolved[kind] = group
	}
	group[id] = v
	return id
}

func (f *filling) person(p *Person) string {
	if g := f.a.channel.guild; g != nil && g.members[p.ID] != nil {
		m := g.members[p.ID].partialJSON()
		delete(m, "mute")
		delete(m, "deaf")
		m["permissions"] = f.a.channel.permissions(p).String()
		f.resolve("members", p.ID, m)
	}
	return f.resolve("users", p.ID, p.json())
}

func (f *filling) wrong(def obj, v any) any {
	f.a.fail("%s: option %q takes no %T (%v)", f.path, text(def["name"]), v, fmt.Sprint(v))
	return nil
}
