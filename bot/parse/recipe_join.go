package parse

import "larderhand/curemath"

// joins says whether a joining word at i starts another ingredient: one with an
// amount of its own.
func (r *recipeReader) joins(i, to int) bool {
	t := r.at(i)
	if !t.is("and") && !t.is("plus") && !t.is("+") && !t.is("&") && !t.is("with") {
		return false
	}
	a, ok := r.amountAt(r.approximately(i+1, to))
	return ok && a.to <= to
}

// moreAmounts says whether another amount comes before the next comma: what
// stands between belongs to that one.
func (r *recipeReader) moreAmounts(i, to int) bool {
	for depth := 0; i < to; i++ {
		switch t := r.at(i); {
		case t.is("("):
			depth++
		case t.is(")"):
			depth--
		case t.is(","):
			return false
		default:
			if a, ok := r.amountAt(i); ok && a.solid() && depth == 0 && a.to <= to {
				return true
			}
		}
	}
	return false
}

// nameBefore says whether a name comes at i, before the next parting.
func (r *recipeReader) nameBefore(i, to int) bool {
	return i < to && r.at(i).kind == word && !r.startsMeat(i, to) && !r.at(i).is("per")
}

// comma decides whether what follows a comma is a note on the ingredient
// ("pepper, cracked") and if so takes it.
func (r *recipeReader) comma(it *recipeItem, i, to int) (int, bool) {
	j := i + 1
	for j < to && !r.at(j).is(",") && !r.at(j).is("(") {
		if r.at(j).is("and") && !preparing(r.at(j+1).text) || r.startsMeat(j, to) {
			break
		}
		if _, ok := r.amountAt(j); ok || r.at(j).kind == word && !preparing(r.at(j).text) {
			return i, false
		}
		j++
	}
	if j == i+1 {
		return i, false
	}
	for k := i + 1; k < j; k++ {
		it.note = append(it.note, r.at(k).text)
	}
	return j, true
}

// preparing knows the words said about how an ingredient is to be.
func preparing(w string) bool {
	switch w {
	case "packed", "level", "heaped", "heaping", "rounded", "scant", "firmly", "tightly", "lightly", "loosely", "fresh", "freshly",
		"finely", "fine", "coarse", "coarsely", "ground", "cracked", "crushed", "minced", "chopped", "grated", "sliced", "dried",
		"toasted", "whole", "optional", "divided", "more", "extra", "peeled", "bruised", "torn", "crumbled", "smashed", "roughly",
		"very", "to", "taste", "or", "and", "as", "needed", "if", "wanted", "desired", "warm", "cold", "softened", "melted",
		"skinless", "boneless", "trimmed", "skin", "off", "on", "rind", "rindless":
		return true
	}
	return false
}

// alternative reads a second amount of the same thing ("1/3 cup / 80 g"). A
// weight goes before a volume, a volume before a count.
func (r *recipeReader) alternative(it *recipeItem, i, to int) bool {
	a, ok := r.amountAt(r.approximately(i+1, to))
	if !ok || a.to > to || a.fault != "" || !a.solid() || a.Kind == it.amount.Kind || a.Kind == curemath.ByShare {
		return false
	}
	r.prefer(it, a)
	it.amount.to = a.to
	return true
}

// prefer keeps the better of two amounts of one thing.
func (r *recipeReader) prefer(it *recipeItem, a amount) {
	better := !it.have || it.amount.fault != "" || it.amount.Kind == curemath.ByCount ||
		a.Kind == curemath.ByMass && it.amount.Kind != curemath.ByMass
	if better {
		it.have, it.amount = true, a
	}
}

// bracket reads what stands in brackets: a better amount, a strength, a rate, a
// number that is part of the name, or a note.
func (r *recipeReader) bracket(it *recipeItem, i, to int) int {
	end := i + 1
	for end < to && !r.at(end).is(")") {
		end++
	}
	if next, ok := r.perMeat(it, i+1, end); ok && next == end {
		return min(end+1, to)
	}
	if r.at(i+1).is("#") || r.at(i+1).is("no") || r.at(i+1).is("number") {
		for k := i + 1; k < end; k++ {
			it.named(r.at(k))
		}
		return min(end+1, to)
	}
	j := r.approximately(i+1, end)
	if a, ok := r.amountAt(j); ok && a.to <= end && a.solid() && a.fault == "" {
		if a.Kind == curemath.ByShare && it.have && it.amount.Kind != curemath.ByShare || a.Kind == curemath.ByShare && a.to < end {
			it.strength = a.Share.Typical
		} else {
			r.prefer(it, a)
		}
	}
	for k := i + 1; k < end; k++ {
		it.note = append(it.note, r.at(k).text)
	}
	return min(end+1, to)
}
