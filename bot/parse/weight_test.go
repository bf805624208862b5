package parse

import (
	"errors"
	"math"
	"testing"

	"larderhand/curemath"
)

func TestWeight(t *testing.T) {
	rows := []struct {
		in   string
		want curemath.Grams
		src  string
	}{
		{"5 lb", 2267.96185, "1 lb = 0.45359237 kg exactly, NIST Handbook 44 appendix C"},
		{"5 lb 3 oz", 2353.010419375, "NIST Handbook 44 appendix C: 5 lb + 3 oz"},
		{"5.1875 lb", 2353.010419375, "the same"},
		{"1½ lb", 680.388555, "NIST Handbook 44 appendix C"},
		{"72 oz", 2041.16566500, "72 oz = 4.5 lb"},
		{"2.27kg", 2270, "arithmetic"},
		{"2,27 kg", 2270, "arithmetic"},
	}
	for _, r := range rows {
		got, err := Weight(r.in)
		if err != nil || math.Abs(float64(got-r.want)) > 1e-6 {
			t.Errorf("Weight(%q) = %v, %v; want %v (%s)", r.in, got, err, r.want, r.src)
		}
	}
}

func kindOf(err error) Kind {
	var p *Problem
	if errors.As(err, &p) {
		return p.Kind
	}
	return 0
}

func TestWeightProblems(t *testing.T) {
	for in, want := range map[string]Kind{
		"5": NoUnit, "-5 lb": Negative, "--5 lb": Negative, "0 lb": Zero, "5 tons": TooBig, "1e400 lb": NotANumber,
		"NaN": NotANumber, "Inf lb": NotANumber, "5 lb 20 oz": OuncesTooMany, "5 fl oz": NotAWeight, "": Empty,
		"2,268 kg": Ambiguous, "2.268 g": Ambiguous, "5 foo": UnknownUnit, "hello": NotAWeight,
	} {
		if _, err := Weight(in); kindOf(err) != want {
			t.Errorf("Weight(%q): %v (%v), want %v", in, err, kindOf(err), want)
		}
	}
}
