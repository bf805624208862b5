package parse

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"larderhand/curemath"

	"pgregory.net/rapid"
)

// Where no other source is named: NIST Handbook 44, appendix C (1 lb =
// 0.45359237 kg, 1 oz = 1/16 lb, exactly).
func TestWeight(t *testing.T) {
	rows := []struct {
		in   string
		want curemath.Grams
	}{
		{"5 lb", 2267.96185},
		{"5lb", 2267.96185},
		{"5lbs", 2267.96185},
		{"5 LBS.", 2267.96185},
		{"5-lb", 2267.96185},
		{"5#", 2267.96185},
		{"5 #", 2267.96185},
		{"5 pounds", 2267.96185},
		{"five pounds", 2267.96185},
		{"a pound", 453.59237},
		{"half a pound", 226.796185},
		{"a pound and a half", 680.388555},
		{"two and a half pounds", 1133.980925},
		{"2 and a half pounds", 1133.980925},
		{"three quarters of a pound", 340.1942775},
		{"5 lb 3 oz", 2353.010419375},
		{"5lb3oz", 2353.010419375},
		{"5# 3 oz", 2353.010419375},
		{"5.1875 lb", 2353.010419375},
		{"4 lb 8 oz", 2041.165665},
		{"4½ lb", 2041.165665},
		{"4 ½ lb", 2041.165665},
		{"4 1/2 lb", 2041.165665},
		{"4-1/2 lb", 2041.165665},
		{"4⁄2 lb", 907.18474},
		{"4.5lb", 2041.165665},
		{"4,5 lb", 2041.165665},
		{"1½ lb", 680.388555},
		{"1 ½ lb", 680.388555},
		{"½lb", 226.796185},
		{"1/2 lb", 226.796185},
		{".5 lb", 226.796185},
		{"72 oz", 2041.165665},
		{"15.5 oz", 439.4176084375},
		{"5 lb 15½ oz", 2707.3794584375},
		{"+5 lb", 2267.96185},
		{"2.27kg", 2270},
		{"2,27 kg", 2270},
		{"2.27 kilos", 2270},
		{"2 kg 270 g", 2270},
		{"0,250 kg", 250},
		{"0.250 kg", 250},
		{"2.268 kg", 2268},
		{"2268 g", 2268},
		{"2268 grammes", 2268},
		{"2,268 g", 2268},
		{"2,268.5 g", 2268.5},
		{"2.268,5 g", 2268.5},
		{"2\u202f268 g", 2268},
		{"2\u00a0268 g", 2268},
		{"2'268 g", 2268},
		{"2’268 g", 2268},
		{"5\u00a0lb", 2267.96185},
		{"５ ｌｂ", 2267.96185},
		{"２，２７ ㎏", 2270},
		{"٥ kg", 5000},
		{"12 dag", 120},
		{"500 mg", 0.5},
		{"200 kg", 200000},
		{" \t5 lb\r\n", 2267.96185},
		{"5\u200b lb", 2267.96185},
	}
	for _, r := range rows {
		got, err := Weight(r.in)
		if err != nil || math.Abs(float64(got-r.want)) > 1e-9*float64(r.want) {
			t.Errorf("Weight(%q) = %v, %v; want %v", r.in, got, err, r.want)
		}
	}
}

// The case in the unit notes: "5 lb 3 oz" is 2353.010419 g.
func TestWeightPublishedDigits(t *testing.T) {
	g, err := Weight("5 lb 3 oz")
	if s := fmt.Sprintf("%.6f", float64(g)); err != nil || s != "2353.010419" {
		t.Errorf("5 lb 3 oz = %s g, %v; NIST Handbook 44 factors give 2353.010419", s, err)
	}
}

func TestWeightProblems(t *testing.T) {
	checkProblems(t, []problemRow{
		{"", Empty, ""},
		{" \n ", Empty, ""},
		{"5", NoUnit, "5"},
		{"5½", NoUnit, "5½"},
		{"-5 lb", Negative, "-5 lb"},
		{"−5 lb", Negative, "−5 lb"},
		{"--5 lb", Negative, "--5 lb"},
		{"- 5 lb", Negative, "- 5 lb"},
		{"-5", Negative, "-5"},
		{"0 lb", Zero, "0 lb"},
		{"0 lb 0 oz", Zero, "0 lb 0 oz"},
		{"0,000 kg", Zero, "0,000 kg"},
		{"5 tons", TooBig, "5 tons"},
		{"0.1 tons", UnknownUnit, "0.1 tons"},
		{"201 kg", TooBig, "201 kg"},
		{"441 lb", TooBig, "441 lb"},
		{"1e400 lb", NotANumber, "1e400 lb"},
		{"1e400", NotANumber, "1e400"},
		{"2e3 g", NotANumber, "2e3 g"},
		{"5² lb", NotANumber, "5² lb"},
		{"1.2.3 kg", NotANumber, "1.2.3 kg"},
		{"1/0 lb", NotANumber, "1/0 lb"},
		{"1½½ lb", NotANumber, "1½½ lb"},
		{strings.Repeat("9", 400) + " g", NotANumber, strings.Repeat("9", 59) + "…"},
		{"NaN", NotANumber, "NaN"},
		{"NaN lb", NotANumber, "NaN lb"},
		{"Inf lb", NotANumber, "Inf lb"},
		{"∞ kg", NotANumber, "∞ kg"},
		{"5 lb 20 oz", OuncesTooMany, "5 lb 20 oz"},
		{"5 lb 16 oz", OuncesTooMany, "5 lb 16 oz"},
		{"4.5 lb 3 oz", Ambiguous, "4.5 lb 3 oz"},
		{"5 lb -3 oz", Negative, "5 lb -3 oz"},
		{"2 kg 1500 g", Ambiguous, "2 kg 1500 g"},
		{"2,268 kg", Ambiguous, "2,268 kg"},
		{"2,268 lb", Ambiguous, "2,268 lb"},
		{"2.268 g", Ambiguous, "2.268 g"},
		{"5 fl oz", NotAWeight, "5 fl oz"},
		{"5 fl. oz.", NotAWeight, "5 fl. oz"},
		{"5 fluid ounces", NotAWeight, "5 fluid ounces"},
		{"2 cups", NotAWeight, "2 cups"},
		{"1 tsp", NotAWeight, "1 tsp"},
		{"5 in", NotAWeight, "5 in"},
		{"5 %", NotAWeight, "5 %"},
		{"5 foo", UnknownUnit, "5 foo"},
		{"5 gr", UnknownUnit, "5 gr"},
		{"5 stone", UnknownUnit, "5 stone"},
		{"hello", NotAWeight, "hello"},
		{"lb", NotAWeight, "lb"},
		{"5 lb belly", UnknownWord, "belly"},
		{"5 lb 3", NoUnit, "3"},
		{"5 lb 3 kg", NoUnit, "3 kg"},
		{"2 268 g", Ambiguous, "2 268 g"},
		{"1.234.5 g", NotANumber, "1.234.5 g"},
		{strings.Repeat("5 lb ", 20000), TooLong, "5 lb 5 lb 5 lb 5 lb 5 lb 5 lb 5 lb 5 lb 5 lb 5 lb 5 lb 5 lb…"},
	}, func(s string) error { _, err := Weight(s); return err })
}

func TestWeightRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := curemath.Grams(rapid.Float64Range(0.001, float64(Heaviest)).Draw(t, "grams"))
		text := FormatWeight(g)
		back, err := Weight(text)
		if err != nil || math.Abs(float64(back-g)) > 0.001 {
			t.Fatalf("%v g writes %q, reads %v, %v", g, text, back, err)
		}
	})
}

// A weight in pounds and ounces is the sum of the two, a comma does what a point
// does, and neither case, width nor the space before the unit matters.
func TestWeightForms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lb, oz := rapid.IntRange(0, 400).Draw(t, "lb"), rapid.IntRange(0, 15).Draw(t, "oz")
		want := curemath.Pound*curemath.Grams(lb) + curemath.Ounce*curemath.Grams(oz)
		got, err := Weight(fmt.Sprintf("%d lb %d oz", lb, oz))
		if lb+oz == 0 {
			if kindOf(err) != Zero {
				t.Fatalf("nought reads %v, %v", got, err)
			}
			return
		}
		if err != nil || math.Abs(float64(got-want)) > 1e-6 {
			t.Fatalf("got %v, %v; want %v", got, err, want)
		}
		cents := rapid.IntRange(1, 9999).Draw(t, "hundredths")
		point := fmt.Sprintf("%d.%02d kg", cents/100, cents%100)
		a, err1 := Weight(point)
		b, err2 := Weight(strings.ToUpper(strings.Replace(strings.Replace(point, ".", ",", 1), " ", "", 1)))
		if err1 != nil || err2 != nil || a != b {
			t.Fatalf("%q reads %v and %v with a comma (%v, %v)", point, a, b, err1, err2)
		}
	})
}

func FuzzWeight(f *testing.F) {
	seeds(f, "5 lb 3 oz", "2,268 g", "5 lb 20 oz", "half a pound", "2 kg 500 g", "5 fl oz", "5 tons")
	read := func(s string) error { _, err := Weight(s); return err }
	f.Fuzz(func(t *testing.T, s string) {
		g, err := Weight(s)
		if err != nil {
			checkProblem(t, s, err, read)
			return
		}
		if !(g > 0 && g <= Heaviest) {
			t.Fatalf("Weight(%q) = %v", s, g)
		}
		back, err := Weight(FormatWeight(g))
		if err != nil || math.Abs(float64(back-g)) > 0.001 {
			t.Fatalf("Weight(%q) = %v, written and read again %v, %v", s, g, back, err)
		}
	})
}

func BenchmarkWeight(b *testing.B) {
	for b.Loop() {
		if _, err := Weight("4 lb 8½ oz"); err != nil {
			b.Fatal(err)
		}
	}
}
