package parse

import "larderhand/curemath"

// leading reads the name after an amount.
func (r *recipeReader) leading(it *recipeItem, i, to int) int {
	i = r.rate(it, i, to)
	for i < to {
		t := r.at(i)
		switch {
		case t.is("("):
			i = r.bracket(it, i, to)
			continue
		case t.is(","):
			if next, note := r.comma(it, i, to); note {
				i = next
				continue
			}
			r.add(it, i)
			return r.skip(i+1, to)
		case r.joins(i, to):
			r.add(it, i)
			return r.skip(i+1, to)
		case (t.is("/") || t.is("=") || t.is("or") || t.is("-")) && r.alternative(it, i, to):
			i = it.amount.to
			continue
		}
		if next, ok := r.perMeat(it, i, to); ok {
			i = next
			continue
		}
		if r.startsMeat(i, to) {
			r.add(it, i)
			return i
		}
		if a, ok := r.amountAt(i); ok && a.solid() && a.to <= to {
			switch {
			case a.Kind == curemath.ByShare && a.fault == "" && (it.amount.Kind != curemath.ByShare || len(it.name) > 0 && !r.nameBefore(a.to, to)):
				it.strength = a.Share.Typical
				i = a.to
				continue
			case it.amount.Kind == curemath.ByShare && a.Kind != curemath.ByShare && (a.spooned() || a.Kind == curemath.ByVolume) && !r.nameBefore(a.to, to):
				// 0.5 % nitrited salt 25 g
				it.strength, it.amount = it.amount.Share.Typical, a
				i = r.rate(it, a.to, to)
				continue
			}
			r.add(it, i)
			return i
		}
		it.named(t)
		i++
	}
	r.add(it, i)
	return to
}

// trailing reads a name and then, if one comes, its amount: "salt: 50 g".
func (r *recipeReader) trailing(it *recipeItem, i, to int) int {
	for i < to {
		t := r.at(i)
		switch {
		case t.is("("):
			i = r.bracket(it, i, to)
			continue
		case t.is(","):
			if next, note := r.comma(it, i, to); note {
				i = next
				continue
			}
			r.add(it, i)
			return r.skip(i+1, to)
		case it.from < i && r.joins(i, to):
			r.add(it, i)
			return r.skip(i+1, to)
		case it.from < i && r.startsMeat(i, to):
			r.add(it, i)
			return i
		}
		a, ok := r.amountAt(i)
		if ok && a.to <= to && (a.solid() || a.to == to || r.at(a.to).is(",")) && !it.have {
			it.have, it.amount = true, a
			i = r.rate(it, a.to, to)
			if !r.weighedShare(it, i, to) && r.moreAmounts(i, to) {
				r.add(it, i)
				return i
			}
			continue
		}
		if ok && a.to <= to && a.solid() {
			if a.Kind == curemath.ByShare && a.fault == "" && it.amount.Kind != curemath.ByShare {
				it.strength = a.Share.Typical
				i = a.to
				continue
			}
			if it.have && r.weighedShare(it, i, to) {
				it.strength, it.amount = it.amount.Share.Typical, a // nitrited salt 0.5 % 25 g
				i = r.rate(it, a.to, to)
				continue
			}
			r.add(it, i)
			return i
		}
		if next, ok := r.perMeat(it, i, to); ok && it.have {
			i = next
			continue
		}
		it.named(t)
		i++
	}
	r.add(it, i)
	return to
}

// weighedShare says whether the share just read is followed by the weight of the
// same thing, and so was its strength: nitrited salt 0.5 % 25 g.
func (r *recipeReader) weighedShare(it *recipeItem, i, to int) bool {
	a, ok := r.amountAt(i)
	return ok && it.amount.Kind == curemath.ByShare && a.spooned() && a.fault == "" && a.to <= to && !r.nameBefore(a.to, to)
}

// named adds a token to the name.
func (it *recipeItem) named(t token) {
	switch {
	case t.kind == numeric && len(it.name) > 0 && it.name[len(it.name)-1] == "#":
		it.name[len(it.name)-1] = "#" + t.text
	case t.kind == numeric, t.kind == word, t.is("#"), t.is("%"):
		it.name = append(it.name, t.text)
	}
}
