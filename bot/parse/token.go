package parse

import "unicode"

type tokenKind int

const (
	numeric tokenKind = iota + 1
	word              // letters, also emoji
	mark              // one sign
	newline
)

// token is one word, number or sign.
type token struct {
	kind       tokenKind
	text       string // folded
	num        number
	signed     bool // a minus sign stands before the number
	start, end int  // bytes of the text
	glued      bool // no space before it
}

func (t token) is(text string) bool { return t.kind != numeric && t.text == text }

// line is a text taken apart.
type line struct {
	src   string
	toks  []token
	order dateOrder // of dates such as 3/4, if known
}

// at gives the token i, or an empty one outside the line.
func (l line) at(i int) token {
	if i < 0 || i >= len(l.toks) {
		return token{}
	}
	return l.toks[i]
}

// said quotes the tokens from i up to j as they were typed.
func (l line) said(i, j int) string {
	j = min(j, len(l.toks))
	if i < 0 || i >= j {
		return ""
	}
	return quote(l.src[l.toks[i].start:l.toks[j-1].end])
}

func scan(s string) line {
	g := numeral(glyphs(s))
	l := line{src: s}
	glued := false
	for i := 0; i < len(g); {
		r := g[i].r
		if r == ' ' || r == tie {
			glued = false
			i++
			continue
		}
		t, j := g.token(i)
		t.start, t.end, t.glued = g[i].start, g[j-1].end, glued
		l.toks = append(l.toks, t)
		glued = t.kind != newline
		i = j
	}
	return l
}

func (g numeral) token(i int) (token, int) {
	r := g[i].r
	switch {
	case r == '\n':
		return token{kind: newline, text: "\n"}, i + 1
	case (r == '-' || r == '+') && g.starts(i+1) && !g.tight(i):
		n, j := g.read(i + 1)
		return token{kind: numeric, num: n, signed: r == '-', text: g.text(i, j)}, j
	case g.starts(i):
		n, j := g.read(i)
		return token{kind: numeric, num: n, text: g.text(i, j)}, j
	case letter(r):
		j := g.word(i)
		return token{kind: word, text: g.text(i, j)}, j
	}
	return token{kind: mark, text: string(r)}, i + 1
}

// tight says whether a letter or digit ends right before i, which makes a dash
// there a hyphen or a range and no minus sign.
func (g numeral) tight(i int) bool {
	r := g.at(i - 1)
	return isDigit(r) || letter(r) || unicode.Is(unicode.No, r)
}

func letter(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsMark(r) || r != '°' && unicode.Is(unicode.So, r) || unicode.Is(unicode.Sk, r)
}

// word gives the end of a run of letters that may have hyphens and apostrophes
// inside.
func (g numeral) word(i int) int {
	for {
		for letter(g.at(i)) {
			i++
		}
		if (g.at(i) == '-' || g.at(i) == '\'') && letter(g.at(i+1)) {
			i++
			continue
		}
		return i
	}
}
