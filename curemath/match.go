package curemath

import (
	"slices"
	"strings"
)

// match is what a name was read as: a row of the table, a curing mix, meat, or
// nothing.
type match struct {
	row  *Ingredient
	cure *KnownMix
	meat bool
	// extra is the words in front that are not part of the known name.
	extra string
}

func (m match) known() bool { return m.row != nil || m.cure != nil || m.meat }

// find reads a name. The longest known name in it counts; of two equally long
// ones the last, since in English the thing comes last ("maple sugar"). Words
// in front of it are kept as extra; words behind it that are more than a way of
// preparing it ("pepper sauce", "salt substitute") make the name unknown, and
// so do a word that takes the thing away ("salt-free") and two things in one
// amount ("salt and pepper").
func (p Pantry) find(name string) match {
	words := nameWords(name)
	if len(words) == 0 || len(words) > 24 || slices.ContainsFunc(words, takesAway) || none(words) {
		return match{}
	}
	if i := slices.Index(words, "or"); i > 0 {
		a, b := p.find(strings.Join(words[:i], " ")), p.find(strings.Join(words[i+1:], " "))
		if b.known() && !a.like(b) {
			return match{}
		}
		return a
	}
	words = untilAside(words)
	for n := min(len(words), p.longest); n > 0; n-- {
		for from := len(words) - n; from >= 0; from-- {
			m := p.exact(strings.Join(words[from:from+n], " "))
			if !m.known() && n == 1 {
				m = p.exact(singular(words[from]))
			}
			if !m.known() {
				continue
			}
			if !p.fits(m, words[:from], words[from+n:]) {
				return match{}
			}
			m.extra = strings.Join(withoutPreparation(words[:from]), " ")
			if m.row != nil && m.row.Kind.hidesCure() && hintsAtCure(m.extra) || m.cure != nil && quick(m.extra) {
				return match{}
			}
			return m
		}
	}
	return match{}
}

// fits says whether the words around a known name leave it what it is.
func (p Pantry) fits(m match, before, behind []string) bool {
	for _, w := range behind {
		if !preparation(w) && !(m.meat && isMeat(w)) {
			return false
		}
	}
	if m.meat {
		return true
	}
	for _, w := range before {
		if !preparation(w) && p.exact(w).known() {
			return false
		}
	}
	return true
}

// like says whether two readings do the same in a cure.
func (m match) like(n match) bool {
	switch {
	case m.row != nil && n.row != nil:
		return m.row.Kind == n.row.Kind
	case m.cure != nil && n.cure != nil:
		return m.cure.ID == n.cure.ID
	default:
		return m.meat && n.meat
	}
}

func (p Pantry) exact(key string) match {
	if i, ok := p.mixes.byName[key]; ok {
		return match{cure: &p.mixes.all[i]}
	}
	if i, ok := p.byName[key]; ok {
		return match{row: &p.rows[i]}
	}
	if isMeat(key) {
		return match{meat: true}
	}
	return match{}
}

func singular(w string) string {
	if len(w) > 3 && strings.HasSuffix(w, "s") {
		return strings.TrimSuffix(w, "s")
	}
	return w
}

// isMeat knows what a belly cure is put on.
func isMeat(w string) bool {
	switch w {
	case "belly", "bellies", "pork belly", "pork bellies", "meat", "pork", "slab", "slabs", "loin", "pork loin",
		"jowl", "jowls", "pork jowl", "shoulder", "pork shoulder", "side", "side of pork", "pork side", "butt", "pork butt",
		"buckboard", "green weight", "piece", "pieces", "joint", "ham", "hams", "venison", "beef", "brisket":
		return true
	}
	return false
}

// takesAway knows the words that mean there is less of the thing, or none.
func takesAway(w string) bool {
	switch w {
	case "free", "substitute", "alternative", "replacement", "without", "unsalted", "less":
		return true
	}
	return false
}

// none says whether the name says there is none of it: "no salt", but not
// "cure no 1".
func none(words []string) bool {
	for i, w := range words[:len(words)-1] {
		if next := words[i+1]; w == "no" && (next[0] < '0' || next[0] > '9') {
			return true
		}
	}
	return false
}

// untilAside cuts a name before "for the brine", "to taste", "from the jar".
func untilAside(words []string) []string {
	for i, w := range words {
		if i == 0 {
			continue
		}
		switch w {
		case "for", "to", "from", "if", "plus", "per", "about", "at", "in", "with", "depending", "on":
			return words[:i]
		}
	}
	return words
}

func preparation(w string) bool {
	switch w {
	case "of", "the", "a", "an", "and", "packed", "level", "heaped", "heaping", "rounded", "scant", "firmly", "tightly", "lightly",
		"loosely", "fresh", "freshly", "finely", "fine", "coarse", "coarsely", "ground", "cracked", "crushed", "minced", "chopped",
		"grated", "sliced", "dried", "dry", "whole", "toasted", "good", "quality", "pure", "real", "organic", "natural", "raw",
		"dark", "light", "optional", "divided", "more", "extra", "each", "your", "favourite", "favorite", "bottle", "peeled",
		"bruised", "torn", "crumbled", "smashed", "roughly", "very", "large", "small", "medium", "cold", "warm", "hot", "approx",
		"approximately", "total", "grade", "brand", "by", "weight", "volume", "skinless", "boneless", "trimmed", "skin", "off",
		"rind", "strong", "some", "thick", "piece", "pieces", "stalk", "iodised", "iodized", "non":
		return true
	}
	return false
}

func withoutPreparation(words []string) []string {
	return slices.DeleteFunc(slices.Clone(words), preparation)
}
