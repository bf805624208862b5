package curemath_test

import (
	"math"
	"testing"

	"larderhand/curemath"
)

const lb = curemath.Pound

// Each row is arithmetic from the dry formula of the calculations handbook
// (FSIS Directive 7620.3 ch. 3: second-hand, not checked against the text);
// the limits are 9 CFR 424.22(b), second-hand.
func TestSolveDry(t *testing.T) {
	for _, c := range []struct {
		name    string
		green   curemath.Grams
		rind    bool
		ppm     curemath.PPM
		salt    curemath.Percent
		exact   curemath.Grams
		weigh   curemath.Grams
		ingoing curemath.PPM
		addSalt curemath.Grams
	}{
		{"5 lb at 120", 5 * lb, false, 120, 2.5, 4.354486752, 4.3, 118.4985, 52.6167},
		{"5 lb at 156.25", 5 * lb, false, 156.25, 2.5, 5.669904625, 5.6, 154.3236, 51.3835},
		{"5 lb at 200, the limit", 5 * lb, false, 200, 2.5, 7.25747792, 7.2, 198.4160, 49.8952},
		{"1 kg at 120, a fine scale", 1000, false, 120, 2, 1.92, 1.92, 120, 18.20},
		{"10 lb rind on, aim 120 is 108", 10 * lb, true, 120, 2.5, 7.8380761536, 7.8, 107.4756, 106.0499},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := curemath.SolveDry(curemath.DryTargets{
				Green: c.green, RindOn: c.rind, Nitrite: c.ppm, Salt: c.salt, Sugar: 1,
				Mix: curemath.StandardMix(), Rules: rules(t, "us"),
			})
			if err != nil {
				t.Fatal(err)
			}
			near(t, "exact mix", got.Exact.Mix, c.exact, 1e-8)
			near(t, "exact salt", got.Exact.Salt, c.addSalt, 1e-3)
			if got.Weigh.Mix != c.weigh {
				t.Errorf("weigh %v g of mix, want %v", got.Weigh.Mix, c.weigh)
			}
			near(t, "ingoing", got.Ingoing, c.ingoing, 1e-3)
			near(t, "total salt", got.TotalSalt, c.salt, 0.05)
			if got.Ingoing > got.Limit.Max {
				t.Errorf("ingoing %v over the limit %v", got.Ingoing, got.Limit.Max)
			}
			if len(got.Trail) < 6 {
				t.Errorf("trail of %d steps", len(got.Trail))
			}
		})
	}
}

func TestSolveDryRefuses(t *testing.T) {
	good := func() curemath.DryTargets {
		return curemath.DryTargets{Green: 5 * lb, Nitrite: 120, Salt: 2.5, Sugar: 1, Mix: curemath.StandardMix(), Rules: rules(t, "us")}
	}
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name string
		do   func(*curemath.DryTargets)
		want curemath.RefusalKind
	}{
		{"no weight", func(d *curemath.DryTargets) { d.Green = 0 }, curemath.WeightNotPositive},
		{"negative weight", func(d *curemath.DryTargets) { d.Green = -1 }, curemath.WeightNotPositive},
		{"weight not a number", func(d *curemath.DryTargets) { d.Green = curemath.Grams(nan) }, curemath.NotANumber},
		{"endless weight", func(d *curemath.DryTargets) { d.Green = curemath.Grams(inf) }, curemath.NotANumber},
		{"two tons", func(d *curemath.DryTargets) { d.Green = 2 * curemath.Ton }, curemath.WeightAbsurd},
		{"a crumb", func(d *curemath.DryTargets) { d.Green = 3 }, curemath.WeightAbsurd},
		{"201 ppm", func(d *curemath.DryTargets) { d.Nitrite = 201 }, curemath.OverLimit},
		{"500 ppm", func(d *curemath.DryTargets) { d.Nitrite = 500 }, curemath.OverLimit},
		{"201 ppm, rind on", func(d *curemath.DryTargets) { d.Nitrite, d.RindOn = 201, true }, curemath.OverLimit},
		{"156 ppm in Canada", func(d *curemath.DryTargets) { d.Nitrite, d.Rules = 156, rules(t, "ca") }, curemath.OverLimit},
		{"99 ppm", func(d *curemath.DryTargets) { d.Nitrite = 99 }, curemath.UnderFloor},
		{"no nitrite", func(d *curemath.DryTargets) { d.Nitrite = 0 }, curemath.UnderFloor},
		{"negative nitrite", func(d *curemath.DryTargets) { d.Nitrite = -5 }, curemath.UnderFloor},
		{"nitrite not a number", func(d *curemath.DryTargets) { d.Nitrite = curemath.PPM(nan) }, curemath.NotANumber},
		{"nitrate mix", func(d *curemath.DryTargets) { d.Mix.Nitrate = 4 }, curemath.NitrateInBacon},
		{"no mix", func(d *curemath.DryTargets) { d.Mix = curemath.Mix{} }, curemath.MixUnknown},
		{"pure nitrite", func(d *curemath.DryTargets) { d.Mix = curemath.Mix{Nitrite: 99} }, curemath.MixUnknown},
		{"salt 40 %", func(d *curemath.DryTargets) { d.Salt = 40 }, curemath.SaltOutOfRange},
		{"salt negative", func(d *curemath.DryTargets) { d.Salt = -1 }, curemath.SaltOutOfRange},
		{"salt not a number", func(d *curemath.DryTargets) { d.Salt = curemath.Percent(nan) }, curemath.NotANumber},
		{"sugar 50 %", func(d *curemath.DryTargets) { d.Sugar = 50 }, curemath.SugarOutOfRange},
		{"ascorbate 5,500", func(d *curemath.DryTargets) { d.Ascorbate = 5500 }, curemath.AscorbateOutOfRange},
		{"no rules", func(d *curemath.DryTargets) { d.Rules = curemath.RuleSet{} }, curemath.RulesMissing},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := good()
			c.do(&d)
			got, err := curemath.SolveDry(d)
			r := refused(t, err, c.want)
			if got.Weigh != (curemath.Portion{}) {
				t.Errorf("refused, and yet says to weigh %+v", got.Weigh)
			}
			if r.Error() == "" {
				t.Error("refusal without a sentence")
			}
		})
	}
}

// 120 ppm is 80.015 mg/kg as ion (computed): a hair over 80, so under such a
// limit it is taken down to 119.97 and said, not refused.
func TestAimIsTakenDownByAHair(t *testing.T) {
	for _, id := range []string{"eu", "codex", "strictest"} {
		got, err := curemath.SolveDry(curemath.DryTargets{Green: 100 * curemath.Kilogram, Nitrite: 120, Salt: 2.5, Mix: curemath.StandardMix(), Rules: rules(t, id)})
		if err != nil {
			t.Fatalf("%s: %v", id, err)
		}
		if got.Ingoing > 119.97 || got.Ingoing < 119.9 {
			t.Errorf("%s: ingoing %v", id, got.Ingoing)
		}
		if !warned(got.Warnings, curemath.WarnCapped) {
			t.Errorf("%s: not said that the aim was taken down", id)
		}
	}
}

// A mix of 0.4 % brings 2.99 % salt at 120 ppm (computed: 30 g a kilogram).
func TestWeakMixBringsItsOwnSalt(t *testing.T) {
	got, err := curemath.SolveDry(curemath.DryTargets{Green: 1000, Nitrite: 120, Salt: 2.5, Mix: mixOf(t, 0.4), Rules: rules(t, "us")})
	if err != nil {
		t.Fatal(err)
	}
	if got.Weigh.Mix != 30 || got.Weigh.Salt != 0 {
		t.Errorf("weigh %+v, want 30 g of mix and no salt", got.Weigh)
	}
	near(t, "total salt", got.TotalSalt, 2.988, 1e-9)
	if !warned(got.Warnings, curemath.WarnMixBringsSalt) {
		t.Error("not told that the mix brings more salt than asked for")
	}
}

func BenchmarkSolveDry(b *testing.B) {
	d := curemath.DryTargets{Green: 5 * lb, Nitrite: 120, Salt: 2.5, Sugar: 1, Mix: curemath.StandardMix(), Rules: rules(b, "us")}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := curemath.SolveDry(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheckDry(b *testing.B) {
	r := curemath.DryRecipe{Green: 5 * lb, Portion: curemath.Portion{Mix: 4.3, Salt: 53, Sugar: 23}, Mix: curemath.StandardMix(), Rules: rules(b, "us")}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := curemath.CheckDry(r); err != nil {
			b.Fatal(err)
		}
	}
}
