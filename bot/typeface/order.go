package typeface

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/bidi"
)

// Visual gives the glyphs of one line from left to right, as a drawing library
// that knows nothing of writing direction has to be fed: Arabic letters joined,
// right-to-left stretches turned round (Unicode Standard Annex 9), fences
// dropped. Names fenced by Faces.Name are ordered on their own. Lines without
// right-to-left letters come back as they are but for the fences.
func Visual(line string) string {
	if !strings.ContainsFunc(line, rightToLeft) {
		return strings.Map(dropFence, line)
	}
	var out strings.Builder
	for _, part := range strings.FieldsFunc(line, func(r rune) bool { return dropFence(r) < 0 }) {
		out.WriteString(ordered(join(part)))
	}
	return out.String()
}

func dropFence(r rune) rune {
	if r == isolate || r == isolateEnd {
		return -1
	}
	return r
}

func rightToLeft(r rune) bool {
	if r < 0x0590 {
		return false
	}
	p, _ := bidi.LookupRune(r)
	return p.Class() == bidi.R || p.Class() == bidi.AL
}

type run struct {
	text    string
	rtl     bool
	figures bool // digits and the signs between them: level 2 inside right-to-left text
}

// ordered lays one paragraph out. The library resolves the levels but gives its
// runs in spoken order, so the last rule (L2, reversing) is done here for the
// three levels a line without embeddings can have.
func ordered(text string) string {
	var p bidi.Paragraph
	if _, err := p.SetString(text); err != nil {
		return text
	}
	o, err := p.Order()
	if err != nil || o.NumRuns() == 0 {
		return text
	}
	var runs []run
	for i := range o.NumRuns() {
		r := o.Run(i)
		text, rtl := r.String(), r.Direction() == bidi.RightToLeft
		if !rtl && i > 0 {
			if n := figures(text); n > 0 {
				runs = append(runs, run{text: text[:n], figures: true})
				text = text[n:]
			}
		}
		if text == "" {
			continue
		}
		runs = append(runs, run{text: text, rtl: rtl})
	}
	if startsRightToLeft(text) {
		slices.Reverse(runs)
	} else {
		reverseGroups(runs)
	}
	var out strings.Builder
	for _, r := range runs {
		if r.rtl {
			r.text = reversed(r.text)
		}
		out.WriteString(r.text)
	}
	return out.String()
}

// figures gives the length in bytes of the figures a run after right-to-left
// text starts with: digits and the signs between and around them.
func figures(s string) int {
	n, digits := 0, false
	for i, r := range s {
		p, _ := bidi.LookupRune(r)
		switch p.Class() {
		case bidi.EN, bidi.AN:
			n, digits = i+utf8.RuneLen(r), true
		case bidi.ET:
			if digits {
				n = i + utf8.RuneLen(r)
			}
		case bidi.ES, bidi.CS, bidi.NSM:
		default:
			return n
		}
	}
	return n
}

// reverseGroups turns round each stretch of right-to-left runs with the figures
// that stand between them, inside a left-to-right line.
func reverseGroups(runs []run) {
	for i := 0; i < len(runs); i++ {
		if !runs[i].rtl {
			continue
		}
		end := i
		for j := i + 1; j < len(runs) && (runs[j].rtl || runs[j].figures); j++ {
			end = j
		}
		slices.Reverse(runs[i : end+1])
		i = end
	}
}

func startsRightToLeft(text string) bool {
	for _, r := range text {
		p, _ := bidi.LookupRune(r)
		switch p.Class() {
		case bidi.R, bidi.AL:
			return true
		case bidi.L:
			return false
		}
	}
	return false
}

// reversed turns a right-to-left run round with its brackets mirrored; a mark
// stays behind the letter it belongs to, since that is where it is drawn.
func reversed(s string) string {
	rs := []rune(bidi.ReverseString(s))
	for i := 0; i < len(rs); {
		j := i
		for j < len(rs) && unicode.IsMark(rs[j]) {
			j++
		}
		if j > i && j < len(rs) {
			letter := rs[j]
			copy(rs[i+1:j+1], rs[i:j])
			rs[i] = letter
			slices.Reverse(rs[i+1 : j+1])
		}
		i = j + 1
	}
	return string(rs)
}
