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
	everyone = regexp.MustCompile(`^@(everyone|here)\b`)
	invite   = regexp.MustCompile(`(?i)\b(?:discord(?:app)?|dsc)(\.)(?:gg|com|me|io|new)`)
	emoji    = regexp.MustCompile(`^:\w+:`)
)

// escape makes what a person typed show as text: nothing in it becomes markup, a
// mention, a timestamp, an emoji or a link. What stands at the start of a line is
// lineStart's matter.
func escape(s string) string {
	s = printable(s)
	dots := map[int]bool{}
	for _, m := range invite.FindAllStringSubmatchIndex(s, -1) {
		dots[m[2]] = true
	}
	var b strings.Builder
	for i, r := range s {
		rest := s[i:]
		if strings.ContainsRune(marks, r) || dots[i] || r == ':' && (strings.HasPrefix(rest, "://") || emoji.MatchString(rest)) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
		if r == '@' && everyone.MatchString(rest) {
			b.WriteString(blank)
		}
	}
	return b.String()
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

var heading = regexp.MustCompile(`(?m)^([ \t]*)(?:([#>+-])|(\d{1,9})([.)])([ \t]|$))`)

// lineStart keeps lines from becoming headings, quotes or items of a list.
func lineStart(s string) string {
	return heading.ReplaceAllStringFunc(s, func(m string) string {
		g := heading.FindStringSubmatch(m)
		if g[2] != "" {
			return g[1] + `\` + g[2]
		}
		return g[1] + g[3] + `\` + g[4] + g[5]
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
