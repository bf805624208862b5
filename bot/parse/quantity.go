package parse

// quantity is a number with the unit that follows it, if any: the tokens from
// and up to to.
type quantity struct {
	num      number
	negative bool
	unit     unit
	from, to int
}

// quantityAt reads a number and its unit at token i. Number words (five, half
// a) count only in front of a unit.
func (l line) quantityAt(i int) (quantity, bool) {
	t := l.at(i)
	if t.kind == numeric {
		q := quantity{num: t.num, negative: t.signed, from: i, to: i + 1}
		if t.num.whole && l.at(i+1).is("and") {
			if v, n := l.andFraction(i + 1); n > 0 { // 2 and a half pounds
				if u, m, ok := l.unitAt(i + 1 + n); ok {
					q.num = number{value: t.num.value + v}
					q.unit, q.to = u, i+1+n+m
					return q, true
				}
			}
		}
		if u, n, ok := l.unitAt(i + 1); ok {
			q.unit, q.to = u, i+1+n
			l.trailingFraction(&q)
		}
		return q, true
	}
	v, n := l.numberWords(i)
	if n == 0 {
		return quantity{}, false
	}
	u, m, ok := l.unitAt(i + n)
	if !ok || u.dim == heat || u.dim == length && l.at(i+n).is("in") && v == 1 {
		return quantity{}, false
	}
	q := quantity{num: number{value: v, whole: v == float64(int(v))}, unit: u, from: i, to: i + n + m}
	l.trailingFraction(&q)
	return q, true
}

// trailingFraction adds "and a half" after the unit: an hour and a half.
func (l line) trailingFraction(q *quantity) {
	if v, n := l.andFraction(q.to); n > 0 && q.num.whole {
		if _, _, more := l.unitAt(q.to + n); !more {
			q.num = number{value: q.num.value + v}
			q.to += n
		}
	}
}

// andFraction reads "and a half", "and a quarter", "and three quarters".
func (l line) andFraction(i int) (float64, int) {
	if !l.at(i).is("and") {
		return 0, 0
	}
	if v, n := l.fractionWords(i + 1); n > 0 {
		return v, n + 1
	}
	return 0, 0
}

// fractionWords reads half, a quarter, three quarters of an.
func (l line) fractionWords(i int) (float64, int) {
	rest := func(n int) int { // swallow what stands between it and the unit
		if l.at(i + n).is("of") {
			n++
		}
		if l.at(i+n).is("a") || l.at(i+n).is("an") {
			n++
		}
		return n
	}
	first, second := l.at(i).text, l.at(i+1).text
	switch {
	case first == "half":
		return 0.5, rest(1)
	case first == "quarter":
		return 0.25, rest(1)
	case first == "three" && (second == "quarters" || second == "quarter"):
		return 0.75, rest(2)
	case (first == "a" || first == "one") && second == "half":
		return 0.5, rest(2)
	case (first == "a" || first == "one") && second == "quarter":
		return 0.25, rest(2)
	}
	return 0, 0
}

// numberWords reads a number in words and says how many tokens it takes.
func (l line) numberWords(i int) (float64, int) {
	if l.at(i).kind != word {
		return 0, 0
	}
	if v, n := l.fractionWords(i); n > 0 {
		return v, n
	}
	v, ok := smallNumber(l.at(i).text)
	if !ok {
		return 0, 0
	}
	if f, n := l.andFraction(i + 1); n > 0 { // two and a half pounds
		if _, _, unit := l.unitAt(i + 1 + n); unit {
			return v + f, 1 + n
		}
	}
	return v, 1
}

// doubt gives the problem of a number that is none, or that can be read two
// ways with its unit.
func (l line) doubt(q quantity, example string) *Problem {
	n := q.num
	switch {
	case n.fault != "":
		return &Problem{Kind: NotANumber, Said: l.said(q.from, q.to), Why: n.fault, Example: example}
	case n.comma && q.unit.symbol != "g" && q.unit.symbol != "mg":
		return l.twoWays(q, example)
	case n.point && q.unit.symbol == "g":
		return l.twoWays(q, example)
	}
	return nil
}

func (l line) twoWays(q quantity, example string) *Problem {
	name := ""
	if q.unit.symbol != "" {
		name = " " + q.unit.symbol
		switch { // one of the two, where it is sure to be read
		case q.num.value >= 10:
		case q.unit.symbol == "g":
			example = plain(q.num.thousands) + name
		default:
			example = plain(q.num.value) + name
		}
	}
	return &Problem{
		Kind:    Ambiguous,
		Said:    l.said(q.from, q.to),
		Why:     "that could be " + plain(q.num.value) + name + " or " + plain(q.num.thousands) + name,
		Example: example,
	}
}

// amount gives the number in base units, with the thousands reading where the
// unit settles it. Call doubt first.
func (q quantity) amount() float64 {
	v := q.num.value
	if q.num.comma {
		v = q.num.thousands
	}
	if q.negative {
		v = -v
	}
	if q.unit.factor != 0 {
		v *= q.unit.factor
	}
	return v
}
