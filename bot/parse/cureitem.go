package parse

import (
	"time"

	"larderhand/curemath"
)

// itemKind is what a stretch of a cure line is.
type itemKind int

const (
	breakItem itemKind = iota + 1 // , ; new line
	joinItem                      // and & +
	softItem                      // a word that carries nothing, kept inside a flavouring
	hardItem                      // a word or sign that carries nothing
	wordItem                      // anything else in letters
	weightItem
	thicknessItem
	shareItem // a quantity in % or ppm, or a bare number
	keyItem
	setItem // a key with its share already settled
	rindItem
	methodItem
	daysItem
	fromItem
	fridgeItem
	countItem // 2 x, 3 slabs
	eachItem
)

// item is one stretch of a cure line: the tokens from and up to to.
type item struct {
	kind     itemKind
	from, to int
	qty      quantity
	key      key
	grams    curemath.Grams
	mm       curemath.Millimetres
	on       bool
	method   string
	count    int  // of days or pieces
	times    bool // the count was said with x
	at       time.Time
	celsius  curemath.Celsius
	percent  curemath.Percent
	ppm      curemath.PPM
}

// cureReader takes a line to items and items to a CureLine.
type cureReader struct {
	line
	now   time.Time
	items []item
	done  bool              // shares have been settled
	one   *curemath.Percent // what a mix named by the number 1 holds
}

// read runs the three steps: items, shares to their settings, pieces.
func (r *cureReader) read() (CureLine, *Problem) {
	for i := 0; i < len(r.toks); {
		it, p := r.next(i)
		if p != nil {
			return CureLine{}, p
		}
		it.from = i
		r.items = append(r.items, it)
		i = it.to
	}
	if c, ok, p := r.bare(); ok || p != nil {
		return c, p
	}
	if p := r.settle(); p != nil {
		return CureLine{}, p
	}
	return r.assemble()
}

// next reads the item at token i.
func (r *cureReader) next(i int) (item, *Problem) {
	for _, reader := range [...]func(*cureReader, int) (item, *Problem){
		(*cureReader).setting, (*cureReader).amount, (*cureReader).phrase,
	} {
		if it, p := reader(r, i); p != nil || it.kind != 0 {
			return it, p
		}
	}
	return r.plainToken(i), nil
}

// plainToken reads a sign or a word with no meaning of its own.
func (r *cureReader) plainToken(i int) item {
	t := r.at(i)
	it := item{kind: wordItem, to: i + 1}
	switch {
	case t.kind == newline, t.is(","), t.is(";"):
		it.kind = breakItem
	case t.is("."), t.is("!"), t.is("?"):
		it.kind = breakItem
	case t.is("and"), t.is("&"), t.is("+"), t.is("plus"):
		it.kind = joinItem
	case t.is("/"), t.is("-"):
		it.kind = softItem
	case t.kind == mark:
		it.kind = hardItem
	case t.is("each"), t.is("apiece"):
		it.kind = eachItem
	case soft(t.text):
		it.kind = softItem
	case hard(t.text):
		it.kind = hardItem
	}
	return it
}

// setting reads what is introduced by a word: from …, fridge …, no sugar, salt.
func (r *cureReader) setting(i int) (item, *Problem) {
	t := r.at(i)
	if p := r.refusedAt(i); p != nil {
		return item{}, p
	}
	if it, p := r.numberedMix(i); p != nil || it.kind != 0 {
		return it, p
	}
	switch t.text {
	case "from", "since", "started":
		k := i + 1
		if r.at(k).is("from") || r.at(k).is("at") || r.at(k).is("on") {
			k++
		}
		at, next, p := r.momentAt(k, r.now, backward)
		if p != nil {
			p.Example = "5 lb belly from yesterday 18:00"
			return item{}, p
		}
		return item{kind: fromItem, at: at, to: next}, nil
	case "fridge", "refrigerator":
		k := i + 1
		for k < i+4 && (r.at(k).is(":") || r.at(k).is("=") || r.at(k).is("at") || r.at(k).is("is") || r.at(k).is("of")) {
			k++
		}
		q, ok := r.quantityAt(k)
		if !ok || q.unit.dim != heat && q.unit.dim != noDimension {
			return item{kind: hardItem, to: i + 1}, nil
		}
		c, p := r.fridge(q)
		return item{kind: fridgeItem, celsius: c, to: q.to}, p
	case "days": // days 9
		k := i + 1
		if r.at(k).is(":") || r.at(k).is("=") {
			k++
		}
		if q, ok := r.quantityAt(k); ok && q.unit.dim == noDimension && r.at(k).kind == numeric {
			q.unit = unit{span, 24 * 60 * 60, "d"}
			n, p := r.days(q)
			return item{kind: daysItem, count: n, to: q.to}, p
		}
		return item{kind: hardItem, to: i + 1}, nil
	case "no", "without", "zero":
		if k, n := r.keyAt(i + 1); k == saltKey || k == sugarKey || k == nitriteKey || k == ascorbateKey {
			return item{kind: setItem, key: k, to: i + 1 + n}, nil
		}
	}
	return item{}, nil
}

// phrase reads rind, method and the words for settings.
func (r *cureReader) phrase(i int) (item, *Problem) {
	if on, n, ok := r.rindAt(i); ok {
		if n == 0 {
			return item{}, &Problem{Kind: UnknownWord, Said: r.said(i, i+1), Why: "is it on or off?", Example: "5 lb belly rind on"}
		}
		return item{kind: rindItem, on: on, to: i + n}, nil
	}
	if m, n := r.methodAt(i); n > 0 {
		return item{kind: methodItem, method: m, to: i + n}, nil
	}
	if r.at(i).is("method") {
		return item{kind: hardItem, to: i + 1}, nil
	}
	if k, n := r.keyAt(i); n > 0 {
		return item{kind: keyItem, key: k, to: i + n}, nil
	}
	return item{}, nil
}
