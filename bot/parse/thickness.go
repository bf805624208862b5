package parse

import "larderhand/curemath"

// Thickest is the most a thickness may be: half a metre is no slab any more
// (common practice, no source).
const Thickest curemath.Millimetres = 500

const thicknessExample = "1.5 in"

// Thickness reads a text that is one thickness in millimetres: above 0, at most
// Thickest. Errors are *Problem.
func Thickness(s string) (curemath.Millimetres, error) {
	l, p := open(s, thicknessExample)
	if p != nil {
		return 0, p
	}
	q, ok := l.quantityAt(0)
	if !ok {
		return 0, &Problem{Kind: NotAThickness, Said: quote(s), Why: "I see no thickness there", Example: thicknessExample}
	}
	m, p := l.thickness(q)
	if p != nil {
		return 0, p
	}
	end := q.to
	if l.at(end).is("thick") {
		end++
	}
	if end < len(l.toks) {
		return 0, l.leftover(end, "a thickness of "+l.said(0, end), thicknessExample)
	}
	return m, nil
}

// thickness makes a thickness of a quantity.
func (l line) thickness(q quantity) (curemath.Millimetres, *Problem) {
	p := &Problem{Said: l.said(q.from, q.to), Example: thicknessExample}
	m := curemath.Millimetres(q.amount())
	bad := l.doubt(q, thicknessExample)
	switch {
	case bad != nil && (bad.Kind == NotANumber || q.unit.dim == length):
		return 0, bad
	case q.negative:
		p.Kind, p.Why = Negative, "a thickness can't be below zero"
	case q.unit.dim == noDimension && l.at(q.to).kind == word && !l.at(q.to).is("thick"):
		p.Kind, p.Said, p.Why = UnknownUnit, l.said(q.from, q.to+1), "I know in, cm and mm"
	case q.unit.dim == noDimension && q.num.value > 0:
		p.Kind, p.Why, p.Example = NoUnit, "is that inches or centimetres?", suggest(q.num.value, "in", 15, thicknessExample)
	case q.unit.dim == noDimension:
		p.Kind, p.Why = Zero, "a slab has some thickness"
	case q.unit.dim != length:
		p.Kind, p.Why = NotAThickness, "that is not a thickness"
	case !positive(float64(m)):
		p.Kind, p.Why = Zero, "a slab has some thickness"
	case m > Thickest:
		p.Kind, p.Why = TooBig, "no slab is over 500 mm (20 in) thick"
	default:
		return m, nil
	}
	return 0, p
}
