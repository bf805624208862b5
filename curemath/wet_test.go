package curemath_test

import (
	"testing"

	"larderhand/curemath"
)

// Worked cases for brines, from the formulas of the calculations handbook
// (FSIS Directive 7620.3 ch. 3, pp. 19 to 22: second-hand, not checked against
// the text); figures computed.
func TestCheckBrine(t *testing.T) {
	// W12 and C8: 2 kg of meat and 2 kg of brine, the 8 g of mix included.
	r := curemath.BrineRecipe{
		Green: 2000, Mix: curemath.StandardMix(), Pickup: 10, Rules: rules(t, "us"),
		Pickle: curemath.Pickle{Water: 1892, Portion: curemath.Portion{Mix: 8, Salt: 80, Sugar: 20}},
	}
	got, err := curemath.CheckBrine(r)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "once even", got.Readings[1].Nitrite, 125, 1e-9)
	// 0.5 g × 0.1 × 1,000,000 ÷ 2000 g
	near(t, "by pick-up", got.Readings[0].Nitrite, 25, 1e-9)
	if got.Held.Name != curemath.OnceEven || got.Verdict != curemath.VerdictOver {
		t.Errorf("held %s, verdict %s; want once even, over", got.Held.Name, got.Verdict)
	}
	// (80 + 7.5) ÷ 4000
	near(t, "salt", got.Held.Salt, 2.1875, 1e-9)
}

func TestCheckPump(t *testing.T) {
	for _, c := range []struct {
		name    string
		mix     curemath.Mix
		portion curemath.Grams
		pickle  curemath.Grams
		pump    curemath.Percent
		ppm     curemath.PPM
		verdict curemath.Verdict
	}{
		// C7: 20 g in 1,000 g of pickle all in, 15 % pump.
		{"20 g a kilogram at 15 %", curemath.StandardMix(), 20, 1000, 15, 187.5, curemath.VerdictOver},
		// W8: 2 lb of nitrite to 100 gal at 10 lb a gallon, 10 % pump: 200 ppm.
		// As 32 lb of a 6.25 % mix, which holds the 2 lb.
		{"2 lb to 100 gallons", curemath.StandardMix(), 32 * lb, 1000 * lb, 10, 200, curemath.VerdictOver},
		{"at the limit", curemath.StandardMix(), 19.2, 1000, 10, 120, curemath.VerdictWithin},
		{"too little", curemath.StandardMix(), 12, 1000, 10, 75, curemath.VerdictUnder},
		{"none", curemath.StandardMix(), 0, 1000, 10, 0, curemath.VerdictNoNitrite},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := curemath.CheckPump(curemath.PumpRecipe{
				Green: 4000, Mix: c.mix, Pump: c.pump, Rules: rules(t, "us"),
				Pickle: curemath.Pickle{Water: c.pickle - c.portion, Portion: curemath.Portion{Mix: c.portion}},
			})
			if err != nil {
				t.Fatal(err)
			}
			near(t, "ppm", got.Held.Nitrite, c.ppm, 1e-9)
			if got.Verdict != c.verdict {
				t.Errorf("verdict %s, want %s", got.Verdict, c.verdict)
			}
		})
	}
}

// Injected and then immersed: the two are summed (calculations handbook ch. 3).
func TestPumpAndCoverAreSummed(t *testing.T) {
	pickle := curemath.Pickle{Water: 990, Portion: curemath.Portion{Mix: 10}}
	r := curemath.PumpRecipe{Green: 4000, Mix: curemath.StandardMix(), Pump: 10, Rules: rules(t, "us"), Pickle: pickle}
	alone, err := curemath.CheckPump(r)
	if err != nil {
		t.Fatal(err)
	}
	r.Cover = &curemath.Cover{Pickle: pickle, Mix: curemath.StandardMix(), Pickup: 10}
	both, err := curemath.CheckPump(r)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pump", alone.Held.Nitrite, 62.5, 1e-9)
	// 0.625 g ÷ (4000 + 1000) g once even, more than the 62.5 by pick-up.
	near(t, "cover", both.Readings[1].Nitrite, 125, 1e-9)
	near(t, "sum", both.Held.Nitrite, 187.5, 1e-9)
	if alone.Verdict != curemath.VerdictUnder || both.Verdict != curemath.VerdictOver {
		t.Errorf("verdicts %s and %s", alone.Verdict, both.Verdict)
	}
}

func TestSolveBrine(t *testing.T) {
	for _, c := range []struct {
		name string
		set  string
		t    curemath.BrineTargets
	}{
		{"half water", "us", curemath.BrineTargets{Green: 5 * lb, Water: 2.5 * lb, Nitrite: 120, Salt: 2.5, Sugar: 1, Mix: curemath.StandardMix()}},
		{"big tub, rind on", "ca", curemath.BrineTargets{Green: 3000, RindOn: true, Water: 6000, Nitrite: 115, Salt: 3, Sugar: 1.5, Ascorbate: 500, Pickup: 8, Mix: curemath.StandardMix()}},
		{"little water", "us", curemath.BrineTargets{Green: 3000, Water: 200, Nitrite: 120, Salt: 2.5, Sugar: 1, Pickup: 6.5, Mix: curemath.StandardMix()}},
		{"nitrited salt", "eu", curemath.BrineTargets{Green: 3000, Water: 1500, Nitrite: 110, Salt: 2.5, Sugar: 1, Mix: mixOf(t, 0.5)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.t.Rules = rules(t, c.set)
			got, err := curemath.SolveBrine(c.t)
			if err != nil {
				t.Fatal(err)
			}
			aim := c.t.Nitrite
			if c.t.RindOn {
				aim *= 0.9
			}
			if got.Held.Nitrite > aim || got.Held.Nitrite < aim*0.98 {
				t.Errorf("held %v for an aim of %v", got.Held.Nitrite, aim)
			}
			if got.Verdict != curemath.VerdictWithin {
				t.Errorf("verdict %s", got.Verdict)
			}
			near(t, "salt", got.Readings[1].Salt, c.t.Salt, 0.05)
			near(t, "sugar", got.Readings[1].Sugar, c.t.Sugar, 0.05)
			t.Logf("%+v\n%s", got.Weigh, got.Trail)
		})
	}
}

func TestSolvePump(t *testing.T) {
	got, err := curemath.SolvePump(curemath.PumpTargets{
		Green: 4000, Pump: 12, Nitrite: 120, Salt: 2, Sugar: 0.8, Ascorbate: 550, Mix: curemath.StandardMix(), Rules: rules(t, "us"),
	})
	if err != nil {
		t.Fatal(err)
	}
	// 480 g of pickle carry 4 kg × 120 ppm = 0.48 g of nitrite, 7.68 g of mix.
	near(t, "mix", got.Exact.Mix, 7.68, 1e-9)
	near(t, "pickle", got.Weigh.Weight(), 480, 1e-9)
	near(t, "ascorbate", got.Exact.Ascorbate, 2.2, 1e-9) // 4 kg × 550 ppm (9 CFR 424.22(b)(1); second-hand)
	near(t, "ascorbate weighed", got.Weigh.Ascorbate, 2.2, 0.011)
	near(t, "pumped", got.Pumped, 4480, 1e-9)
	if got.Weigh.Mix != 7.6 || got.Held.Nitrite > 120 {
		t.Errorf("weigh %v, held %v", got.Weigh.Mix, got.Held.Nitrite)
	}
	if warned(got.Warnings, curemath.WarnAscorbateMissing) {
		t.Error("ascorbate asked for although it is there")
	}
	got, err = curemath.SolvePump(curemath.PumpTargets{
		Green: 4000, Pump: 10, Cover: 2000, Nitrite: 120, Salt: 2, Mix: curemath.StandardMix(), Rules: rules(t, "us"),
	})
	if err != nil {
		t.Fatal(err)
	}
	// Taken up 0.1 + 2000 ÷ 6000; 2400 g of pickle.
	near(t, "mix with a cover", got.Exact.Mix, 2400*120e-6/0.0625/(0.1+1.0/3), 1e-9)
	if !warned(got.Warnings, curemath.WarnAscorbateMissing) || !warned(got.Warnings, curemath.WarnReadingsDiffer) {
		t.Errorf("warnings %+v", got.Warnings)
	}
	if got.Held.Nitrite > 120 || got.Held.Nitrite < 119 {
		t.Errorf("held %v", got.Held.Nitrite)
	}
}

func TestWetRefusals(t *testing.T) {
	brine := curemath.BrineTargets{Green: 3000, Water: 1500, Nitrite: 120, Salt: 2.5, Mix: curemath.StandardMix(), Rules: rules(t, "us")}
	pump := curemath.PumpTargets{Green: 3000, Pump: 10, Nitrite: 120, Salt: 2.5, Mix: curemath.StandardMix(), Rules: rules(t, "us")}

	b := brine
	b.Nitrite = 156 // lawful dry, not in a brine
	_, err := curemath.SolveBrine(b)
	refused(t, err, curemath.OverLimit)
	b = brine
	b.Water = 0
	_, err = curemath.SolveBrine(b)
	refused(t, err, curemath.WeightNotPositive)
	b = brine
	b.Pickup = 90
	_, err = curemath.SolveBrine(b)
	refused(t, err, curemath.PumpOutOfRange)
	b = brine
	b.Mix.Nitrate = 4
	_, err = curemath.SolveBrine(b)
	refused(t, err, curemath.NitrateInBacon)

	p := pump
	p.Nitrite = 200
	_, err = curemath.SolvePump(p)
	refused(t, err, curemath.OverLimit)
	p = pump
	p.Pump = 0
	_, err = curemath.SolvePump(p)
	refused(t, err, curemath.PumpOutOfRange)
	p = pump
	p.Pump, p.Salt, p.Mix = 2, 4, mixOf(t, 0.4)
	_, err = curemath.SolvePump(p)
	refused(t, err, curemath.BrineImpossible)

	_, err = curemath.PumpOf(4000, 3900)
	refused(t, err, curemath.PumpOutOfRange)
	_, err = curemath.PickupOf(4000, 3900)
	refused(t, err, curemath.PumpOutOfRange)
	got, err := curemath.PumpOf(4000, 4400)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pump", got, 10, 1e-9)
}

// Water that does not cover the meat may all go into it (our own caution): 120 ppm
// of 6.25 % on 500 g is 0.96 g on the meat alone, and 1.15 g in 110 g of water is
// 143.75 ppm on it (computed). A pick-up that was weighed is taken as it is.
func TestBrineOfLittleWater(t *testing.T) {
	us, plain := rules(t, "us"), curemath.StandardMix()
	d := curemath.BrineTargets{Green: 500, Water: 110, Nitrite: 120, Salt: 2, Mix: plain, Rules: us}
	little, err := curemath.SolveBrine(d)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mix", little.Weigh.Mix, 0.96, 1e-9)
	near(t, "held", little.Held.Nitrite, 120, 1e-6)
	sums(t, little.Trail)
	if !warned(little.Warnings, curemath.WarnPickupAssumed) {
		t.Errorf("nothing said of so little water: %+v", little.Warnings)
	}
	d.Water = 255
	covered, err := curemath.SolveBrine(d)
	if err != nil {
		t.Fatal(err)
	}
	if covered.Weigh.Mix < 1.4 || covered.Held.Name != curemath.OnceEven {
		t.Errorf("%v g of mix in a brine that covers, %s", covered.Weigh.Mix, covered.Held.Name)
	}
	r := curemath.BrineRecipe{Green: 500, Pickle: curemath.Pickle{Water: 110, Portion: curemath.Portion{Mix: 1.15, Salt: 10}}, Mix: plain, Rules: us}
	over, err := curemath.CheckBrine(r)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "on the meat", over.Held.Nitrite, 143.75, 1e-9)
	if over.Verdict != curemath.VerdictOver {
		t.Errorf("%s", over.Verdict)
	}
	r.Pickup = 8
	weighed, err := curemath.CheckBrine(r)
	if err != nil {
		t.Fatal(err)
	}
	if weighed.Held.Name != curemath.OnceEven || warned(weighed.Warnings, curemath.WarnPickupAssumed) {
		t.Errorf("a weighed pick-up: %+v", weighed)
	}
}

func BenchmarkSolveBrine(b *testing.B) {
	d := curemath.BrineTargets{Green: 5 * lb, Water: 1500, Nitrite: 120, Salt: 2.5, Sugar: 1, Mix: curemath.StandardMix(), Rules: rules(b, "us"), Pickup: 10}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := curemath.SolveBrine(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSolvePump(b *testing.B) {
	d := curemath.PumpTargets{Green: 5 * lb, Pump: 10, Nitrite: 120, Salt: 2, Sugar: 1, Ascorbate: 550, Mix: curemath.StandardMix(), Rules: rules(b, "us")}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := curemath.SolvePump(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSolveBox(b *testing.B) {
	d := curemath.BoxTargets{DryTargets: curemath.DryTargets{Green: 5 * lb, Nitrite: 120, Salt: 3, Sugar: 1, Mix: curemath.StandardMix(), Rules: rules(b, "us")}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := curemath.SolveBox(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheckBrine(b *testing.B) {
	r := curemath.BrineRecipe{
		Green: 2000, Mix: curemath.StandardMix(), Pickup: 10, Rules: rules(b, "us"),
		Pickle: curemath.Pickle{Water: 1892, Portion: curemath.Portion{Mix: 8, Salt: 80, Sugar: 20}},
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := curemath.CheckBrine(r); err != nil {
			b.Fatal(err)
		}
	}
}

// With a cover brine, which is the longest of the sums.
func BenchmarkCheckPump(b *testing.B) {
	mix := curemath.StandardMix()
	r := curemath.PumpRecipe{
		Green: 2000, Mix: mix, Pump: 10, Rules: rules(b, "us"),
		Pickle: curemath.Pickle{Water: 880, Portion: curemath.Portion{Mix: 15, Salt: 80, Sugar: 20, Ascorbate: 5}},
		Cover:  &curemath.Cover{Mix: mix, Pickup: 5, Pickle: curemath.Pickle{Water: 900, Portion: curemath.Portion{Mix: 2, Salt: 60}}},
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := curemath.CheckPump(r); err != nil {
			b.Fatal(err)
		}
	}
}
