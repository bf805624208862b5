package parse

import (
	"strings"

	"larderhand/curemath"
)

const recipeExample = "80 g salt, 40 g brown sugar, 4 g curing mix for 2.3 kg belly"

// mostRecipe is the longest recipe read: a long page of a book.
const mostRecipe = 8 << 10

// Recipe takes a written recipe apart into ingredients with amounts, and the weight of
// meat it is for. Lines may be parted by line ends, commas, semicolons, bullets, "and"
// or nothing at all; amounts may be in spoons, cups, ounces, grams, percent of the meat
// or a rate (25 g/kg), in fractions and ranges, before or after the name. A weight in
// brackets beside a volume is taken instead of it.
//
// Nothing is dropped: every word of the text but an "and" between two ingredients is in
// the Said of some line or in MeatSaid. What an ingredient is, is not decided here.
// Errors are *Problem, for a text that is empty, too long or has no amount in it.
func Recipe(s string) (curemath.Recipe, error) {
	if len(s) > mostRecipe {
		return curemath.Recipe{}, &Problem{Kind: TooLong, Said: quote(s), Why: "that is longer than a recipe I can read at once", Example: recipeExample}
	}
	l, p := open(s, recipeExample)
	if p != nil {
		return curemath.Recipe{}, p
	}
	r := recipeReader{line: l}
	intro := l.intro()
	if intro > 0 {
		r.add(&recipeItem{name: l.words(0, intro)}, intro)
	}
	for from := intro; from < len(l.toks); {
		to := from
		for to < len(l.toks) && !l.parts(to) {
			to++
		}
		r.segment(from, to)
		from = to + 1
	}
	if len(r.out.Lines) > curemath.MaxRecipeLines {
		return curemath.Recipe{}, &Problem{Kind: TooLong, Said: quote(s), Why: "that has more lines than a recipe I can read at once", Example: recipeExample}
	}
	if !r.amounts {
		return curemath.Recipe{}, &Problem{Kind: NotANumber, Said: quote(s), Why: "I see no amount in it", Example: recipeExample}
	}
	return r.out, nil
}

// parts says whether the token always parts two ingredients.
func (l line) parts(i int) bool {
	t := l.at(i)
	switch {
	case t.kind == newline:
		return true
	case t.is("."):
		return l.sentenceEnds(i)
	}
	switch t.text {
	case ";", "•", "·", "|", "*", "◦", "▪", "●", "‣":
		return t.kind != numeric
	}
	return false
}

// sentenceEnds says whether the full stop at i ends a sentence and does not hang
// on a unit (tsp.) or a number word (no. 1).
func (l line) sentenceEnds(i int) bool {
	before, after := l.at(i-1), l.at(i+1)
	if after.glued || before.is("no") || before.is("nr") || before.is("approx") || before.is("ca") || before.is("fl") {
		return false
	}
	if _, unit := measureNamed(before.text); unit || before.is("t") {
		return i+1 >= len(l.toks)
	}
	return true
}

// recipeReader gathers the lines of a recipe.
type recipeReader struct {
	line
	out     curemath.Recipe
	amounts bool
}

// recipeItem is one ingredient while it is read.
type recipeItem struct {
	from     int // first token
	have     bool
	amount   amount
	name     []string
	note     []string
	strength curemath.Percent
	per      curemath.Band[curemath.Grams]
	fault    string
}

// add finishes an item that ends before token to.
func (r *recipeReader) add(it *recipeItem, to int) {
	said := r.whole(it.from, to)
	if said == "" {
		return
	}
	out := curemath.RecipeLine{
		Said: said, Name: strings.Join(it.name, " "), Note: strings.Join(it.note, " "),
		Strength: it.strength, Fault: it.fault, Fill: r.fill(it.from, to),
	}
	if it.have {
		r.amounts = true
		out.Amount = it.amount.Amount
		out.Amount.Per = it.per
		if it.amount.fault != "" {
			out.Fault = it.amount.fault
			out.Amount = curemath.Amount{}
		}
	}
	r.out.Lines = append(r.out.Lines, out)
}

// words gives the words of the tokens from i up to j.
func (l line) words(i, j int) []string {
	var out []string
	for ; i < j; i++ {
		if l.at(i).kind == word {
			out = append(out, l.at(i).text)
		}
	}
	return out
}

// whole gives the tokens as typed, tidied, without cutting anything off.
func (r *recipeReader) whole(i, j int) string {
	j = min(j, len(r.toks))
	if i < 0 || i >= j {
		return ""
	}
	return tidy(r.src[r.toks[i].start:r.toks[j-1].end], mostRecipe)
}

func (r *recipeReader) fill(i, j int) curemath.Fill {
	for ; i < j; i++ {
		switch r.at(i).text {
		case "packed":
			return curemath.Packed
		case "heaped", "heaping":
			return curemath.Heaped
		case "rounded", "generous":
			return curemath.Rounded
		case "scant":
			return curemath.Scant
		}
	}
	return curemath.Level
}

// segment reads the ingredients between two partings.
func (r *recipeReader) segment(from, to int) {
	for from < to && (r.at(from).is("-") || r.at(from).is(",") || r.at(from).is("+") || r.at(from).is(".")) {
		from++
	}
	for from < to {
		from = r.item(from, to)
	}
}

// item reads one ingredient that begins at token i and gives the token after
// it.
func (r *recipeReader) item(i, to int) int {
	it := recipeItem{from: i}
	if next, ok := r.meat(i, to, &it); ok {
		return r.skip(next, to)
	}
	start := r.approximately(i, to)
	if a, ok := r.amountAt(start); ok && a.to <= to {
		it.have, it.amount = true, a
		return r.leading(&it, a.to, to)
	}
	return r.trailing(&it, i, to)
}

// skip passes the signs and joining words between two ingredients.
func (r *recipeReader) skip(i, to int) int {
	for i < to {
		switch t := r.at(i); {
		case t.is(","), t.is("."), t.is(":"), t.is("+"), t.is("&"), t.is("-"):
		case (t.is("and") || t.is("plus")) && i+1 < to:
			if _, ok := r.amountAt(r.approximately(i+1, to)); !ok {
				return i
			}
		default:
			return i
		}
		i++
	}
	return i
}

// approximately passes "about" and its like before an amount.
func (r *recipeReader) approximately(i, to int) int {
	for i < to {
		switch t := r.at(i); {
		case t.is("about"), t.is("approx"), t.is("approximately"), t.is("ca"), t.is("circa"), t.is("roughly"), t.is("around"),
			t.is("~"), t.is("≈"), t.is("."), t.is("level"), t.is("scant"), t.is("heaped"), t.is("heaping"), t.is("rounded"), t.is("generous"):
			i++
		default:
			return i
		}
	}
	return i
}
