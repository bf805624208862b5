package discord

import (
	"regexp"
	"strings"
	"unicode"
)

// marks are the characters Discord's markdown may make something of wherever they
// stand; a backslash before one shows it as it is.
const marks = "\\*_~|`[]<"

// blank shows nothing and keeps what stands around it from being read together.
const blank = "\u200b"

var (
	everyone = regexp.MustCompile(`@(everyone|here)\b`)
	link     = regexp.MustCompile(`([a-zA-Z][a-zA-Z0-9+.-]*):(//)`)
	invite   = regexp.MustCompile(`(?i)\b(discord(?:app)?|dsc)\.(gg|com|me|io|new)`)
	emoji    = regexp.MustCompile(`:(\w+):`)
)

// escape makes what a person typed show as text: nothing in it becomes markup, a
// mention, a timestamp, an emoji or a link. What stands at the start of a line is
// lineStart's matter.
func escape(s string) string {
	var b strings.Builder
	for _, r := range printable(s) {
		if strings.ContainsRune(marks, r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	s = everyone.ReplaceAllString(b.String(), "@"+blank+"$1")
	s = link.ReplaceAllString(s, `$1\:$2`)
	s = invite.ReplaceAllString(s, `$1\.$2`)
	return emoji.ReplaceAllString(s, `\:$1:`)
}

// printable drops what is no text: control characters, and the marks that turn
// the direction of all that follows.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t':
			return ' '
		case unicode.IsControl(r), r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
}

var heading = regexp.MustCompile(`(?m)^([ \t]*)([#>+-]|\d{1,9}([.)]))`)

// lineStart keeps lines from becoming headings, quotes or items of a list.
func lineStart(s string) string {
	return heading.ReplaceAllStringFunc(s, func(m string) string {
		cut := len(m) - 1
		return m[:cut] + `\` + m[cut:]
	})
}

// code puts text into a code span, in which nothing is escaped and nothing but a
// backtick means anything.
func code(s string) string {
	s = strings.ReplaceAll(printable(s), "\n", " ")
	switch {
	case strings.TrimSpace(s) == "":
		return s
	case !strings.Contains(s, "`"):
		return "`" + s + "`"
	}
	return "`` " + strings.ReplaceAll(s, "``", "`"+blank+"`") + " ``"
}

// cell makes text fit for a code block.
func cell(s string) string {
	return strings.ReplaceAll(strings.ReplaceAll(printable(s), "\n", " "), "`", "`"+blank)
}
