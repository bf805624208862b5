package curemath_test

import (
	"strings"
	"testing"

	"larderhand/curemath"
)

// Each warning comes where it must, with its words and its source, and stays away
// from the same sum a little to the side of it.
func TestWarningsComeWhereTheyMust(t *testing.T) {
	us, plain := rules(t, "us"), curemath.StandardMix()
	r, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	atlantis, _ := r.ByID("Atlantis")
	dry := func(change func(*curemath.DryTargets)) curemath.DryTargets {
		d := curemath.DryTargets{Green: 5000, Nitrite: 120, Salt: 2.5, Sugar: 1, Mix: plain, Rules: us}
		change(&d)
		return d
	}
	sweet := curemath.Mix{Name: "sweet cure", Nitrite: 0.75, Sugar: 40}
	for _, c := range []struct {
		name   string
		kind   curemath.WarningKind
		comes  curemath.DryTargets
		says   string
		source string
		stays  curemath.DryTargets
	}{
		// 120 ppm of refrigerated goods: calculations handbook ch. 3, p. 12 (second-hand). Canada has no such policy.
		{"policy floor", curemath.WarnPolicyFloor, dry(func(d *curemath.DryTargets) { d.Nitrite = 119 }), "119 ppm is lawful but under the 120 ppm", "ch. 3, p. 12", dry(func(*curemath.DryTargets) {})},
		{"policy of the US only", curemath.WarnPolicyFloor, dry(func(d *curemath.DryTargets) { d.Nitrite = 110 }), "110 ppm", "ch. 3, p. 12", dry(func(d *curemath.DryTargets) { d.Nitrite, d.Rules = 110, rules(t, "ca") })},
		// 1.92 g on a kilogram: a twentieth is less than 0.1 g (computed). 2.112 g on 1,100 g is not.
		{"a finer scale", curemath.WarnFinerScale, dry(func(d *curemath.DryTargets) { d.Green = 1000 }), "scale that reads 0.01 g", "computed", dry(func(d *curemath.DryTargets) { d.Green = 1100 })},
		// Under 0.2 g a hundredth of a gram is more than a twentieth (computed): 60 g at 120 ppm take 0.115 g.
		{"a scale too coarse", curemath.WarnScaleTooCoarse, dry(func(d *curemath.DryTargets) { d.Green = 60 }), "more than a twentieth", "computed", dry(func(d *curemath.DryTargets) { d.Green = 200 })},
		// 3.216 g go down to 3.2 g, which is 99.5 ppm on 2,010 g (computed); 3.2 g on 2 kg is 100.
		{"rounded under the floor", curemath.WarnRoundedUnderFloor, dry(func(d *curemath.DryTargets) { d.Green, d.Nitrite = 2010, 100 }), "99.5 ppm, under the floor of 100 ppm", "CFIA", dry(func(d *curemath.DryTargets) { d.Green, d.Nitrite = 2000, 100 })},
		// 1.5 to 4 % is usual (common practice, no source).
		{"very salty", curemath.WarnSaltHigh, dry(func(d *curemath.DryTargets) { d.Salt = 4.1 }), "very salty", "common practice", dry(func(d *curemath.DryTargets) { d.Salt = 4 })},
		{"bland", curemath.WarnSaltLow, dry(func(d *curemath.DryTargets) { d.Salt = 1.4 }), "bland", "common practice", dry(func(d *curemath.DryTargets) { d.Salt = 1.5 })},
		// 16 g a kilogram of a mix with 40 % sugar bring 0.64 % (computed).
		{"a sweet mix", curemath.WarnMixBringsSugar, dry(func(d *curemath.DryTargets) { d.Mix, d.Sugar = sweet, 0.5 }), "0.64 % sugar, more than the 0.5 %", "computed", dry(func(d *curemath.DryTargets) { d.Mix, d.Sugar = sweet, 0.7 })},
		// An unknown country is held to the strictest of all, CXS 192 (found).
		{"an unknown country", curemath.WarnRulesUnknown, dry(func(d *curemath.DryTargets) { d.Rules = atlantis }), "not known here", "CXS 192", dry(func(d *curemath.DryTargets) { d.Rules = rules(t, "strictest") })},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := curemath.SolveDry(c.comes)
			if err != nil {
				t.Fatal(err)
			}
			n := 0
			for _, w := range got.Warnings {
				if w.Kind != c.kind {
					continue
				}
				n++
				if !strings.Contains(w.Text, c.says) || !strings.Contains(w.Source.String(), c.source) {
					t.Errorf("%q from %q", w.Text, w.Source)
				}
			}
			if n != 1 {
				t.Errorf("said %d times: %+v", n, got.Warnings)
			}
			side, err := curemath.SolveDry(c.stays)
			if err != nil {
				t.Fatal(err)
			}
			if warned(side.Warnings, c.kind) {
				t.Errorf("also said here: %+v", side.Warnings)
			}
		})
	}
}

// A recipe that is only checked is told of an unknown country and of much salt too.
func TestChecksWarn(t *testing.T) {
	r, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	atlantis, _ := r.ByID("Atlantis")
	plain := curemath.StandardMix()
	p := curemath.Portion{Mix: 1.9, Salt: 45}
	dry, err := curemath.CheckDry(curemath.DryRecipe{Green: 1000, Portion: p, Mix: plain, Rules: atlantis})
	if err != nil {
		t.Fatal(err)
	}
	box, err := curemath.CheckBox(curemath.BoxRecipe{Green: 1000, Rubs: []curemath.Portion{p}, Mix: plain, Rules: atlantis})
	if err != nil {
		t.Fatal(err)
	}
	brine, err := curemath.CheckBrine(curemath.BrineRecipe{Green: 1000, Pickle: curemath.Pickle{Water: 1000, Portion: curemath.Portion{Mix: 3.8, Salt: 100}}, Mix: plain, Rules: atlantis})
	if err != nil {
		t.Fatal(err)
	}
	pump, err := curemath.CheckPump(curemath.PumpRecipe{Green: 1000, Pump: 20, Pickle: curemath.Pickle{Water: 800, Portion: curemath.Portion{Mix: 9, Salt: 230}}, Mix: plain, Rules: atlantis})
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]curemath.Check{"dry": dry, "box": box, "brine": brine, "pump": pump} {
		if !warned(c.Warnings, curemath.WarnRulesUnknown) || !warned(c.Warnings, curemath.WarnSaltHigh) {
			t.Errorf("%s, %v %% salt: %+v", name, c.Held.Salt, c.Warnings)
		}
	}
}
