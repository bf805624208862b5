package typeface

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Stand-in for a letter the typeface lacks, and how many of them in a row say
// "a word stood here" without filling the line.
const (
	missing    = '□'
	missingRun = 3
	// marksRun is how many accents one letter may carry; more is decoration that
	// would climb into the lines above.
	marksRun = 2
)

// Clean gives the text in its spoken order with everything taken out that cannot
// be drawn: control and direction characters and line breaks (a space instead),
// emoji and other signs without a glyph (nothing instead), letters of scripts
// the typeface lacks (□, three at most in a row). Spaces are single and never at
// the ends, so a text of nothing drawable comes back empty.
//
// Runes above highest are treated as lacking; pass unicode.MaxRune for no limit.
func (f Faces) Clean(text string, highest rune) string {
	var (
		out              strings.Builder
		space, base      bool
		lacking, marking int
	)
	put := func(r rune) {
		if space && out.Len() > 0 {
			out.WriteByte(' ')
		}
		space = false
		out.WriteRune(r)
	}
	drawable := func(r rune) bool { return r <= highest && f.Has(r) }
	for _, r := range f.composed(text, drawable) {
		switch {
		case unicode.IsSpace(r) || unicode.IsControl(r):
			space, base, lacking = true, false, 0
		case unicode.IsMark(r):
			if marking++; base && marking <= marksRun {
				out.WriteRune(r)
			}
		case drawable(r):
			put(r)
			base, lacking, marking = true, 0, 0
		case unicode.IsLetter(r) || unicode.IsNumber(r):
			if lacking++; lacking <= missingRun {
				put(missing)
			}
			base = false
		default:
			space, base = true, false
		}
	}
	return out.String()
}

// composed drops what is never drawn (joiners, direction marks, tags, accents
// without a glyph) and puts each letter together with its accents, unless the
// typeface only has the two apart.
func (f Faces) composed(text string, drawable func(rune) bool) string {
	kept := strings.Map(func(r rune) rune {
		hidden := unicode.In(r, unicode.Cf, unicode.Cs, unicode.Co, unicode.Noncharacter_Code_Point, unicode.Variation_Selector)
		if hidden || unicode.IsMark(r) && !drawable(r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, string(missing)))
	var out strings.Builder
	for _, r := range norm.NFC.String(kept) {
		if apart := norm.NFD.String(string(r)); !drawable(r) && !strings.ContainsFunc(apart, func(r rune) bool { return !drawable(r) }) {
			out.WriteString(apart)
			continue
		}
		out.WriteRune(r)
	}
	return out.String()
}

// Marks around a name inside a longer line (Unicode's first strong isolate and
// its end), so that a right-to-left name does not drag the figures behind it.
const (
	isolate    = '\u2068'
	isolateEnd = '\u2069'
)

// Name cleans a name someone typed and fences it off, so that it can stand
// inside a line of ours. A name of nothing drawable gives the empty string.
func (f Faces) Name(text string, highest rune) string {
	c := f.Clean(text, highest)
	if c == "" {
		return ""
	}
	return string(isolate) + c + string(isolateEnd)
}
