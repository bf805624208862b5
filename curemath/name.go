package curemath

import (
	"strings"
	"unicode"
)

// ingredientKey folds a name to the form names are looked up by: lower case,
// single spaces, "#1", "no. 1", "no.1", "nr. 1" and "number 1" as "no 1", dots only inside numbers,
// no other punctuation.
func ingredientKey(name string) string {
	return strings.Join(nameWords(name), " ")
}

// nameWords splits a name into its folded words.
func nameWords(name string) []string {
	var words []string
	var b strings.Builder
	flush := func() {
		if b.Len() > 0 {
			w := strings.TrimRight(b.String(), ".")
			if w == "№" {
				w = "no"
			}
			if w != "" {
				words = append(words, w)
			}
			b.Reset()
		}
	}
	digit := func(r rune) bool { return r >= '0' && r <= '9' }
	last := rune(0)
	for _, r := range strings.ToLower(name) {
		switch {
		case r == '#' || r == '№':
			flush()
			words = append(words, "no")
		case unicode.IsLetter(r):
			if digit(last) {
				flush()
			}
			b.WriteRune(r)
		case unicode.IsDigit(r):
			if last != 0 && !digit(last) && last != '.' && b.Len() > 0 {
				flush()
			}
			b.WriteRune(r)
		case r == '.' && digit(last):
			b.WriteRune(r)
		case r == '\'' || r == '’':
			continue
		default:
			flush()
		}
		last = r
	}
	flush()
	for i, w := range words[:max(0, len(words)-1)] {
		if (w == "number" || w == "nr") && digit(rune(words[i+1][0])) {
			words[i] = "no"
		}
	}
	return words
}
