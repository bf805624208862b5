package typeface

import (
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Measure gives the width of a line in the caller's unit. It is handed the line
// in drawing order, as Visual gives it.
type Measure func(visual string) float64

// Fit shortens a line in spoken order until it is no wider than width, ending it
// in an ellipsis if anything was cut. Nothing is left if not even that fits.
func Fit(line string, width float64, measure Measure) string {
	if measure(Visual(line)) <= width {
		return line
	}
	rs := []rune(line)
	n := sort.Search(len(rs), func(n int) bool { return measure(Visual(cut(rs, n))) > width })
	if n == 0 {
		return ""
	}
	return cut(rs, n-1)
}

// cut keeps the first n runes and an ellipsis inside any fence left open.
func cut(rs []rune, n int) string {
	head := strings.TrimRightFunc(string(rs[:n]), unicode.IsSpace) + "…"
	if strings.Count(head, string(isolate)) > strings.Count(head, string(isolateEnd)) {
		head += string(isolateEnd)
	}
	return head
}

// Wrap breaks a text in spoken order into lines no wider than width, at spaces
// where it can and inside a word only if the word alone is wider than a line. No
// word is lost: joined again, the lines hold every letter.
func Wrap(text string, width float64, measure Measure) []string {
	var (
		lines []string
		line  string
	)
	for _, word := range words(text) {
		joined := word
		if line != "" {
			joined = line + " " + word
		}
		if measure(Visual(joined)) <= width {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for measure(Visual(word)) > width {
			head := headOf(word, width, measure)
			if head == word {
				break
			}
			lines = append(lines, head)
			word = word[len(head):]
		}
		line = word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// words splits a text at its spaces, but keeps a figure with the short word after
// it: a "g" or a "Mar" alone on the next line helps nobody.
func words(text string) []string {
	var out []string
	for _, w := range strings.Fields(strings.ToValidUTF8(text, string(missing))) {
		last := len(out) - 1
		if last >= 0 && !strings.Contains(out[last], " ") && endsInDigit(out[last]) && utf8.RuneCountInString(w) <= 3 && !endsInDigit(w) {
			out[last] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func endsInDigit(s string) bool {
	r, _ := utf8.DecodeLastRuneInString(s)
	return unicode.IsDigit(r)
}

// headOf gives the longest start of a word that fits, one letter with its marks
// at least.
func headOf(word string, width float64, measure Measure) string {
	rs := []rune(word)
	n := sort.Search(len(rs), func(n int) bool { return measure(Visual(string(rs[:n+1]))) > width })
	base := n // a letter goes to the next line with its marks
	for base > 0 && base < len(rs) && unicode.IsMark(rs[base]) {
		base--
	}
	n = max(n, 1)
	if base > 0 {
		n = base
	}
	for n < len(rs) && unicode.IsMark(rs[n]) {
		n++
	}
	return string(rs[:n])
}
