package discord

import (
	"embed"
	"encoding/json"
	"fmt"
	"path"
	"strings"

	"github.com/bwmarrin/discordgo"
)

//go:embed locale/*.json
var localeFiles embed.FS

// word is what a command, an option or a choice is called in a language, and what
// it says it does. Either may be missing.
type word struct {
	Name        string `json:"name"`
	Description string `json:"description"`
}

// locales are the words of each language by Discord's name for it. A command has
// the key "flip", an option "flip.batch", a choice "caution.topic=nitrite"; what
// has no entry keeps its own name. To add a language, add a file.
type locales map[discordgo.Locale]map[string]word

func readLocales() (locales, error) {
	files, err := localeFiles.ReadDir("locale")
	if err != nil {
		return nil, err
	}
	out := locales{}
	for _, f := range files {
		raw, err := localeFiles.ReadFile(path.Join("locale", f.Name()))
		if err != nil {
			return nil, err
		}
		words := map[string]word{}
		if err := json.Unmarshal(raw, &words); err != nil {
			return nil, fmt.Errorf("locale %s: %w", f.Name(), err)
		}
		out[discordgo.Locale(strings.TrimSuffix(f.Name(), ".json"))] = words
	}
	return out, nil
}

// find is a language's word for a key. A key of an option that stands in many
// commands, such as "flip.batch", is also found under "*.batch".
func (l locales) find(locale discordgo.Locale, key string) word {
	w, ok := l[locale][key]
	if _, opt, is := strings.Cut(key, "."); !ok && is {
		w = l[locale]["*."+opt]
	}
	return w
}

// both gives the names and the descriptions in all languages that have one; nil if
// none has.
func (l locales) both(key string) (names, descriptions *map[discordgo.Locale]string) {
	n, d := map[discordgo.Locale]string{}, map[discordgo.Locale]string{}
	for locale := range l {
		w := l.find(locale, key)
		if w.Name != "" {
			n[locale] = w.Name
		}
		if w.Description != "" {
			d[locale] = w.Description
		}
	}
	if len(n) > 0 {
		names = &n
	}
	if len(d) > 0 {
		descriptions = &d
	}
	return names, descriptions
}
