package parse

import (
	"strings"

	"larderhand/curemath"
)

// startsMeat says whether the words for the whole meat begin at i: "for 5 lb".
func (r *recipeReader) startsMeat(i, to int) bool {
	_, _, ok := r.weightAfter(i, to, "for", "to", "on", "onto", "per")
	return ok
}

// weightAfter reads one of the words and then a weight, or a weight unit alone
// where one of it is meant ("per kg").
func (r *recipeReader) weightAfter(i, to int, words ...string) (curemath.Band[curemath.Grams], int, bool) {
	var none curemath.Band[curemath.Grams]
	t := r.at(i)
	found := false
	for _, w := range words {
		found = found || t.is(w)
	}
	if !found || i >= to {
		return none, i, false
	}
	i++
	one := t.is("per")
	for i < to && (r.at(i).is("each") || r.at(i).is("every") || r.at(i).is("a")) {
		one = true
		i++
	}
	i = r.approximately(i, to)
	if a, ok := r.amountAt(i); ok && a.Kind == curemath.ByMass && a.fault == "" && a.to <= to && a.Mass.Low > 0 {
		return a.Mass, a.to, true
	}
	if u, n, ok := r.measureAt(i); ok && one && u.kind == curemath.ByMass && i+n <= to {
		return curemath.Exactly(u.mass), i + n, true
	}
	return none, i, false
}

// isRate says whether the words make an amount a rate rather than name the meat
// of the whole recipe.
func (r *recipeReader) isRate(i int) bool {
	return r.at(i).is("per") || r.at(i+1).is("each") || r.at(i+1).is("every")
}

// meat reads "for 6 to 6.5 lb belly" as the meat of the recipe. The first one
// counts; another is a line of its own that says so.
func (r *recipeReader) meat(i, to int, it *recipeItem) (int, bool) {
	mass, next, ok := r.weightAfter(i, to, "for", "to", "on", "onto", "per")
	if !ok {
		return i, false
	}
	for next < to && (r.at(next).kind == word || r.at(next).is("-")) && !r.joins(next, to) {
		if _, ok := r.amountAt(next); ok || r.startsMeat(next, to) {
			break
		}
		next++
	}
	said := r.whole(i, next)
	if r.out.MeatSaid != "" {
		it.fault = "a second weight of meat"
		r.add(it, next)
		return next, true
	}
	r.amounts = true
	r.out.Meat, r.out.MeatSaid = mass, strings.TrimSpace(said)
	return next, true
}

// perMeat reads "per 5 lb" and "for each kilogram of meat" as the rate of an
// ingredient.
func (r *recipeReader) perMeat(it *recipeItem, i, to int) (int, bool) {
	if !r.isRate(i) {
		return i, false
	}
	mass, next, ok := r.weightAfter(i, to, "for", "to", "on", "onto", "per")
	if !ok {
		return i, false
	}
	it.per = mass
	return r.ofMeat(next, to), true
}

// rate reads "/kg" and "/5 lb" right after an amount, and "per kg".
func (r *recipeReader) rate(it *recipeItem, i, to int) int {
	if next, ok := r.perMeat(it, i, to); ok {
		return next
	}
	if !r.at(i).is("/") {
		return i
	}
	if a, ok := r.amountAt(i + 1); ok && a.Kind == curemath.ByMass && a.fault == "" && a.to <= to && a.Mass.Low > 0 && it.amount.Kind == curemath.ByMass {
		it.per = a.Mass
		return r.ofMeat(a.to, to)
	}
	if u, n, ok := r.measureAt(i + 1); ok && u.kind == curemath.ByMass && i+1+n <= to {
		it.per = curemath.Exactly(u.mass)
		return r.ofMeat(i+1+n, to)
	}
	return i
}

// ofMeat passes "of meat" after a rate.
func (r *recipeReader) ofMeat(i, to int) int {
	if i+1 < to && r.at(i).is("of") {
		switch r.at(i + 1).text {
		case "meat", "belly", "pork":
			return i + 2
		}
	}
	if i < to && r.at(i).is("meat") {
		return i + 1
	}
	return i
}
