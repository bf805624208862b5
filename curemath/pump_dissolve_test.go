package curemath_test

import (
	"testing"

	"pgregory.net/rapid"

	"larderhand/curemath"
)

// At 10 % pump 2.5 % of salt needs 28 % in the pickle and does not dissolve in cold
// water, which holds 26 % (from memory). 5 lb at 10 %: 226.8 g of pickle; at 2 %
// salt 45.4 g to 45.4 + 226.8 − 45.4 − 22.7 − 1.5 = 202.9 g of salt and water is
// 22.4 % (computed), under nine tenths of 26, which is 23.4; 2.1 % makes 23.5.
func TestPumpThatDissolves(t *testing.T) {
	p := curemath.PumpTargets{Green: 5 * lb, Pump: 10, Nitrite: 120, Salt: 2.5, Sugar: 1, Ascorbate: 550, Mix: curemath.StandardMix(), Rules: rules(t, "us")}
	if salt, ok := p.SaltThatDissolves(); !ok || salt != 2 {
		t.Errorf("salt %v, %v", salt, ok)
	}
	if pump, ok := p.PumpThatDissolves(); !ok || pump != 12 {
		t.Errorf("pump %v, %v", pump, ok)
	}
	p.Mix = mixOf(t, 0.4) // 3 % of it for 120 ppm: the mix alone is too much
	if salt, ok := p.SaltThatDissolves(); ok {
		t.Errorf("with a weak mix salt %v", salt)
	}
}

// What is said to dissolve does, and keeps its nitrite within the limit.
func TestWhatIsSaidToDissolveDoes(t *testing.T) {
	us := rules(t, "us")
	rapid.Check(t, func(rt *rapid.T) {
		p := curemath.PumpTargets{Green: curemath.Grams(rapid.Float64Range(300, 8000).Draw(rt, "green")), Pump: curemath.Percent(rapid.IntRange(4, 30).Draw(rt, "pump")),
			Nitrite: 120, Salt: curemath.Percent(rapid.Float64Range(0.5, 5).Draw(rt, "salt")), Sugar: 1, Mix: curemath.StandardMix(), Rules: us}
		check := func(what string, p curemath.PumpTargets) {
			c, err := curemath.SolvePump(p)
			if err != nil || !c.Weigh.Dissolves(p.Mix) || c.Held.Nitrite > c.Limit.Max+1e-9 || c.Weigh.Water <= 0 {
				rt.Fatalf("%s: %+v, %v", what, c.Weigh, err)
			}
			for _, w := range c.Warnings {
				if w.Kind == curemath.WarnBrineWontDissolve {
					rt.Fatalf("%s: %s", what, w.Text)
				}
			}
		}
		if salt, ok := p.SaltThatDissolves(); ok {
			q := p
			q.Salt = salt
			check("salt", q)
		}
		if pump, ok := p.PumpThatDissolves(); ok {
			p.Pump = pump
			check("pump", p)
		}
	})
}
