package curemath_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"larderhand/curemath"
)

// recompute works out the left side of a printed step as a person with a pocket
// calculator would: units and words fall away, × and ÷ bind before + and −.
func recompute(side string) (float64, bool) {
	side = strings.NewReplacer(",", "", "×", " * ", "÷", " / ", "−", " - ", "+", " + ", "(", " ( ", ")", " ) ").Replace(side)
	var tokens []string
	number := regexp.MustCompile(`^-?\d+(\.\d+)?$`)
	for f := range strings.FieldsSeq(side) {
		if number.MatchString(f) || strings.Contains("*/+-()", f) {
			tokens = append(tokens, f)
		}
	}
	pos := 0
	peek := func() string {
		if pos < len(tokens) {
			return tokens[pos]
		}
		return ""
	}
	var sum func() float64
	factor := func() float64 {
		tok := peek()
		pos++
		if tok == "(" {
			v := sum()
			pos++
			return v
		}
		v, err := strconv.ParseFloat(tok, 64)
		if err != nil {
			return math.NaN()
		}
		return v
	}
	product := func() float64 {
		v := factor()
		for peek() == "*" || peek() == "/" {
			op := peek()
			pos++
			if w := factor(); op == "*" {
				v *= w
			} else {
				v /= w
			}
		}
		return v
	}
	sum = func() float64 {
		v := product()
		for peek() == "+" || peek() == "-" {
			op := peek()
			pos++
			if w := product(); op == "+" {
				v += w
			} else {
				v -= w
			}
		}
		return v
	}
	v := sum()
	return v, pos == len(tokens) && !math.IsNaN(v)
}

// sums checks that each printed step comes out as it says, to about one in the
// last printed place, and returns how many did.
func sums(t interface {
	Helper()
	Errorf(format string, args ...any)
}, trail curemath.Trail) int {
	t.Helper()
	n := 0
	for _, s := range trail {
		if s.What == "" || s.Working == "" || s.Source.Status == 0 {
			t.Errorf("step %+v says too little", s)
		}
		left, right, ok := strings.Cut(s.Working, " = ")
		if !ok {
			continue
		}
		right, _, _ = strings.Cut(right, " → ")
		want, ok := recompute(right)
		if !ok {
			t.Errorf("cannot read the result of %q", s.Working)
			continue
		}
		got, ok := recompute(left)
		if !ok {
			t.Errorf("cannot read the sum in %q", s.Working)
			continue
		}
		last := 0.0015 // of a gram or a percent, printed to 0.001
		if strings.Contains(right, "ppm") {
			last = 0.006 // printed to 0.01
		}
		if math.Abs(got-want) > 2e-4*math.Abs(want)+last {
			t.Errorf("%s: %q does not come out: %v", s.What, s.Working, got)
		}
		n++
	}
	return n
}

// Whatever is asked, a reader can redo the printed sums and get the printed
// results.
func TestTrailsComeOut(t *testing.T) {
	us := rules(t, "us")
	rapid.Check(t, func(rt *rapid.T) {
		d := curemath.DryTargets{
			Green:     curemath.Grams(rapid.Float64Range(200, 20000).Draw(rt, "green")),
			RindOn:    rapid.Bool().Draw(rt, "rind"),
			Nitrite:   curemath.PPM(rapid.Float64Range(100, 120).Draw(rt, "ppm")),
			Salt:      curemath.Percent(rapid.Float64Range(1, 5).Draw(rt, "salt")),
			Sugar:     curemath.Percent(rapid.Float64Range(0, 3).Draw(rt, "sugar")),
			Ascorbate: curemath.PPM(rapid.Float64Range(0, 550).Draw(rt, "ascorbate")),
			Mix:       mixOf(t, curemath.Percent(rapid.Float64Range(0.4, 7).Draw(rt, "mix"))),
			Rules:     us,
		}
		dry, err := curemath.SolveDry(d)
		if err != nil {
			rt.Fatal(err)
		}
		least := 5
		if sums(rt, dry.Trail) < least {
			rt.Errorf("only a few sums in\n%s", dry.Trail)
		}
		brine, err := curemath.SolveBrine(curemath.BrineTargets{
			Green: d.Green, RindOn: d.RindOn, Water: d.Green / 2, Nitrite: d.Nitrite, Salt: d.Salt, Sugar: d.Sugar,
			Ascorbate: d.Ascorbate, Mix: d.Mix, Rules: us,
		})
		if err != nil {
			rt.Fatal(err)
		}
		if sums(rt, brine.Trail) < least {
			rt.Errorf("only a few sums in\n%s", brine.Trail)
		}
		pump, err := curemath.SolvePump(curemath.PumpTargets{
			Green: d.Green, RindOn: d.RindOn, Pump: 25, Cover: d.Green, Nitrite: d.Nitrite, Salt: d.Salt, Sugar: d.Sugar,
			Ascorbate: d.Ascorbate, Mix: d.Mix, Rules: us,
		})
		if err != nil {
			rt.Fatal(err)
		}
		if sums(rt, pump.Trail) < least {
			rt.Errorf("only a few sums in\n%s", pump.Trail)
		}
	})
}

func TestTrailPrints(t *testing.T) {
	got := curemath.Trail{{What: "Curing mix", Working: "1 g", Source: curemath.Source{Document: "A book", Section: "p. 3", Date: "1999", Status: curemath.SecondHand}}}.String()
	want := "1. Curing mix: 1 g [A book p. 3, 1999 (second-hand, not checked against the text)]"
	if got != want {
		t.Errorf("got %q", got)
	}
}

func TestSourceSaysHowWellItIsKnown(t *testing.T) {
	for status, want := range map[curemath.Status]string{
		curemath.Found:      "D",
		curemath.SecondHand: "D (second-hand, not checked against the text)",
		curemath.FromMemory: "D (from memory)",
		curemath.Practice:   "common practice, no source",
		curemath.Computed:   "computed, D",
		0:                   "D (no source given)",
	} {
		if got := (curemath.Source{Document: "D", Status: status}).String(); got != want {
			t.Errorf("%s: got %q, want %q", status, got, want)
		}
	}
	var s curemath.Status
	if err := s.UnmarshalText([]byte("sure")); err == nil {
		t.Error("an unknown status was read")
	}
	if err := s.UnmarshalText([]byte(fmt.Sprint(curemath.Computed))); err != nil || s != curemath.Computed {
		t.Error(err)
	}
}
