package curemath

import (
	"slices"
	"strings"
)

// hidesCure says whether a curing mix may go by the name of such a thing with a
// word in front: "quick salt", "pink sugar".
func (k IngredientKind) hidesCure() bool {
	return k == KindSalt || k == KindSugar || k == KindAdditive
}

// hintsAtCure says whether the words of an unknown name suggest a curing mix:
// one of the words for curing, also inside a made-up name, nitrite, nitrate,
// pink, a powder or salt with a number, or quick.
func hintsAtCure(name string) bool {
	words := nameWords(name)
	for i, w := range words {
		switch w {
		case "pink", "tinted", "prague", "quick":
			return true
		case "no":
			if i > 0 && i+1 < len(words) && (words[i+1] == "1" || words[i+1] == "2") {
				return true
			}
		}
		for _, part := range [...]string{"nitr", "cure", "curing", "pökel", "poekel", "pekl", "salpet", "saltpet"} {
			if strings.Contains(w, part) {
				return true
			}
		}
	}
	return false
}

// HintsAtCure says whether the name of a flavouring suggests that it is a curing mix, which
// must not go in beside another.
func HintsAtCure(name string) bool {
	words := nameWords(name)
	if i := slices.Index(words, "pink"); i >= 0 && i+1 < len(words) && strings.HasPrefix(words[i+1], "pepper") {
		name = strings.Join(slices.Delete(words, i, i+1), " ")
	}
	return hintsAtCure(name)
}

// quick says whether a mix is called quick: as sold it may be far from the
// strength its other words stand for.
func quick(extra string) bool { return slices.Contains(nameWords(extra), "quick") }

// mayBeCure says whether an unknown name could be something that cures or
// salts, so that the sum is not to be trusted without it.
func mayBeCure(name string) bool {
	if hintsAtCure(name) {
		return true
	}
	for _, w := range nameWords(name) {
		switch w {
		case "brine", "rub", "mix", "blend", "seasoning", "bouillon", "pickle", "pickling":
			return true
		}
		if strings.HasPrefix(w, "salt") {
			return true
		}
	}
	return false
}
