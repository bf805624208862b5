package curemath_test

import (
	"testing"

	"larderhand/curemath"
)

// A cure sum asks the heap for a handful of things; a benchmark tells how long it takes.
func TestSumsAllocateLittle(t *testing.T) {
	us := rules(t, "us")
	dry := curemath.DryTargets{Green: 2400, Nitrite: 120, Salt: 2.5, Sugar: 1, Mix: curemath.StandardMix(), Rules: us}
	for name, c := range map[string]struct {
		most float64
		sum  func() error
	}{
		"dry": {10, func() error { _, err := curemath.SolveDry(dry); return err }},
		"brine": {16, func() error {
			_, err := curemath.SolveBrine(curemath.BrineTargets{Green: 2400, Water: 1200, Nitrite: 120, Salt: 2.5, Sugar: 1, Mix: dry.Mix, Rules: us})
			return err
		}},
		"pump": {12, func() error {
			_, err := curemath.SolvePump(curemath.PumpTargets{Green: 2400, Pump: 12, Nitrite: 120, Salt: 2, Ascorbate: 550, Mix: dry.Mix, Rules: us})
			return err
		}},
		"check dry": {10, func() error {
			_, err := curemath.CheckDry(curemath.DryRecipe{Green: 2400, Portion: curemath.Portion{Mix: 4.6, Salt: 60}, Mix: dry.Mix, Rules: us})
			return err
		}},
		"check pump": {14, func() error {
			_, err := curemath.CheckPump(curemath.PumpRecipe{Green: 2400, Pump: 12, Mix: dry.Mix, Rules: us, Pickle: curemath.Pickle{Water: 900, Portion: curemath.Portion{Mix: 12, Salt: 90}}})
			return err
		}},
		"box": {20, func() error { _, err := curemath.SolveBox(curemath.BoxTargets{DryTargets: dry}); return err }},
	} {
		if n := testing.AllocsPerRun(50, func() {
			if err := c.sum(); err != nil {
				t.Fatal(err)
			}
		}); n > c.most {
			t.Errorf("%s: %v allocations, at most %v", name, n, c.most)
		}
	}
}
