package parse

import "larderhand/curemath"

// LooksLikeRecipe says whether a text without a command word is a recipe pasted
// in: a sentence or a heading and then at least two ingredients with what they
// measure, or at least three in spoons, cups, grams or ounces.
func LooksLikeRecipe(s string) bool {
	r, err := Recipe(s)
	if err != nil {
		return false
	}
	l, p := open(s, recipeExample)
	if p != nil {
		return false
	}
	measured, spooned := 0, 0
	for _, i := range r.Lines {
		a := i.Amount
		if i.Name == "" || i.Fault != "" {
			continue
		}
		switch a.Kind {
		case curemath.ByVolume:
			measured, spooned = measured+1, spooned+1
		case curemath.ByMass:
			measured++
			if a.Ounces || a.Mass.High < 400 {
				spooned++
			}
		case curemath.ByShare:
			measured++
		}
	}
	switch told := l.intro() > 0; {
	case told:
		return measured >= 2 && spooned >= 1
	case l.tellsOfDoing():
		return false
	}
	return spooned >= 3 || spooned >= 1 && measured >= 2 && l.introduced()
}

// tellsOfDoing says whether somebody tells what was done, or asks: that is no
// recipe to check but something that may have gone wrong.
func (l line) tellsOfDoing() bool {
	for i, t := range l.toks {
		switch t.text {
		case "?", "instead", "accidentally", "mistake", "forgot", "ate", "eaten", "swallowed":
			return true
		case "put", "used", "added", "gave", "rubbed", "mixed", "tasted", "have":
			if before := l.at(i - 1); before.is("i") || before.is("we") || before.is("he") || before.is("she") || before.is("they") {
				return true
			}
		}
	}
	return false
}

// introduced says whether the words before the first measure speak of a recipe.
func (l line) introduced() bool {
	for i := range min(len(l.toks), mostIntro) {
		if a, ok := l.amountAt(i); ok && a.solid() {
			return false
		}
		if speaksOfRecipe(l.at(i).text) {
			return true
		}
	}
	return false
}

// mostIntro is the most words, numbers and signs looked through for the end of an
// introduction.
const mostIntro = 40

// TellsRecipe says whether a text begins with a sentence or a heading and then goes
// on with ingredients.
func TellsRecipe(s string) bool {
	l, p := open(s, recipeExample)
	return p == nil && l.intro() > 0
}

// intro is how many tokens are a sentence or a heading before the ingredients,
// with the sign it ends in: "my aunt's rub: 80 g salt, …". "Brown sugar: 50 g" is
// none.
func (l line) intro() int {
	told := false
	for i := range min(len(l.toks), mostIntro) {
		t := l.at(i)
		if a, ok := l.amountAt(i); ok && a.solid() || t.kind == newline {
			return 0
		}
		told = told || speaksOfRecipe(t.text)
		if !t.is(":") && !t.is("-") || t.is("-") && t.glued || !told && i < 4 {
			continue
		}
		if l.at(i+1).kind == newline {
			return i + 1
		}
		if a, ok := l.amountAt(i + 1); ok && a.solid() && (l.nameFollows(a.to) || a.fault != "") && !preparing(l.at(a.to).text) {
			return i + 1
		}
		if told && t.is(":") && l.at(i+1).kind == word {
			return i + 1
		}
	}
	return 0
}

// speaksOfRecipe knows the words by which a recipe is introduced.
func speaksOfRecipe(w string) bool {
	switch w {
	case "recipe", "recipes", "rub", "ingredients", "here", "here's", "found", "receipt", "formula", "uses", "mixture":
		return true
	}
	return false
}
