package curemath_test

import (
	"testing"

	"larderhand/curemath"
)

// The 2021 stabilization guideline counts a product as cured from 100 ppm of ingoing
// nitrite: from memory. An aim of 100 ppm on 5 lb by a 6.25 % mix is 3.6287 g, which on a
// 0.1 g scale is 3.6 g and 99.2 ppm; 105 ppm is 3.8102 g, 3.8 g and 104.7 ppm: computed.
func TestCuredFrom(t *testing.T) {
	if curemath.CuredFrom != 100 {
		t.Errorf("cured from %v", curemath.CuredFrom)
	}
	if s := curemath.CuredSource(); s.Status != curemath.FromMemory {
		t.Errorf("the source is %v", s)
	}
	for _, c := range []struct {
		aim, ingoing curemath.PPM
		rule         string
	}{{100, 99.2, curemath.CoolingOption1}, {105, 104.7, curemath.CoolingCured}} {
		rules, err := curemath.LoadRules()
		if err != nil {
			t.Fatal(err)
		}
		d, err := curemath.SolveDry(curemath.DryTargets{Green: 5 * curemath.Pound, Nitrite: c.aim, Salt: curemath.DefaultSalt, Mix: curemath.StandardMix(), Rules: rules.Default()})
		if err != nil {
			t.Fatal(err)
		}
		if off := d.Ingoing - c.ingoing; off < -0.05 || off > 0.05 {
			t.Errorf("%v ppm comes to %v, want %v", c.aim, d.Ingoing, c.ingoing)
		}
		if got := curemath.CoolingRuleFor(d.Ingoing).Key; got != c.rule {
			t.Errorf("%v ppm cools by %s, want %s", d.Ingoing, got, c.rule)
		}
	}
}

// What comes to 100 ppm but for the last bits of a division is 100 ppm: 1.38 g of a 10 %
// mix on 1,380 g. Computed.
func TestCuredAtTheFigure(t *testing.T) {
	rules, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	mix, err := curemath.MixOf(10)
	if err != nil {
		t.Fatal(err)
	}
	for green := curemath.Grams(1000); green <= 5000; green += 100 {
		d, err := curemath.SolveDry(curemath.DryTargets{Green: green, Nitrite: 100, Salt: curemath.DefaultSalt, Mix: mix, Rules: rules.Default()})
		if err != nil {
			t.Fatal(err)
		}
		if !curemath.Cured(d.Ingoing) || curemath.CoolingRuleFor(d.Ingoing).Key != curemath.CoolingCured {
			t.Errorf("%v g: %.17g ppm does not count as cured", green, float64(d.Ingoing))
		}
		for _, w := range d.Warnings {
			if w.Kind == curemath.WarnRoundedUnderFloor {
				t.Errorf("%v g: %s", green, w.Text)
			}
		}
	}
	for _, under := range []curemath.PPM{0, 99.9, 99.99} {
		if curemath.Cured(under) {
			t.Errorf("%v ppm counts as cured", under)
		}
	}
}
