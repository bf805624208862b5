package parse

import (
	"math"
	"testing"

	"larderhand/curemath"

	"pgregory.net/rapid"
)

// 1 in = 25.4 mm exactly: NIST Handbook 44, appendix C.
func TestThickness(t *testing.T) {
	for in, want := range map[string]curemath.Millimetres{
		"1.5 in":         38.1,
		"1.5in":          38.1,
		"1,5 in":         38.1,
		`1½"`:            38.1,
		"1½”":            38.1,
		"1½″":            38.1,
		"1½''":           38.1,
		"1 1/2 inches":   38.1,
		"1-1/2 in.":      38.1,
		"1.5 inch thick": 38.1,
		"an inch":        25.4,
		"half an inch":   12.7,
		"1½ IN":          38.1,
		"38 mm":          38,
		"4 cm":           40,
		"3,8 cm":         38,
		"4 cm thick":     40,
		"500 mm":         500,
	} {
		got, err := Thickness(in)
		if err != nil || math.Abs(float64(got-want)) > 1e-9 {
			t.Errorf("Thickness(%q) = %v, %v; want %v", in, got, err, want)
		}
	}
	checkProblems(t, []problemRow{
		{"", Empty, ""},
		{"1.5", NoUnit, "1.5"},
		{"0 cm", Zero, "0 cm"},
		{"-1 in", Negative, "-1 in"},
		{"21 in", TooBig, "21 in"},
		{"1.5 ft", UnknownUnit, "1.5 ft"},
		{"5 lb", NotAThickness, "5 lb"},
		{"1,500 mm", Ambiguous, "1,500 mm"},
		{"1e9 mm", NotANumber, "1e9 mm"},
		{"thick", NotAThickness, "thick"},
		{"NaN mm", NotAThickness, "NaN mm"},
		{"4 cm wide", UnknownWord, "wide"},
	}, func(s string) error { _, err := Thickness(s); return err })
}

func TestThicknessRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := curemath.Millimetres(float64(rapid.IntRange(1, 50000).Draw(t, "hundredths")) / 100)
		back, err := Thickness(FormatThickness(m))
		if err != nil || back != m {
			t.Fatalf("%v writes %q, reads %v, %v", m, FormatThickness(m), back, err)
		}
	})
}

func FuzzThickness(f *testing.F) {
	seeds(f, `1½"`, "1-1/2 in.", "4 cm thick", "1,500 mm", "an inch and a half")
	read := func(s string) error { _, err := Thickness(s); return err }
	f.Fuzz(func(t *testing.T, s string) {
		m, err := Thickness(s)
		if err != nil {
			checkProblem(t, s, err, read)
			return
		}
		if !(m > 0 && m <= Thickest) {
			t.Fatalf("Thickness(%q) = %v", s, m)
		}
		if back, err := Thickness(FormatThickness(m)); err != nil || math.Abs(float64(back-m)) > 1e-6 {
			t.Fatalf("Thickness(%q) = %v, written and read again %v, %v", s, m, back, err)
		}
	})
}

func BenchmarkThickness(b *testing.B) {
	for b.Loop() {
		if _, err := Thickness(`1 1/2"`); err != nil {
			b.Fatal(err)
		}
	}
}
