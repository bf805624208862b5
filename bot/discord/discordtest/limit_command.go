package discordtest

import (
	"regexp"
	"slices"
	"strings"
)

// commandName is the published pattern; \p{sc=Deva} is \p{Devanagari} here.
var commandName = regexp.MustCompile(`^[-_'\p{L}\p{N}\p{Devanagari}\p{Thai}]{1,32}$`)

// locales are those of reference.mdx, "Locales".
var locales = strings.Fields(`id da de en-GB en-US es-ES es-419 fr hr it lt hu nl no pl pt-BR ro fi
	sv-SE vi tr cs el bg ru uk hi th zh-CN ja zh-TW ko`)

const maxOptionLength = 6000

func commandsLimits(c *call) {
	count := map[int]int{}
	names := map[[2]any]bool{}
	for _, v := range list(c.body) {
		def := object(v)
		c.checkCommand(def)
		k := command{def: def}
		count[k.kind()]++
		key := [2]any{k.kind(), k.name()}
		if names[key] {
			c.breach("two commands are named %q", k.name())
		}
		names[key] = true
	}
	for kind, n := range count {
		most := maxOtherCommands
		if kind == 1 {
			most = maxSlashCommands
		}
		if n > most {
			c.breach("%d commands of type %d, more than %d", n, kind, most)
		}
	}
	if _, ok := c.body.([]any); !ok {
		c.breach("a bulk overwrite takes a list of commands")
	}
}

func commandLimits(c *call) { c.checkCommand(c.object()) }

func (c *call) checkCommand(def obj) {
	name := text(def["name"])
	if (&command{def: def}).kind() != 1 {
		if n := length(name); n < 1 || n > 32 {
			c.breach("command name of %d characters, want 1-32", n)
		}
		if text(def["description"]) != "" || len(list(def["options"])) > 0 {
			c.breach("command %q has a description or options, which only slash commands have", name)
		}
		return
	}
	c.checkNamed("command", def)
	c.checkOptions(name, list(def["options"]), 0)
	if size := commandSize(def); size > maxCommandSize {
		c.breach("command %q is %d characters in all, more than %d", name, size, maxCommandSize)
	}
	if c.id("guild_id") != "" && (def["contexts"] != nil || def["integration_types"] != nil) {
		c.breach("command %q: contexts and integration_types are for global commands", name)
	}
	user := slices.ContainsFunc(list(def["integration_types"]), func(v any) bool { return number(v) == 1 })
	private := slices.ContainsFunc(list(def["contexts"]), func(v any) bool { return number(v) == 2 })
	if private && !user {
		c.breach("command %q: context 2 (private channels) needs the user install", name)
	}
	if v := def["default_member_permissions"]; v != nil {
		if _, err := parsePermissions(v); err != nil {
			c.breach("command %q: default_member_permissions is no bit set", name)
		}
	}
}

// checkNamed checks name and description of a command or an option, and their
// translations.
func (c *call) checkNamed(what string, o obj) {
	name := text(o["name"])
	if !commandName.MatchString(name) || name != strings.ToLower(name) {
		c.breach("%s name %q, want 1-32 letters, digits, - _ ' in lower case", what, name)
	}
	if n := length(text(o["description"])); n < 1 || n > 100 {
		c.breach("%s %q: description of %d characters, want 1-100", what, name, n)
	}
	c.checkLocales(o, "name_localizations", 32)
	c.checkLocales(o, "description_localizations", 100)
	for locale, v := range object(o["name_localizations"]) {
		if s := text(v); !commandName.MatchString(s) || s != strings.ToLower(s) {
			c.breach("%s %q: name %q in %s, want 1-32 letters, digits, - _ ' in lower case", what, name, s, locale)
		}
	}
}

func (c *call) checkLocales(o obj, key string, most int) {
	for locale, v := range object(o[key]) {
		if !slices.Contains(locales, locale) {
			c.breach("%s of %q: no such locale as %q", key, text(o["name"]), locale)
		}
		if n := length(text(v)); n < 1 || n > most {
			c.breach("%s of %q: %d characters in %s, want 1-%d", key, text(o["name"]), n, locale, most)
		}
	}
}

func (c *call) checkOptions(path string, options []any, depth int) {
	if len(options) > maxOptions {
		c.breach("%s has %d options, more than %d", path, len(options), maxOptions)
	}
	names := map[string]bool{}
	optional, nested := false, 0
	for _, v := range options {
		o := object(v)
		c.checkNamed(path+" option", o)
		name, kind := text(o["name"]), number(o["type"])
		if names[name] {
			c.breach("%s has two options %q", path, name)
		}
		names[name] = true
		if kind == optSubcommand || kind == optGroup {
			nested++
			if depth > 1 || depth == 1 && kind == optGroup {
				c.breach("%s %s is nested too deep", path, name)
			}
			c.checkOptions(path+" "+name, list(o["options"]), depth+1)
			continue
		}
		if truth(o["required"]) && optional {
			c.breach("%s: required option %q after an optional one", path, name)
		}
		optional = optional || !truth(o["required"])
		c.checkOption(path+" "+name, kind, o)
	}
	if nested > 0 && nested != len(options) {
		c.breach("%s mixes subcommands with plain options", path)
	}
}

func (c *call) checkOption(path string, kind int, o obj) {
	if kind < optString || kind > optAttachment {
		c.breach("%s has type %d, want 1-11", path, kind)
	}
	choices := list(o["choices"])
	switch {
	case len(choices) > maxOptions:
		c.breach("%s has %d choices, more than %d", path, len(choices), maxOptions)
	case len(choices) > 0 && truth(o["autocomplete"]):
		c.breach("%s has both choices and autocomplete", path)
	}
	if open := kind == optString || kind == optInteger || kind == optNumber; !open && (len(choices) > 0 || truth(o["autocomplete"])) {
		c.breach("%s has choices or autocomplete, which its type does not take", path)
	}
	for _, v := range choices {
		c.checkChoice(object(v))
	}
	for _, key := range []string{"min_length", "max_length"} {
		if n, ok := whole(o[key]); ok && (n < 0 || n > maxOptionLength) {
			c.breach("%s has %s %d, want 0-%d", path, key, n, maxOptionLength)
		}
	}
}

// commandSize adds up names, descriptions and choice values, of each the
// longest translation.
func commandSize(o obj) int {
	size := longest(o, "name") + longest(o, "description")
	for _, v := range list(o["options"]) {
		size += commandSize(object(v))
	}
	for _, v := range list(o["choices"]) {
		choice := object(v)
		size += longest(choice, "name") + length(text(choice["value"]))
	}
	return size
}

func longest(o obj, key string) int {
	n := length(text(o[key]))
	for _, v := range object(o[key+"_localizations"]) {
		n = max(n, length(text(v)))
	}
	return n
}
