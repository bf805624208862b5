package parse

import "larderhand/curemath"

const (
	percentExample = "2.5 %"
	ppmExample     = "120 ppm"
)

// Percent reads a text that is one percentage, with or without its sign: 0 to
// 100. Nought is allowed (sugar 0). Errors are *Problem.
func Percent(s string) (curemath.Percent, error) {
	return alone(s, line.percent, " %", &Problem{Kind: NotAPercent, Why: "I see no percentage there", Example: percentExample})
}

// PPM reads a text that is one number of parts per million (mg/kg), with or
// without its unit, or a percentage: 0 to 1,000,000. Errors are *Problem.
func PPM(s string) (curemath.PPM, error) {
	return alone(s, line.ppm, " ppm", &Problem{Kind: NotAPPM, Why: "I see no parts per million there", Example: ppmExample})
}

// alone reads a text that is one quantity and nothing else; none says that it is none.
func alone[T ~float64](s string, read func(line, quantity) (T, *Problem), unit string, none *Problem) (T, error) {
	l, p := open(s, none.Example)
	if p != nil {
		return 0, p
	}
	q, ok := l.quantityAt(0)
	if !ok {
		none.Said = quote(s)
		return 0, none
	}
	v, p := read(l, q)
	if p == nil && q.to < len(l.toks) {
		p = l.leftover(q.to, plain(float64(v))+unit, none.Example)
	}
	if p != nil {
		return 0, p
	}
	return v, nil
}

// percent makes a percentage of a quantity; a bare number is taken as percent.
func (l line) percent(q quantity) (curemath.Percent, *Problem) {
	p := &Problem{Said: l.said(q.from, q.to), Example: percentExample}
	if bad := l.doubt(q, percentExample); bad != nil {
		return 0, bad
	}
	v := q.amount()
	switch {
	case q.negative:
		p.Kind, p.Why = Negative, "a percentage can't be below zero"
	case q.unit.dim != share && q.unit.dim != noDimension:
		p.Kind, p.Why = NotAPercent, "that is not a percentage"
	case v > 100:
		p.Kind, p.Why = TooBig, "a percentage ends at 100"
	default:
		return curemath.Percent(v), nil
	}
	return 0, p
}

// ppm makes parts per million of a quantity; a bare number is taken as ppm.
func (l line) ppm(q quantity) (curemath.PPM, *Problem) {
	p := &Problem{Said: l.said(q.from, q.to), Example: ppmExample}
	if bad := l.doubt(q, ppmExample); bad != nil {
		return 0, bad
	}
	v := q.amount()
	if q.unit.dim == share {
		v *= 10000 // 1 % is 10,000 ppm
	}
	switch {
	case q.negative:
		p.Kind, p.Why = Negative, "an amount can't be below zero"
	case q.unit.dim != parts && q.unit.dim != share && q.unit.dim != noDimension:
		p.Kind, p.Why = NotAPPM, "that is not parts per million"
	case v > 1e6:
		p.Kind, p.Why = TooBig, "a million parts per million is all there is"
	default:
		return curemath.PPM(v), nil
	}
	return 0, p
}
