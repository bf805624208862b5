package bot

import (
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"

	"larderhand/curemath"
)

// Slips looked for in a name: more words than that wrong, or a word that might be
// more things than that, is no slip.
const (
	mostSlips  = 3
	mostMeants = 6
)

// unslip puts right a name with words one letter off ("brwn sugr"), where only one
// thing can be meant. What may be a cure is never read as anything that is none,
// and of a name known in part only the rest is put right.
func unslip(p curemath.Pantry, words []string, name string) (string, bool) {
	was := p.Read(name)
	if was.As != "" && (was.Whole || was.Cures) {
		return "", false
	}
	said := curemath.NameWords(name)
	var wrong []int
	meant := map[int][]string{}
	for i, w := range said {
		if _, found := slices.BinarySearch(words, w); found || utf8.RuneCountInString(w) < 3 {
			continue
		}
		if near := oneOff(words, w); len(near) > 0 {
			wrong, meant[i] = append(wrong, i), near
		}
	}
	if len(wrong) == 0 || len(wrong) > mostSlips {
		return "", false
	}
	best, as, clear := "", "", true
	var try func(at int)
	try = func(at int) {
		if at == len(wrong) {
			text := strings.Join(said, " ")
			got := p.Read(text)
			switch {
			case got.As == "" || !got.Whole || was.Cures && !got.Cures, was.As != "" && !got.Cures && got.Kind != was.Kind:
			case as == "":
				best, as = text, got.As
			case as != got.As:
				clear = false
			}
			return
		}
		i := wrong[at]
		word := said[i]
		for _, w := range meant[i] {
			said[i] = w
			try(at + 1)
		}
		said[i] = word
	}
	try(0)
	return best, as != "" && clear
}

// oneOff lists the words one letter away from another, none if there are many.
func oneOff(words []string, w string) []string {
	var near []string
	for _, k := range words {
		if d := len(k) - len(w); d > 4 || d < -4 {
			continue
		}
		if levenshtein.ComputeDistance(w, k) == 1 {
			near = append(near, k)
		}
	}
	if len(near) > mostMeants {
		return nil
	}
	return near
}

// unslipped puts right the names of a recipe and says which line was read as what.
func unslipped(p curemath.Pantry, r *curemath.Recipe) []string {
	var said []string
	words := p.Words()
	for i := range r.Lines {
		l := &r.Lines[i]
		if l.Amount.Kind == curemath.NoAmount {
			continue
		}
		if name, ok := unslip(p, words, l.Name); ok {
			said = append(said, "“"+clip(l.Said, 60)+"” is read as “"+name+"”.")
			l.Name = name
		}
	}
	return said
}
