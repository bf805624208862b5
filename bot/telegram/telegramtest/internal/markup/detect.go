package markup

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Detect finds what the server marks in any text, a person's or a bot's: commands,
// mentions, hashtags and web addresses. Bounds follow the server's own matching
// (td, MessageEntity.cpp, match_bot_commands and match_mentions); hashtags and
// addresses are simplified.
func Detect(s string) []Entity {
	var found []Entity
	covered := func(e Entity) bool {
		for _, f := range found {
			if e.Offset < f.end() && f.Offset < e.end() {
				return true
			}
		}
		return false
	}
	for _, kind := range detectors {
		for _, m := range kind.pattern.FindAllStringIndex(s, -1) {
			if !kind.bounded(s, m[0], m[1]) {
				continue
			}
			e := Entity{Type: kind.typ, Offset: Len(s[:m[0]]), Length: Len(s[m[0]:m[1]])}
			if !covered(e) {
				found = append(found, e)
			}
		}
	}
	sortEntities(found)
	return found
}

type detector struct {
	typ     string
	pattern *regexp.Regexp
	bounded func(s string, from, to int) bool
}

var detectors = []detector{
	{"url", regexp.MustCompile(`(?i)\b(?:https?|tg)://[^\s<>"]+[^\s<>".,;:!?)']`), func(string, int, int) bool { return true }},
	{"mention", regexp.MustCompile(`@[a-zA-Z0-9_]{2,32}`), mentionBounds},
	{"bot_command", regexp.MustCompile(`/[a-zA-Z0-9_]{1,64}(?:@[a-zA-Z0-9_]{3,32})?`), commandBounds},
	{"hashtag", regexp.MustCompile(`#[\p{L}\p{N}_]{1,256}`), mentionBounds},
}

func mentionBounds(s string, from, to int) bool {
	return !isWord(before(s, from)) && !isWord(after(s, to)) && before(s, from) != '/'
}

func commandBounds(s string, from, to int) bool {
	edge := func(r rune) bool { return r == '/' || r == '<' || r == '>' }
	b, a := before(s, from), after(s, to)
	return !isWord(b) && !edge(b) && !isWord(a) && !edge(a) && a != '@'
}

func before(s string, i int) rune {
	if i == 0 {
		return 0
	}
	r, _ := utf8.DecodeLastRuneInString(s[:i])
	return r
}

func after(s string, i int) rune {
	if i == len(s) {
		return 0
	}
	r, _ := utf8.DecodeRuneInString(s[i:])
	return r
}

func isWord(r rune) bool {
	return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r)
}

// WithDetected adds the detected entities to the ones a sender gave. Nothing is
// detected inside code, links and mentions.
func (t Text) WithDetected() Text {
	out := Text{Plain: t.Plain, Entities: append([]Entity(nil), t.Entities...)}
	for _, d := range Detect(t.Plain) {
		hidden := false
		for _, e := range t.Entities {
			solid := isCode(e.Type) || strings.HasPrefix(e.Type, "text_") || e.Type == d.Type
			hidden = hidden || solid && d.Offset < e.end() && e.Offset < d.end()
		}
		if !hidden {
			out.Entities = append(out.Entities, d)
		}
	}
	sortEntities(out.Entities)
	return out
}
