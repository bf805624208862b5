package label

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// span is a stretch of text that stands out or does not.
type span struct {
	text   string
	strong bool
}

// spans splits an ingredient where it names an allergen, so that the word can be
// set to stand out, as Regulation (EU) 1169/2011 article 21 asks (from memory).
// Whole words only, with a plural s allowed: "nut" is not in "nutmeg".
func spans(name string, allergens []string) []span {
	var out []span
	for len(name) > 0 {
		start, end := first(name, allergens)
		if start < 0 {
			return append(out, span{text: name})
		}
		if start > 0 {
			out = append(out, span{text: name[:start]})
		}
		out = append(out, span{text: capitals(name[start:end]), strong: true})
		name = name[end:]
	}
	return out
}

// capitals writes a word in capitals if that loses nothing (there are letters
// whose capital reads back as another).
func capitals(s string) string {
	if up := strings.ToUpper(s); strings.EqualFold(up, s) {
		return up
	}
	return s
}

// first finds the earliest allergen in a text, the longest if several start
// there; -1 if there is none.
func first(text string, allergens []string) (start, end int) {
	start = -1
	for i := range text {
		if i > 0 {
			if before, _ := utf8.DecodeLastRuneInString(text[:i]); inWord(before) {
				continue
			}
		}
		for _, a := range allergens {
			if n := wordAt(text[i:], plain(a)); n > 0 && i+n > end {
				start, end = i, i+n
			}
		}
		if start >= 0 {
			return start, end
		}
	}
	return -1, 0
}

// wordAt gives the length in bytes of a word, or its plural, that a text starts
// with whatever the letter case; 0 if it starts with another.
func wordAt(text, word string) int {
	if word == "" {
		return 0
	}
	n := 0
	for _, w := range word {
		r, size := utf8.DecodeRuneInString(text[n:])
		if size == 0 || unicode.ToLower(r) != unicode.ToLower(w) {
			return 0
		}
		n += size
	}
	for _, tail := range []string{"", "s", "S"} {
		if rest, ok := strings.CutPrefix(text[n:], tail); ok {
			if next, size := utf8.DecodeRuneInString(rest); size == 0 || !inWord(next) {
				return n + len(tail)
			}
		}
	}
	return 0
}

func inWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }

// contains is the line that names every allergen, once, in the order given.
func contains(allergens []string) string {
	var out []string
	for _, a := range allergens {
		if a = strings.ToLower(plain(a)); a != "" && !slices.Contains(out, a) {
			out = append(out, a)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "Contains: " + strings.Join(out, ", ")
}
