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
	Salt, Sugar *curemath.Percent // of the meat
	Nitrite     *curemath.PPM     // target, ingoing
	Mix         *curemath.Percent // share of sodium nitrite in the curing mix
	MixNitrate  *curemath.Percent // share of nitrate in the curing mix
	Ascorbate   *curemath.PPM
	RindOn      *bool  // said for the whole line
	Method      string // "", "dry", "brine", "pump" or "box"
	Days        *int
	From        *time.Time
	Fridge      *curemath.Celsius
	Bare        *float64 // a number with no unit and nothing else: "5"
}

const cureExample = "5 lb belly 1.5 in thick"

// Cure reads a line that describes a cure. Errors are *Problem.
func Cure(s string, now time.Time) (CureLine, error) {
	l, p := open(s, cureExample)
	if p != nil {
		return CureLine{}, p
	}
	g, _, p := l.weightAt(0)
	if p != nil {
		return CureLine{}, p
	}
	return CureLine{Pieces: []PieceLine{{Weight: g}}}, nil
}

// LooksLikeCure says whether a line can be taken as a cure without a command
// word: its first number is a weight, or it is a bare number and nothing else.
func LooksLikeCure(s string) bool {
	l, p := open(s, cureExample)
	if p != nil {
		return false
	}
	q, ok := l.quantityAt(0)
	return ok && q.unit.dim == mass
}
