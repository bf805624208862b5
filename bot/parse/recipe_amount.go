package parse

import "larderhand/curemath"

// amount is a recipe amount at tokens from up to to.
type amount struct {
	curemath.Amount
	from, to int
	fault    string
	small    bool // in grams or less
}

// solid says whether the amount has a unit that measures.
func (a amount) solid() bool {
	switch a.Kind {
	case curemath.ByMass, curemath.ByVolume, curemath.ByShare:
		return true
	}
	return a.fault != ""
}

// amountAt reads a number or a range with its measure, at token i. A number
// that is a name ("no. 1", "#2", "cure 1") or is followed by a unit of time,
// heat or length is none.
func (l line) amountAt(i int) (amount, bool) {
	a, ok := l.oneAmount(i)
	if !ok || a.fault != "" {
		return a, ok
	}
	// 1 lb 4 oz, 1 cup plus 2 tbsp
	for range 3 {
		next := a.to
		if t := l.at(next); t.is("+") || t.is("plus") || t.is("and") || t.is("&") {
			next++
		}
		b, ok := l.oneAmount(next)
		if !ok || b.Kind != a.Kind || b.fault != "" || a.Kind == curemath.ByCount || a.Kind == curemath.ByShare ||
			next > a.to && !l.nameFollows(b.to) {
			break
		}
		a.Mass, a.Volume, a.to = a.Mass.Plus(b.Mass), a.Volume.Plus(b.Volume), b.to
		a.Ounces = false
	}
	return a, true
}

// nameFollows says whether a word that is no measure word comes at i: "1 cup
// plus 2 tbsp salt" is one amount, "1 tsp + 2 tbsp," is not known to be.
func (l line) nameFollows(i int) bool { return l.at(i).kind == word }

func (l line) oneAmount(i int) (amount, bool) {
	v, to, fault, ok := l.numberAt(i)
	if !ok {
		return amount{}, false
	}
	a := amount{from: i, to: to, fault: fault}
	low, high := v, v
	times := 1.0
	if l.at(to).is("x") || l.at(to).is("×") { // 2 x 5 g
		if w, end, f, ok := l.numberAt(to + 1); ok && f == "" {
			if _, _, unit := l.measureAt(end); unit {
				times, low, high, to = v, w, w, end
			}
		}
	}
	unit, n, hasUnit := l.measureAt(to)
	first := to
	if hasUnit {
		first += n
	}
	if w, end, f, ok := l.rangeEnd(first); ok {
		if u2, m, has2 := l.measureAt(end); has2 && (!hasUnit || u2.kind == unit.kind && u2.symbol == unit.symbol) {
			high, unit, n, hasUnit, to, fault = w, u2, m, true, end, f
		} else if !hasUnit && !has2 && !l.otherUnit(end) {
			high, to, fault = w, end, f
		}
	}
	if fault != "" {
		a.fault = fault
	}
	if !hasUnit {
		if l.otherUnit(to) {
			return amount{}, false
		}
		a.Kind, a.Count, a.to = curemath.ByCount, curemath.Between(low*times, high*times), to
		return a, true
	}
	a.to = to + n
	low, high, fault = settle(l.at(i).num, unit, low*times, high*times)
	if fault != "" {
		a.fault = fault
	}
	if unit.none != "" {
		a.fault = "“" + unit.none + "” is no measure I can weigh"
		return a, true
	}
	a.Amount = measured(unit, low, high)
	a.small = unit.symbol == "g" || unit.symbol == "mg"
	return a, true
}

func measured(u measureUnit, low, high float64) curemath.Amount {
	out := curemath.Amount{Kind: u.kind}
	switch u.kind {
	case curemath.ByMass:
		out.Mass = curemath.Between(u.mass*curemath.Grams(low), u.mass*curemath.Grams(high))
		out.Ounces = u.symbol == "oz"
	case curemath.ByVolume:
		span := curemath.Between(low, high)
		out.Volume = curemath.Band[curemath.Millilitres]{
			Low:     u.volume.Low * curemath.Millilitres(span.Low),
			Typical: u.volume.Typical * curemath.Millilitres(span.Typical),
			High:    u.volume.High * curemath.Millilitres(span.High),
		}
	case curemath.ByShare:
		k := 1.0
		if u.symbol == "g/kg" {
			k = 0.1
		}
		out.Share = curemath.Between(curemath.Percent(low*k), curemath.Percent(high*k))
	}
	return out
}

// spooned says whether an amount is a weight a curing mix is weighed by, in
// grams or ounces: pounds and kilograms are the meat's.
func (a amount) spooned() bool {
	return a.Kind == curemath.ByMass && (a.Ounces || a.small)
}

// settle picks the reading of a comma or point before three digits, or says
// that there are two.
func settle(n number, u measureUnit, low, high float64) (float64, float64, string) {
	small := u.symbol == "g" || u.symbol == "mg" || u.symbol == "ml"
	switch {
	case n.comma && small && low == n.value:
		return n.thousands, max(high, n.thousands), ""
	case n.comma, n.point && small:
		return low, high, "that could be " + plain(n.value) + " or " + plain(n.thousands) + " " + u.symbol
	}
	return low, high, ""
}

// numberAt reads a number, or a number in words that a measure or a name can
// follow.
func (l line) numberAt(i int) (v float64, to int, fault string, ok bool) {
	t := l.at(i)
	if t.kind == numeric {
		if l.isName(i) {
			return 0, i, "", false
		}
		if t.num.whole && l.at(i+1).is("and") {
			if f, n := l.andFraction(i + 1); n > 0 {
				return t.num.value + f, i + 1 + n, t.num.fault, true
			}
		}
		return t.num.value, i + 1, t.num.fault, true
	}
	v, n := l.numberWords(i)
	if n == 0 {
		return 0, i, "", false
	}
	if _, _, unit := l.measureAt(i + n); !unit && (v < 1 || t.is("a") || t.is("an") || l.otherUnit(i+n)) {
		return 0, i, "", false
	}
	return v, i + n, "", true
}

// rangeEnd reads "- 2", "to 2", "or 2" after a number.
func (l line) rangeEnd(i int) (v float64, to int, fault string, ok bool) {
	t := l.at(i)
	if t.kind == numeric && t.signed {
		return t.num.value, i + 1, t.num.fault, true
	}
	if t.is("-") || t.is("to") || t.is("or") || t.is("~") {
		if n := l.at(i + 1); n.kind == numeric && !n.signed {
			return n.num.value, i + 2, n.num.fault, true
		}
		if t.is("to") || t.is("or") {
			if v, n := l.numberWords(i + 1); n > 0 && !l.at(i+1).is("a") && !l.at(i+1).is("an") {
				return v, i + 1 + n, "", true
			}
		}
	}
	return 0, i, "", false
}

// isName says whether the number at i belongs to a name: #1, no. 1, cure 2.
func (l line) isName(i int) bool {
	before := l.at(i - 1)
	if i > 0 && before.kind == mark && before.text == "." {
		before = l.at(i - 2)
	}
	switch {
	case i == 0:
		return false
	case before.is("#"), before.is("no"), before.is("nr"), before.is("number"), before.is("№"), before.is("vitamin"):
		return true
	case before.is("cure"), before.is("salt"), before.is("mix"), before.is("powder"):
		n := l.at(i).num
		_, _, unit := l.measureAt(i + 1)
		return n.whole && (n.value == 1 || n.value == 2) && !unit
	}
	return false
}

// otherUnit says whether a unit of time, heat or length comes at i.
func (l line) otherUnit(i int) bool {
	if l.at(i).is("c") { // a cup in old recipes, a temperature elsewhere: neither is taken
		return true
	}
	u, _, ok := l.unitAt(i)
	return ok && (u.dim == heat || u.dim == span || u.dim == parts || u.dim == length && !l.at(i).is("in"))
}
