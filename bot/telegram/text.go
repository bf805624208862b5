package telegram

import (
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// units is a text's length as Telegram counts it, in UTF-16 code units.
func units(s string) int {
	n := 0
	for _, r := range s {
		n += max(1, utf16.RuneLen(r))
	}
	return n
}

// joiner shows nothing. Between two characters it keeps Telegram from making a
// mention, a link or a command of what someone typed.
const joiner = "\u2060"

// plain makes text fit to be sent: valid UTF-8, no control characters but line
// ends and tabs, and none of the characters that turn the direction of all that
// follows them.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return r
		case unicode.IsControl(r), r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
}

// defused is plain text in which Telegram finds nothing to link: no @name that
// would call someone, no /command that would be run by whoever taps it, no
// address.
func defused(s string) string {
	s = plain(s)
	if !strings.ContainsAny(s, "@/.#$:") {
		return s
	}
	var b strings.Builder
	prev := rune(' ')
	for i, r := range s {
		b.WriteRune(r)
		next, _ := utf8.DecodeRuneInString(s[i+utf8.RuneLen(r):])
		after := next != utf8.RuneError && (unicode.IsLetter(next) || unicode.IsDigit(next) || next == '_')
		switch {
		case (r == '@' || r == '#' || r == '$') && after,
			r == '/' && after && !unicode.IsDigit(prev) && !unicode.IsDigit(next),
			r == ':' && next == '/',
			r == '.' && unicode.IsLetter(next) && (unicode.IsLetter(prev) || unicode.IsDigit(prev)):
			b.WriteString(joiner)
		}
		prev = r
	}
	return b.String()
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

// escape makes text safe between HTML tags and inside an attribute.
func escape(s string) string { return escaper.Replace(s) }
