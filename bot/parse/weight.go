package parse

import (
	"math"

	"larderhand/curemath"
)

// Heaviest is the most one weight may be: no belly, and no whole carcass side,
// weighs 200 kg (common practice, no source).
const Heaviest = 200 * curemath.Kilogram

const weightExample = "4 lb 8 oz"

// Weight reads a text that is one weight and nothing else, in grams: above 0, at
// most Heaviest. Pounds are avoirdupois (1 lb = 0.45359237 kg exactly). Errors
// are *Problem.
func Weight(s string) (curemath.Grams, error) {
	l, p := open(s, weightExample)
	if p != nil {
		return 0, p
	}
	g, next, p := l.weightAt(0)
	if p != nil {
		return 0, p
	}
	if next < len(l.toks) {
		return 0, l.leftover(next, "a weight of "+l.said(0, next), weightExample)
	}
	return g, nil
}

// weightAt reads the weight that begins at token i, with ounces after pounds or
// grams after kilograms, and gives the token after it.
func (l line) weightAt(i int) (curemath.Grams, int, *Problem) {
	q, ok := l.quantityAt(i)
	if !ok {
		return 0, i, l.notWeight(i)
	}
	if p := l.massProblem(q); p != nil {
		return 0, q.to, p
	}
	total := q.amount()
	end := q.to
	if small, p := l.smaller(q); p != nil {
		return 0, end, p
	} else if small.to > 0 {
		total += small.amount()
		end = small.to
	}
	switch g := curemath.Grams(total); {
	case total == 0:
		return 0, end, &Problem{Kind: Zero, Said: l.said(i, end), Why: "a piece has to weigh something", Example: weightExample}
	case g > Heaviest:
		return 0, end, l.tooHeavy(i, end)
	default:
		return g, end, nil
	}
}

func (l line) tooHeavy(i, end int) *Problem {
	return &Problem{Kind: TooBig, Said: l.said(i, end), Why: "one piece can't be over 200 kg (440 lb)", Example: weightExample}
}

// massProblem says why a quantity is no weight, or nil.
func (l line) massProblem(q quantity) *Problem {
	said := l.said(q.from, q.to)
	if q.num.fault == "" && q.negative {
		return &Problem{Kind: Negative, Said: said, Why: "a weight can't be below zero", Example: weightExample}
	}
	if p := l.doubt(q, weightExample); p != nil && (p.Kind == NotANumber || q.unit.dim == mass && q.unit.factor != 0) {
		return p
	}
	switch {
	case q.unit.dim == volume:
		return &Problem{Kind: NotAWeight, Said: said, Why: "that is a volume, and I need a weight", Example: weightExample}
	case q.unit.dim == noDimension && l.at(q.to).kind == word:
		return &Problem{Kind: UnknownUnit, Said: l.said(q.from, q.to+1), Why: "I know lb, oz, g and kg", Example: weightExample}
	case q.unit.dim == noDimension && l.at(q.to).kind == numeric:
		return l.twoNumbers(q)
	case q.unit.dim == noDimension && q.num.value == 0:
		return &Problem{Kind: Zero, Said: said, Why: "a piece has to weigh something", Example: weightExample}
	case q.unit.dim == noDimension:
		return &Problem{Kind: NoUnit, Said: said, Why: "is that pounds or kilograms?", Example: suggest(q.num.value, "lb", 200, weightExample)}
	case q.unit.dim != mass:
		return &Problem{Kind: NotAWeight, Said: said, Why: "that is not a weight", Example: weightExample}
	case q.unit.symbol == "t" && q.num.value >= 0.2:
		return l.tooHeavy(q.from, q.to)
	case q.unit.factor == 0:
		return &Problem{Kind: UnknownUnit, Said: said, Why: "that unit differs from place to place; use lb, oz, g or kg", Example: weightExample}
	}
	return nil
}

// twoNumbers asks about 2 268 g with a plain space, which may be one number or
// two.
func (l line) twoNumbers(q quantity) *Problem {
	p := &Problem{Kind: Ambiguous, Why: "I see two numbers there", Example: weightExample}
	next, _ := l.quantityAt(q.to)
	p.Said = l.said(q.from, next.to)
	if q.num.whole && next.num.whole && len(l.at(q.to).text) == 3 && len(l.at(q.from).text) <= 2 && q.num.value > 0 && next.unit.symbol == "g" {
		p.Example = l.at(q.from).text + l.at(q.to).text + " g"
	}
	return p
}

// smaller reads the ounces that follow pounds, or the grams that follow
// kilograms. Its to is 0 if there are none.
func (l line) smaller(q quantity) (quantity, *Problem) {
	less := map[string]string{"lb": "oz", "kg": "g"}[q.unit.symbol]
	s, ok := l.quantityAt(q.to)
	if less == "" || !ok || s.unit.symbol != less || s.unit.dim != mass {
		return quantity{}, nil
	}
	p := &Problem{Said: l.said(q.from, s.to), Understood: "a weight of " + l.said(q.from, q.to)}
	most := map[string]float64{"oz": 16, "g": 1000}[less]
	switch bad := l.doubt(s, weightExample); {
	case bad != nil:
		return s, bad.understood(p.Understood)
	case s.negative:
		p.Kind, p.Why, p.Example = Negative, "a weight can't be below zero", weightExample
	case !q.num.whole:
		p.Kind, p.Why, p.Example = Ambiguous, "a part of a "+q.unit.symbol+" and "+less+" after it don't go together", weightExample
	case s.amount()/s.unit.factor >= most && less == "oz":
		p.Kind, p.Why, p.Example = OuncesTooMany, "ounces run from 0 to 15", suggest(q.num.value, "lb 15 oz", 200, weightExample)
	case s.amount()/s.unit.factor >= most:
		p.Kind, p.Why, p.Example = Ambiguous, "grams after kilograms run from 0 to 999", "2 kg 270 g"
	default:
		return s, nil
	}
	return s, p
}

// notWeight is the problem of a text that does not begin with a number.
func (l line) notWeight(i int) *Problem {
	t := l.at(i)
	all := l.said(i, len(l.toks))
	switch {
	case t.is("nan"), t.is("inf"), t.is("infinity"), t.is("∞"):
		return &Problem{Kind: NotANumber, Said: all, Why: "that is not a number", Example: weightExample}
	case t.is("-"):
		return &Problem{Kind: Negative, Said: all, Why: "a weight can't be below zero", Example: weightExample}
	}
	return &Problem{Kind: NotAWeight, Said: all, Why: "I see no weight there", Example: weightExample}
}

// positive guards what leaves the package.
func positive(f float64) bool { return f > 0 && !math.IsInf(f, 0) }
