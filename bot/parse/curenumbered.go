package parse

import "larderhand/curemath"

// numbered reads a curing mix by the number the trade gives it: "cure #1", "mix no. 2",
// "#1 cure". The number is a name and no percent: what is read as 1 % would be weighed
// out six times over. It gives the number, 0 if there is none, and where it ends.
func (l line) numbered(i int) (number, end int) {
	k := i
	for namesMix(l.at(k)) {
		k++
	}
	before := k > i
	n, k := l.mixNumber(k)
	if n == 0 {
		return 0, i
	}
	if !before && !namesMix(l.at(k)) {
		return 0, i
	}
	for !before && namesMix(l.at(k)) {
		k++
	}
	return n, k
}

// mixNumber reads "#1", "no. 1", "number 2" at token i; with no number n is 0.
func (l line) mixNumber(i int) (n, end int) {
	t := l.at(i)
	if !t.is("#") && !t.is("no") && !t.is("nr") && !t.is("num") && !t.is("number") {
		return 0, i
	}
	k := i + 1
	if l.at(k).is(".") || l.at(k).is("#") {
		k++
	}
	if v := l.at(k); v.kind == numeric && v.num.whole && (v.num.value == 1 || v.num.value == 2) {
		if _, _, unit := l.unitAt(k + 1); !unit {
			return int(v.num.value), k + 1
		}
	}
	return 0, i
}

func namesMix(t token) bool {
	switch t.text {
	case "mix", "cure", "curing", "salt", "pink", "powder", "prague", "tinted", "nitrite":
		return t.kind == word
	}
	return false
}

// numberedMix takes one up: no. 1 holds 6.25 % nitrite, no. 2 nitrate as well, which
// is refused.
func (r *cureReader) numberedMix(i int) (item, *Problem) {
	n, end := r.numbered(i)
	switch n {
	case 0:
		return item{}, nil
	case 2:
		return item{}, &Problem{Kind: NoCure, Said: r.said(i, end), Why: "a mix numbered 2 holds nitrate as well, " + petreRule, Example: refusedExample}
	}
	r.one = ptr(curemath.StandardMix().Nitrite)
	return item{kind: hardItem, to: end}, nil
}
