package parse

import "larderhand/curemath"

// amount reads a number with or without its unit, or says why it makes no sense
// in a cure line.
func (r *cureReader) amount(i int) (item, *Problem) {
	if n, to, ok := r.countAt(i); ok {
		return item{kind: countItem, count: n, to: to, times: r.isTimes(to - 1)}, nil
	}
	if notNumber(r.at(i).text) || r.at(i).is("-") && r.at(i+1).kind == numeric && (!r.bullet(i) || r.at(i+1).signed) {
		return item{}, r.notWeight(i)
	}
	q, ok := r.quantityAt(i)
	if !ok {
		return item{}, nil
	}
	if p := r.isRange(q); p != nil {
		return item{}, p
	}
	switch q.unit.dim {
	case mass:
		g, to, p := r.weightAt(i)
		return item{kind: weightItem, grams: g, to: to}, p
	case length:
		if q.unit.symbol == "in" && r.at(q.to-1).is("in") && r.prepositionIn(q) {
			break
		}
		m, p := r.thickness(q)
		return item{kind: thicknessItem, mm: m, to: q.to}, p
	case share, parts:
		p := r.doubt(q, cureExample)
		if p != nil {
			p.Example = "5 lb salt 2.5 % nitrite 120 ppm"
		}
		return item{kind: shareItem, qty: q, to: q.to}, p
	case span:
		n, p := r.days(q)
		return item{kind: daysItem, count: n, to: q.to}, p
	case heat:
		c, p := r.fridge(q)
		to := q.to
		if r.at(to).is("fridge") {
			to++
		}
		return item{kind: fridgeItem, celsius: c, to: to}, p
	case volume:
		return item{}, r.massProblem(q)
	}
	q.unit, q.to = unit{}, i+1
	if q.num.fault != "" {
		return item{}, r.doubt(q, cureExample)
	}
	if to := r.numberedSpice(q); to > 0 {
		return item{kind: wordItem, to: to}, nil
	}
	return item{kind: shareItem, qty: q, to: q.to}, nil
}

// prepositionIn tells "2 in the bag" from 2 in thick: no slab is followed by an
// article.
func (r *cureReader) prepositionIn(q quantity) bool {
	next := r.at(q.to)
	return !r.at(q.to-1).glued && (next.is("a") || next.is("the"))
}

// bullet says whether the dash at i only marks a line of a list.
func (r *cureReader) bullet(i int) bool {
	before, after := r.at(i-1), r.at(i+1)
	return !after.glued && (before.kind == newline || i == 0 && r.lines() > 1)
}

// lines counts the lines of the text, as far as two.
func (r *cureReader) lines() int {
	for _, t := range r.toks {
		if t.kind == newline {
			return 2
		}
	}
	return 1
}

// isRange refuses 5-6 lb: the sums need one number.
func (r *cureReader) isRange(q quantity) *Problem {
	dash, next := r.at(q.from+1), r.at(q.from+2)
	if q.unit.dim != noDimension || !dash.is("-") || next.kind != numeric {
		return nil
	}
	to, example := q.from+3, cureExample
	if other, ok := r.quantityAt(q.from + 2); ok {
		to = other.to
		example = working(r.said(q.from+2, to), cureExample)
	}
	return &Problem{Kind: Ambiguous, Said: r.said(q.from, to), Why: "that is a range, and I need one number", Example: example}
}

// days makes whole days of a quantity of time.
func (r *cureReader) days(q quantity) (int, *Problem) {
	const example = "5 lb belly 9 days"
	if p := r.spanProblem(q); p != nil {
		p.Example = example
		return 0, p
	}
	p := &Problem{Said: r.said(q.from, q.to), Example: example}
	const day = 24 * 60 * 60
	n := q.amount() / day
	switch {
	case n == 0:
		p.Kind, p.Why = Zero, "a cure takes at least a day"
	case n != float64(int(n)):
		p.Kind, p.Why = NotADuration, "a cure goes by whole days"
	case n > 365:
		p.Kind, p.Why = TooBig, "no cure takes over a year"
	default:
		return int(n), nil
	}
	return 0, p
}

// numberedSpice reads "5 spice" and "5-spice", which are a seasoning once a
// weight has been said. It gives the token after it, or 0.
func (r *cureReader) numberedSpice(q quantity) int {
	k := q.to
	if r.at(k).is("-") {
		k++
	}
	switch r.at(k).text {
	case "spice", "spices", "pepper", "peppers", "herb", "herbs":
	default:
		return 0
	}
	for _, it := range r.items {
		if it.kind == weightItem {
			return k + 1
		}
	}
	return 0
}

// countAt reads how many pieces there are: 2 x, 2×, two slabs. It gives the
// number and the token after.
func (l line) countAt(i int) (n, to int, ok bool) {
	t := l.at(i)
	v, k := t.num.value, i+1
	if t.kind == word {
		w, used := l.numberWords(i)
		if v, k = w, i+used; used == 0 || t.is("a") || t.is("an") {
			return 0, 0, false
		}
	} else if t.kind != numeric || !t.num.whole || t.signed {
		return 0, 0, false
	}
	if v < 1 || v > MostPieces*4 || v != float64(int(v)) {
		return 0, 0, false
	}
	switch l.at(k).text {
	case "x", "×", "*":
		if q, ok := l.quantityAt(k + 1); !ok || q.unit.dim != mass {
			return 0, 0, false
		}
	case "piece", "pieces", "slab", "slabs", "bellies":
	case "pork":
		if !l.at(k + 1).is("bellies") {
			return 0, 0, false
		}
		k++
	default:
		return 0, 0, false
	}
	return int(v), k + 1, true
}

func (r *cureReader) isTimes(i int) bool {
	t := r.at(i)
	return t.is("x") || t.is("×") || t.is("*")
}

// bare gives back a number that is alone in the line.
func (r *cureReader) bare() (CureLine, bool, *Problem) {
	var only *item
	for i := range r.items {
		it := &r.items[i]
		switch {
		case it.kind == shareItem && it.qty.unit.dim == noDimension && only == nil:
			only = it
		case it.kind == breakItem:
		case it.kind == hardItem && (r.at(it.from).is("cure") || r.at(it.from).is("open")):
		default:
			return CureLine{}, false, nil
		}
	}
	if only == nil {
		return CureLine{}, false, nil
	}
	p := r.massProblem(only.qty)
	switch v := only.qty.num.value; {
	case p == nil || p.Kind != NoUnit:
		return CureLine{}, false, p
	case only.qty.num.comma || only.qty.num.point:
		return CureLine{}, false, r.twoWays(only.qty, weightExample)
	case v == 0:
		return CureLine{}, false, &Problem{Kind: Zero, Said: r.said(only.from, only.to), Why: "a piece has to weigh something", Example: weightExample}
	default:
		return CureLine{Bare: &v}, true, nil
	}
}

// sameWeight keeps a restated weight from counting twice: 5 lb (2.27 kg).
func sameWeight(a, b curemath.Grams) bool {
	d := a - b
	return d < a/100 && -d < a/100
}
