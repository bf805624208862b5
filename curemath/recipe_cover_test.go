package curemath_test

import (
	"math"
	"testing"

	"larderhand/curemath"
)

// A pumped recipe in a cover brine is counted as the pump it was solved as: injected and
// taken from the cover, summed. Source: FSIS Directive 7620.3, chapter 3, pages 19, 21 and
// 22 (second-hand).
func TestRecipeOfAPumpInACover(t *testing.T) {
	for _, c := range []struct {
		pump, pickup curemath.Percent
		cover        curemath.Grams
	}{{12, 4, 2000}, {10, 0, 1500}, {15, 10, 300}, {10, 0, 0}} {
		solved, err := curemath.SolvePump(curemath.PumpTargets{Green: 4200, Nitrite: 118, Salt: 2.2, Sugar: 0.8, Ascorbate: 550, Pump: c.pump, Pickup: c.pickup,
			Cover: c.cover, Mix: curemath.StandardMix(), Rules: rules(t, "us")})
		if err != nil {
			t.Fatal(err)
		}
		w := solved.Weigh
		mix := grams("curing mix", w.Mix)
		mix.Strength = 6.25
		q := curemath.RecipeQuestion{Rules: rules(t, "us"), Method: curemath.Injection, Pump: c.pump, Pickup: c.pickup, Cover: c.cover,
			Recipe: recipe(4200, grams("water", w.Water), grams("fine salt", w.Salt), grams("white sugar", w.Sugar), grams("sodium erythorbate", w.Ascorbate), mix)}
		got, err := pantry(t).Check(q)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(got.Nitrite.Typical-solved.Held.Nitrite)) > 0.01 || got.Verdict != curemath.VerdictWithin {
			t.Errorf("%+v: %v ppm, %s; solved as %v ppm", c, got.Nitrite.Typical, got.Verdict, solved.Held.Nitrite)
		}
		if warned(got.Warnings, curemath.WarnAscorbateMissing) {
			t.Errorf("%+v: the ascorbate is not seen", c)
		}
		if n := len(got.Readings); (n == 2) != (c.cover > 0) {
			t.Errorf("%+v: %d readings", c, n)
		}
		if c.cover > 0 {
			uncovered := q
			uncovered.Cover = 0
			less, err := pantry(t).Check(uncovered)
			if err != nil || less.Nitrite.Typical >= got.Nitrite.Typical {
				t.Errorf("%+v: %v ppm without the cover, %v", c, less.Nitrite.Typical, err)
			}
		}
		// What it is rewritten to is held to the limit too, cover and all.
		if r := got.Rewrite; r == nil || r.Nitrite > 120 || r.Cover != c.cover {
			t.Errorf("%+v: rewritten to %+v", c, r)
		}
	}
}

// The rule for pumped bacon wants ascorbate with the nitrite; a recipe without it is told,
// and gets it in its version by weight. Source: 9 CFR 424.22(b)(1), 550 ppm (second-hand).
func TestPumpedRecipeWithoutAscorbate(t *testing.T) {
	mix := grams("curing mix", 12)
	mix.Strength = 6.25
	q := curemath.RecipeQuestion{Method: curemath.Injection, Pump: 15, Recipe: recipe(4000, grams("water", 880), grams("fine salt", 100), mix)}
	for set, want := range map[string]bool{"us": true, "eu": false} {
		q.Rules = rules(t, set)
		c, err := pantry(t).Check(q)
		if err != nil {
			t.Fatal(err)
		}
		if got := warned(c.Warnings, curemath.WarnAscorbateMissing); got != want {
			t.Errorf("%s: warned %v", set, got)
		}
		var g curemath.Grams
		for _, l := range c.Rewrite.Lines {
			if l.Name == "sodium ascorbate or erythorbate" {
				g = l.Weigh
			}
		}
		// 550 ppm on 992 g of pickle for each 15 % of the meat: 0.00055 × 992 ÷ 0.15.
		if want && math.Abs(float64(g)-3.64) > 0.06 || !want && g != 0 {
			t.Errorf("%s: %v g in the version by weight", set, g)
		}
	}
	q.Rules, q.Cover = rules(t, "us"), -5
	if _, err := pantry(t).Check(q); err == nil {
		t.Error("a cover of less than nothing is taken")
	}
}
