package parse

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// glyph is one character made plain (lower case, ASCII digits and signs where
// they exist) and the bytes it took in what the person typed.
type glyph struct {
	r          rune
	start, end int
}

// tie stands for every space that holds a number together: no-break, narrow
// no-break, thin and figure space.
const tie = '\u00a0'

// glyphs folds a text. Invisible format characters vanish, control characters
// become spaces, line ends of every kind become \n.
func glyphs(s string) []glyph {
	out := make([]glyph, 0, len(s))
	for i, r := range s {
		_, size := utf8.DecodeRuneInString(s[i:])
		end := i + size
		if r < utf8.RuneSelf {
			out = append(out, glyph{foldASCII(r), i, end})
			continue
		}
		for _, f := range fold(r) {
			out = append(out, glyph{f, i, end})
		}
	}
	return out
}

func foldASCII(r rune) rune {
	switch {
	case r >= 'A' && r <= 'Z':
		return r + 'a' - 'A'
	case r == '\n' || r == '\r' || r == '\v' || r == '\f':
		return '\n'
	case r < ' ' || r == 0x7f:
		return ' '
	case r == '`':
		return '\''
	}
	return r
}

func fold(r rune) string {
	switch r {
	case '“', '”', '„', '‟', '″', '〃', '＂':
		return `"`
	case '‘', '’', '‚', '‛', '′', 'ʼ', '＇':
		return "'"
	case '−', '–', '—', '‐', '‑', '‒', '―', '﹣', '－':
		return "-"
	case '⁄', '∕':
		return "/"
	case 'º', '˚':
		return "°"
	case '\u00a0', '\u202f', '\u2009', '\u2007':
		return string(tie)
	case '\u0085', '\u2028', '\u2029':
		return "\n"
	}
	switch {
	case unicode.IsSpace(r) || unicode.IsControl(r):
		return " "
	case unicode.In(r, unicode.Cf, unicode.Variation_Selector):
		return ""
	case unicode.Is(unicode.Nd, r):
		return string(digit(r))
	case unicode.Is(unicode.No, r):
		// ½ must not become 1/2 next to other digits, nor ² become 2.
		return string(r)
	}
	plain := norm.NFKC.String(string(r))
	if strings.ContainsFunc(plain, func(p rune) bool { return unicode.IsDigit(p) || unicode.IsSpace(p) }) {
		return string(unicode.ToLower(r))
	}
	return strings.ToLower(plain)
}

// digit gives the ASCII digit of a decimal digit of any script: Unicode keeps
// the ten digits of a script together and in order.
func digit(r rune) rune {
	for _, t := range unicode.Nd.R16 {
		if r >= rune(t.Lo) && r <= rune(t.Hi) {
			return '0' + (r-rune(t.Lo))%10
		}
	}
	for _, t := range unicode.Nd.R32 {
		if r >= rune(t.Lo) && r <= rune(t.Hi) {
			return '0' + (r-rune(t.Lo))%10
		}
	}
	return r
}

// quote cuts a bit of what was typed to one clean line of at most 60 characters.
func quote(s string) string { return tidy(s, 60) }

// tidy drops control and invisible characters, joins white space and cuts to a
// number of characters.
func tidy(s string, most int) string {
	var b strings.Builder
	n, space := 0, false
	for _, r := range s {
		switch {
		case unicode.IsSpace(r) || unicode.IsControl(r):
			space = n > 0
			continue
		case r == utf8.RuneError || unicode.Is(unicode.Cf, r) && r != '\u200d':
			continue
		}
		if space && n < most {
			b.WriteByte(' ')
			n++
		}
		space = false
		if n >= most {
			// The mark of a cut takes the last place.
			cut := []rune(b.String())
			return strings.TrimRight(string(cut[:most-1]), " ") + "…"
		}
		b.WriteRune(r)
		n++
	}
	return b.String()
}
