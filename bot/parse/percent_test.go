package parse

import (
	"fmt"
	"math"
	"testing"

	"larderhand/curemath"

	"pgregory.net/rapid"
)

func TestPercent(t *testing.T) {
	for in, want := range map[string]curemath.Percent{
		"2.5%":       2.5,
		"2.5 %":      2.5,
		"2,5 %":      2.5,
		"2.5":        2.5,
		"2½ percent": 2.5,
		"2.5 pct":    2.5,
		"2 per cent": 2,
		"25 g/kg":    2.5, // 1 % is 10 g/kg
		"0":          0,
		"100%":       100,
		"0,250 %":    0.25,
		"6.25％":      6.25,
	} {
		if got, err := Percent(in); err != nil || got != want {
			t.Errorf("Percent(%q) = %v, %v; want %v", in, got, err, want)
		}
	}
	checkProblems(t, []problemRow{
		{"", Empty, ""},
		{"-1%", Negative, "-1%"},
		{"101 %", TooBig, "101 %"},
		{"2,250 %", Ambiguous, "2,250 %"},
		{"5 lb", NotAPercent, "5 lb"},
		{"120 ppm", NotAPercent, "120 ppm"},
		{"salty", NotAPercent, "salty"},
		{"1e2 %", NotANumber, "1e2 %"},
		{"2.5 % salt", UnknownWord, "salt"},
		{"2.5 3", NoUnit, "3"},
	}, func(s string) error { _, err := Percent(s); return err })
}

func TestPPM(t *testing.T) {
	for in, want := range map[string]curemath.PPM{
		"150 ppm":               150,
		"150ppm":                150,
		"150":                   150,
		"156.25 ppm":            156.25,
		"150 mg/kg":             150,
		"150 parts per million": 150,
		"0.015 %":               150, // 1 % is 10,000 ppm
		"120 PPM":               120,
		"0":                     0,
	} {
		if got, err := PPM(in); err != nil || got != want {
			t.Errorf("PPM(%q) = %v, %v; want %v", in, got, err, want)
		}
	}
	checkProblems(t, []problemRow{
		{"", Empty, ""},
		{"-150 ppm", Negative, "-150 ppm"},
		{"1,500 ppm", Ambiguous, "1,500 ppm"},
		{"2000000 ppm", TooBig, "2000000 ppm"},
		{"5 lb", NotAPPM, "5 lb"},
		{"some", NotAPPM, "some"},
		{"1e3 ppm", NotANumber, "1e3 ppm"},
		{"150 ppm please", UnknownWord, "please"},
	}, func(s string) error { _, err := PPM(s); return err })
}

// Percent and ppm are the same share: 1 % is 10,000 ppm.
func TestPercentAndPPMAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 1_000_000).Draw(t, "ppm")
		text := plain(float64(n))
		a, err := PPM(text + " ppm")
		if err != nil || float64(a) != float64(n) {
			t.Fatalf("PPM(%s) = %v, %v", text, a, err)
		}
		b, err := PPM(plain(float64(a.Percent())) + " %")
		if d := b - a; err != nil || d > 1e-6 || d < -1e-6 {
			t.Fatalf("%v ppm as a percentage reads %v, %v", a, b, err)
		}
	})
}

func FuzzPercent(f *testing.F) {
	seeds(f, "2.5%", "25 g/kg", "2,250 %", "150 mg/kg", "0.015 %", "parts per million")
	percent := func(s string) error { _, err := Percent(s); return err }
	ppm := func(s string) error { _, err := PPM(s); return err }
	f.Fuzz(func(t *testing.T, s string) {
		switch p, err := Percent(s); {
		case err != nil:
			checkProblem(t, s, err, percent)
		case !(p >= 0 && p <= 100):
			t.Fatalf("Percent(%q) = %v", s, p)
		default:
			if back, err := Percent(fmt.Sprintf("%.6f %%", float64(p))); err != nil || math.Abs(float64(back-p)) > 1e-6 {
				t.Fatalf("Percent(%q) = %v, written and read again %v, %v", s, p, back, err)
			}
		}
		switch p, err := PPM(s); {
		case err != nil:
			checkProblem(t, s, err, ppm)
		case !(p >= 0 && p <= 1e6):
			t.Fatalf("PPM(%q) = %v", s, p)
		default:
			if back, err := PPM(fmt.Sprintf("%.6f ppm", float64(p))); err != nil || math.Abs(float64(back-p)) > 1e-6 {
				t.Fatalf("PPM(%q) = %v, written and read again %v, %v", s, p, back, err)
			}
		}
	})
}

func BenchmarkPercent(b *testing.B) {
	for b.Loop() {
		if _, err := Percent("2.25 %"); err != nil {
			b.Fatal(err)
		}
	}
}
