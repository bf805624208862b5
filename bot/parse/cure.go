package parse

import (
	"time"

	"larderhand/curemath"
)

// PieceLine is one piece of a cure line.
type PieceLine struct {
	Weight     curemath.Grams
	Thickness  curemath.Millimetres // 0 if not said
	Flavouring string               // as typed, tidied, at most 60 characters
	RindOn     *bool                // nil if not said for this piece
}

// CureLine is what one line says about a cure. What was not said is nil, 0 or
// empty.
type CureLine struct {
	Pieces      []PieceLine
	Thickness   curemath.Millimetres // said without a weight; pieces have it already
	Salt, Sugar *curemath.Percent    // of the meat
	Nitrite     *curemath.PPM        // target, ingoing
	Mix         *curemath.Percent    // share of sodium nitrite in the curing mix
	MixNitrate  *curemath.Percent    // share of nitrate in the curing mix
	Ascorbate   *curemath.PPM
	RindOn      *bool  // said for the whole line, or for its only piece
	Method      string // "", "dry", "brine", "pump" or "box"
	Days        *int
	From        *time.Time // not after now
	Fridge      *curemath.Celsius
	Bare        *float64 // a number with no unit and nothing else: "5"
}

// MostPieces is how many pieces one line may hold: one for each letter.
const MostPieces = 26

const cureExample = "5 lb belly 1.5 in thick"

// Cure reads a line that describes a cure: pieces with weights, thicknesses and
// flavourings, and what is set for all of them, in any order.
//
//   - Commas, semicolons, new lines and "and" part the pieces; words that follow
//     a weight are its flavouring, across "and" and commas until the next weight.
//   - A thickness or rind said together with a weight is that piece's; said in a
//     part of its own it holds for every piece that has none.
//   - salt, sugar, mix and ascorbate take a percentage before or after the word,
//     nitrite parts per million; ppm alone is nitrite. "no sugar" is 0.
//   - "2 x 5 lb" is two pieces, "2 slabs 5 lb each" too.
//   - A line of settings without a weight has no Pieces, and is no problem.
//   - A bare number and nothing else is given back in Bare, to be asked about.
//
// Errors are *Problem, with what was understood up to there.
func Cure(s string, now time.Time) (CureLine, error) {
	l, p := open(s, cureExample)
	if p != nil {
		return CureLine{}, p
	}
	r := cureReader{line: l, now: now}
	c, p := r.read()
	if p != nil {
		if p.Understood == "" {
			p = p.understood(r.understood(p))
		}
		return CureLine{}, p
	}
	return c, nil
}

// LooksLikeCure says whether a line can be taken as a cure without a command
// word: its first number is a weight (even one that will be refused), a
// thickness or a count with a weight after it, or it is a bare number and
// nothing else.
func LooksLikeCure(s string) bool {
	l, p := open(s, cureExample)
	if p != nil {
		return false
	}
	i := 0
	for i < len(l.toks) && l.at(i).kind != numeric {
		if q, ok := l.quantityAt(i); ok && q.unit.dim == mass {
			return true
		}
		if _, to, ok := l.countAt(i); ok {
			return l.massAfter(to)
		}
		if notNumber(l.at(i).text) {
			u, _, ok := l.unitAt(i + 1)
			return ok && u.dim == mass
		}
		if !l.skippable(i) {
			return false
		}
		i++
	}
	q, ok := l.quantityAt(i)
	if !ok {
		return false
	}
	_, _, counted := l.countAt(i)
	next := l.at(i + 1)
	switch {
	case q.unit.dim == mass, q.unit.dim == volume, nearlyMass(next.text):
		return true
	case q.unit.dim == length, counted, next.is("-") && l.at(i+2).kind == numeric:
		return l.massAfter(q.to)
	case q.unit.dim != noDimension, q.num.base > 16: // 151/124 is a reading
		return false
	}
	for i = q.to; i < len(l.toks); i++ { // 5, 5 belly
		if !l.skippable(i) || l.at(i).kind == numeric {
			return false
		}
	}
	return true
}

// massAfter says whether a weight comes at or after token i.
func (l line) massAfter(i int) bool {
	for ; i < len(l.toks); i++ {
		if l.at(i).kind != numeric {
			continue
		}
		if q, ok := l.quantityAt(i); ok && q.unit.dim == mass {
			return true
		}
	}
	return false
}
