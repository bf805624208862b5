package typeface

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// The ranges of ready-joined letters (Unicode blocks Arabic Presentation Forms A
// and B): for each letter its forms stand in the order alone, end, start, middle.
const (
	formsAFirst, formsALast = 0xFB50, 0xFBB1
	formsBFirst, formsBLast = 0xFE80, 0xFEFC
	tatweel                 = 0x0640
	lam                     = 0x0644
)

const (
	alone = iota
	end
	start
	middle
)

// joins maps a letter, or lam with an alef, to its ready-joined forms: one for a
// letter that never joins, two for one that joins backwards only, four for one
// that joins both ways. Read from the compatibility forms of the Unicode data,
// so that no table of ours can be wrong.
func joins() map[string][]rune {
	m := map[string][]rune{}
	for _, r := range [][2]rune{{formsAFirst, formsALast}, {formsBFirst, formsBLast}} {
		for c := r[0]; c <= r[1]; c++ {
			if base := norm.NFKC.String(string(c)); base != string(c) {
				m[base] = append(m[base], c)
			}
		}
	}
	m[string(rune(tatweel))] = []rune{tatweel, tatweel, tatweel, tatweel}
	return m
}

// join replaces Arabic letters by their joined forms, in spoken order.
func join(s string) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return unicode.Is(unicode.Arabic, r) }) {
		return s
	}
	forms := joins()
	letters := units(s, forms)
	for i := range letters {
		f := forms[letters[i].base]
		if len(f) == 0 {
			continue
		}
		form := alone
		before := i > 0 && len(forms[letters[i-1].base]) > middle && len(f) > end
		after := i+1 < len(letters) && len(f) > middle && len(forms[letters[i+1].base]) > end
		switch {
		case before && after:
			form = middle
		case before:
			form = end
		case after:
			form = start
		}
		letters[i].drawn = string(f[form])
	}
	var out strings.Builder
	for _, l := range letters {
		out.WriteString(l.drawn)
		out.WriteString(l.marks)
	}
	return out.String()
}

type unit struct{ base, drawn, marks string }

// units splits a text into letters with their marks; lam and alef are one.
func units(s string, forms map[string][]rune) []unit {
	var out []unit
	for _, r := range s {
		last := len(out) - 1
		switch {
		case unicode.IsMark(r) && last >= 0:
			out[last].marks += string(r)
		case last >= 0 && out[last].base == string(rune(lam)) && out[last].marks == "" && len(forms[string([]rune{lam, r})]) > 0:
			both := string([]rune{lam, r})
			out[last] = unit{base: both, drawn: both}
		default:
			out = append(out, unit{base: string(r), drawn: string(r)})
		}
	}
	return out
}
