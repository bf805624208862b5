package curemath_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"larderhand/curemath"
)

func drawDry(t *rapid.T, tb testing.TB, set curemath.RuleSet) curemath.DryTargets {
	return curemath.DryTargets{
		Green:   curemath.Grams(rapid.Float64Range(150, 50000).Draw(t, "green")),
		RindOn:  rapid.Bool().Draw(t, "rind"),
		Nitrite: curemath.PPM(rapid.Float64Range(100, 120).Draw(t, "ppm")),
		Salt:    curemath.Percent(rapid.Float64Range(0.5, 6).Draw(t, "salt")),
		Sugar:   curemath.Percent(rapid.Float64Range(0, 4).Draw(t, "sugar")),
		Mix:     mixOf(tb, curemath.Percent(rapid.Float64Range(0.3, 7).Draw(t, "mix"))),
		Rules:   set,
	}
}

func close9(a, b float64) bool { return math.Abs(a-b) <= 1e-9*(1+math.Abs(a)+math.Abs(b)) }

// Solving for targets and counting the exact answer gives the targets back.
func TestBackThenForth(t *testing.T) {
	us := rules(t, "us")
	rapid.Check(t, func(rt *rapid.T) {
		d := drawDry(rt, t, us)
		c, err := curemath.SolveDry(d)
		if err != nil {
			rt.Fatal(err)
		}
		aim := d.Nitrite
		if d.RindOn {
			aim *= 0.9
		}
		got, err := curemath.CheckDry(curemath.DryRecipe{Green: d.Green, RindOn: d.RindOn, Portion: c.Exact, Mix: d.Mix, Rules: us})
		if err != nil {
			rt.Fatal(err)
		}
		if !close9(float64(got.Held.Nitrite), float64(aim)) {
			rt.Fatalf("nitrite %v, aimed at %v", got.Held.Nitrite, aim)
		}
		own := d.Mix.Salt().Of(c.Exact.Mix) / d.Green * 100
		if want := math.Max(float64(d.Salt), float64(own)); !close9(float64(got.Held.Salt), want) {
			rt.Fatalf("salt %v, aimed at %v", got.Held.Salt, want)
		}
		if !close9(float64(got.Held.Sugar), float64(d.Sugar)) {
			rt.Fatalf("sugar %v, aimed at %v", got.Held.Sugar, d.Sugar)
		}

		b, err := curemath.SolveBrine(curemath.BrineTargets{Green: d.Green, RindOn: d.RindOn, Water: d.Green, Nitrite: d.Nitrite, Salt: d.Salt, Sugar: d.Sugar, Mix: d.Mix, Rules: us,
			Pickup: curemath.Percent(rapid.Float64Range(1, 40).Draw(rt, "pick-up"))})
		if err != nil {
			rt.Fatal(err)
		}
		even, err := curemath.CheckBrine(curemath.BrineRecipe{Green: d.Green, RindOn: d.RindOn, Pickle: b.Exact, Mix: d.Mix, Rules: us, Pickup: b.Targets.Pickup})
		if err != nil {
			rt.Fatal(err)
		}
		if !close9(float64(even.Held.Nitrite), float64(aim)) {
			rt.Fatalf("brine: nitrite %v, aimed at %v", even.Held.Nitrite, aim)
		}
		if b.Exact.Salt > 0 && !close9(float64(even.Readings[1].Salt), float64(d.Salt)) {
			rt.Fatalf("brine: salt %v, aimed at %v", even.Readings[1].Salt, d.Salt)
		}
		if !close9(float64(even.Readings[1].Sugar), float64(d.Sugar)) {
			rt.Fatalf("brine: sugar %v, aimed at %v", even.Readings[1].Sugar, d.Sugar)
		}

		p, err := curemath.SolvePump(curemath.PumpTargets{Green: d.Green, RindOn: d.RindOn, Pump: 30, Cover: d.Green * curemath.Grams(rapid.SampledFrom([]float64{0, 0.2, 1}).Draw(rt, "cover")),
			Nitrite: d.Nitrite, Salt: d.Salt, Sugar: d.Sugar, Mix: d.Mix, Rules: us})
		if err != nil {
			rt.Fatal(err)
		}
		r := curemath.PumpRecipe{Green: d.Green, RindOn: d.RindOn, Pickle: p.Exact, Mix: d.Mix, Pump: 30, Rules: us}
		if p.Targets.Cover > 0 {
			k := float64(p.Targets.Cover / p.Exact.Weight())
			r.Cover = &curemath.Cover{Mix: d.Mix, Pickup: p.Targets.Pickup, Pickle: curemath.Pickle{Water: p.Exact.Water * curemath.Grams(k), Portion: p.Exact.Portion.Times(k)}}
		}
		pumped, err := curemath.CheckPump(r)
		if err != nil {
			rt.Fatal(err)
		}
		if !close9(float64(pumped.Held.Nitrite), float64(aim)) {
			rt.Fatalf("pump: nitrite %v, aimed at %v", pumped.Held.Nitrite, aim)
		}
		last := pumped.Readings[len(pumped.Readings)-1] // injected and covered together
		if p.Exact.Salt > 0 && !close9(float64(last.Salt), float64(d.Salt)) || !close9(float64(last.Sugar), float64(d.Sugar)) {
			rt.Fatalf("pump: salt %v and sugar %v, aimed at %v and %v", last.Salt, last.Sugar, d.Salt, d.Sugar)
		}
	})
}

// ppm is linear in the mix and inverse in the meat.
func TestLinearInMixInverseInMeat(t *testing.T) {
	us := rules(t, "us")
	rapid.Check(t, func(rt *rapid.T) {
		mix := curemath.Grams(rapid.Float64Range(0.1, 50).Draw(rt, "mix"))
		green := curemath.Grams(rapid.Float64Range(200, 20000).Draw(rt, "green"))
		k := curemath.Grams(rapid.Float64Range(1, 10).Draw(rt, "k"))
		ppm := func(mix, green curemath.Grams) float64 {
			c, err := curemath.CheckDry(curemath.DryRecipe{Green: green, Portion: curemath.Portion{Mix: mix}, Mix: curemath.StandardMix(), Rules: us})
			if err != nil {
				rt.Fatal(err)
			}
			return float64(c.Held.Nitrite)
		}
		one := ppm(mix, green)
		if !close9(ppm(mix*k, green), one*float64(k)) || !close9(ppm(mix, green*k), one/float64(k)) {
			rt.Fatalf("not linear in the mix and inverse in the meat: %v g on %v g, k %v", mix, green, k)
		}
	})
}

// So it is by every other method: the mix against a pickle of the same weight, and
// the meat together with what it lies in.
func TestLinearInMixInverseInMeatByEveryMethod(t *testing.T) {
	us, plain := rules(t, "us"), curemath.StandardMix()
	rapid.Check(t, func(rt *rapid.T) {
		mix := curemath.Grams(rapid.Float64Range(0.1, 20).Draw(rt, "mix"))
		green := curemath.Grams(rapid.Float64Range(1000, 20000).Draw(rt, "green"))
		pickle := green * curemath.Grams(rapid.Float64Range(0.3, 2).Draw(rt, "pickle"))
		pump := curemath.Percent(rapid.Float64Range(1, 20).Draw(rt, "pump"))
		pickup := curemath.Percent(rapid.Float64Range(1, 20).Draw(rt, "pick-up"))
		k := curemath.Grams(rapid.Float64Range(1, 10).Draw(rt, "k"))
		// of makes a pickle of that weight with that much mix.
		of := func(weight, mix curemath.Grams) curemath.Pickle {
			return curemath.Pickle{Water: weight - mix, Portion: curemath.Portion{Mix: mix}}
		}
		done := func(c curemath.Check, err error) []curemath.Reading {
			if err != nil {
				rt.Fatal(err)
			}
			return append(c.Readings, c.Held)
		}
		for name, readings := range map[string]func(mix, green, pickle curemath.Grams) []curemath.Reading{
			"box": func(mix, green, _ curemath.Grams) []curemath.Reading {
				half := curemath.Portion{Mix: mix / 2}
				return done(curemath.CheckBox(curemath.BoxRecipe{Green: green, Rubs: []curemath.Portion{half, half}, Mix: plain, Rules: us}))
			},
			"brine": func(mix, green, pickle curemath.Grams) []curemath.Reading {
				return done(curemath.CheckBrine(curemath.BrineRecipe{Green: green, Pickle: of(pickle, mix), Mix: plain, Pickup: pickup, Rules: us}))
			},
			"pump": func(mix, green, pickle curemath.Grams) []curemath.Reading {
				return done(curemath.CheckPump(curemath.PumpRecipe{Green: green, Pickle: of(pickle, mix), Mix: plain, Pump: pump, Rules: us}))
			},
			"pump and cover": func(mix, green, pickle curemath.Grams) []curemath.Reading {
				cover := &curemath.Cover{Pickle: of(pickle, mix), Mix: plain, Pickup: pickup}
				return done(curemath.CheckPump(curemath.PumpRecipe{Green: green, Pickle: of(pickle, mix), Mix: plain, Pump: pump, Cover: cover, Rules: us}))
			},
		} {
			one, more, larger := readings(mix, green, pickle), readings(mix*k, green, pickle), readings(mix, green*k, pickle*k)
			for i, r := range one {
				if r.Nitrite <= 0 || !close9(float64(more[i].Nitrite), float64(r.Nitrite)*float64(k)) {
					rt.Fatalf("%s, %s: not linear in the mix: %v, times %v is %v", name, r.Name, r.Nitrite, k, more[i].Nitrite)
				}
				if !close9(float64(larger[i].Nitrite), float64(r.Nitrite)/float64(k)) {
					rt.Fatalf("%s, %s: not inverse in the meat: %v, over %v is %v", name, r.Name, r.Nitrite, k, larger[i].Nitrite)
				}
			}
		}
	})
}

// Two halves of a piece take together what the piece takes, by every method.
func TestSplittingAPieceChangesNothing(t *testing.T) {
	us := rules(t, "us")
	rapid.Check(t, func(rt *rapid.T) {
		d := drawDry(rt, t, us)
		d.Green *= 3
		part := curemath.Grams(rapid.Float64Range(0.3, 0.7).Draw(rt, "part"))
		dry := func(green curemath.Grams) curemath.Portion {
			e := d
			e.Green = green
			c, err := curemath.SolveDry(e)
			if err != nil {
				rt.Fatal(err)
			}
			return c.Exact
		}
		brine := func(green curemath.Grams) curemath.Portion {
			c, err := curemath.SolveBrine(curemath.BrineTargets{Green: green, Water: green / 2, Nitrite: d.Nitrite, Salt: d.Salt, Sugar: d.Sugar, Mix: d.Mix, Rules: us, Pickup: 9})
			if err != nil {
				rt.Fatal(err)
			}
			return c.Exact.Portion
		}
		pump := func(green curemath.Grams) curemath.Portion {
			c, err := curemath.SolvePump(curemath.PumpTargets{Green: green, RindOn: d.RindOn, Pump: 30, Nitrite: d.Nitrite, Salt: d.Salt, Sugar: d.Sugar, Ascorbate: 550, Mix: d.Mix, Rules: us})
			if err != nil {
				rt.Fatal(err)
			}
			return c.Exact.Portion
		}
		box := func(green curemath.Grams) curemath.Portion {
			e := d
			e.Green = green
			c, err := curemath.SolveBox(curemath.BoxTargets{DryTargets: e, Rubs: 3})
			if err != nil {
				rt.Fatal(err)
			}
			return c.Exact
		}
		for name, solve := range map[string]func(curemath.Grams) curemath.Portion{"dry": dry, "brine": brine, "pump": pump, "box": box} {
			whole, both := solve(d.Green), solve(d.Green*part).Plus(solve(d.Green*(1-part)))
			if !close9(float64(whole.Mix), float64(both.Mix)) || !close9(float64(whole.Salt), float64(both.Salt)) || !close9(float64(whole.Sugar), float64(both.Sugar)) || !close9(float64(whole.Ascorbate), float64(both.Ascorbate)) {
				rt.Fatalf("%s: whole %+v, halves %+v", name, whole, both)
			}
		}
	})
}

// What is put on the scale never passes the aim or the limit, is never a whole
// step short of it, and is a multiple of its step.
func TestWhatIsWeighedNeverPassesTheLimit(t *testing.T) {
	for _, id := range []string{"us", "eu", "ca", "codex", "uk", "strictest"} {
		set := rules(t, id)
		rapid.Check(t, func(rt *rapid.T) {
			d := drawDry(rt, t, set)
			d.Nitrite = curemath.PPM(rapid.Float64Range(100, float64(set.BaconLimit(curemath.DryRub, false).Max)).Draw(rt, "ppm"))
			c, err := curemath.SolveDry(d)
			if err != nil {
				rt.Fatal(err)
			}
			if c.Ingoing > c.Limit.Max+1e-6 {
				rt.Fatalf("%v ppm over %v", c.Ingoing, c.Limit.Max)
			}
			if c.Weigh.Mix > c.Exact.Mix+1e-6 || c.Weigh.Mix < c.Exact.Mix-c.Step-1e-6 {
				rt.Fatalf("weighed %v for %v in steps of %v", c.Weigh.Mix, c.Exact.Mix, c.Step)
			}
			if n := float64(c.Weigh.Mix / c.Step); math.Abs(n-math.Round(n)) > 1e-6 {
				rt.Fatalf("%v is no multiple of %v", c.Weigh.Mix, c.Step)
			}
			b, err := curemath.SolveBrine(curemath.BrineTargets{Green: d.Green, Water: d.Green, Nitrite: set.Aim(curemath.Immersion), Salt: d.Salt, Sugar: d.Sugar, Mix: d.Mix, Rules: set})
			if err != nil {
				rt.Fatal(err)
			}
			if b.Verdict != curemath.VerdictWithin && b.Held.Nitrite > b.Limit.Min {
				rt.Fatalf("brine as weighed: %s at %v ppm", b.Verdict, b.Held.Nitrite)
			}
			p, err := curemath.SolvePump(curemath.PumpTargets{
				Green: d.Green, RindOn: d.RindOn, Pump: curemath.Percent(rapid.Float64Range(8, 40).Draw(rt, "pump")),
				Cover: d.Green * curemath.Grams(rapid.SampledFrom([]float64{0, 0.3, 1}).Draw(rt, "cover")), Nitrite: set.Aim(curemath.Injection),
				Salt: min(d.Salt, 2), Sugar: min(d.Sugar, 1), Ascorbate: 550, Mix: mixOf(t, max(d.Mix.Nitrite, 3)), Rules: set,
			})
			if err != nil {
				rt.Fatal(err)
			}
			if p.Held.Nitrite > p.Limit.Max+1e-6 || p.Verdict != curemath.VerdictWithin && p.Held.Nitrite > p.Limit.Min {
				rt.Fatalf("pumped as weighed: %s at %v ppm", p.Verdict, p.Held.Nitrite)
			}
			if p.Weigh.Mix > p.Exact.Mix+1e-6 || p.Weigh.Mix < p.Exact.Mix-p.Step-1e-6 {
				rt.Fatalf("pump: weighed %v for %v in steps of %v", p.Weigh.Mix, p.Exact.Mix, p.Step)
			}
			if n := float64(p.Weigh.Mix / p.Step); math.Abs(n-math.Round(n)) > 1e-6 {
				rt.Fatalf("pump: %v is no multiple of %v", p.Weigh.Mix, p.Step)
			}
			if !close9(float64(p.Weigh.Weight()), float64(p.Exact.Weight())) {
				rt.Fatalf("pump: %v g of pickle weighed for %v", p.Weigh.Weight(), p.Exact.Weight())
			}
		})
	}
}

// No input, however odd, may panic or give grams beside an error.
func TestNoInputPanics(t *testing.T) {
	us := rules(t, "us")
	odd := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, 5e-324, 1000, 120}))
	rapid.Check(t, func(rt *rapid.T) {
		f := func(name string) float64 { return odd.Draw(rt, name) }
		mix := curemath.Mix{Nitrite: curemath.Percent(f("nitrite")), Nitrate: curemath.Percent(f("nitrate")), Sugar: curemath.Percent(f("mix sugar"))}
		if rapid.Bool().Draw(rt, "good mix") {
			mix = curemath.StandardMix()
		}
		d := curemath.DryTargets{Green: curemath.Grams(f("green")), Nitrite: curemath.PPM(f("ppm")), Salt: curemath.Percent(f("salt")), Sugar: curemath.Percent(f("sugar")), Ascorbate: curemath.PPM(f("ascorbate")), Mix: mix, Rules: us}
		if c, err := curemath.SolveDry(d); err != nil && c.Weigh.Mix != 0 {
			rt.Fatal("grams beside an error")
		}
		if c, err := curemath.SolveBrine(curemath.BrineTargets{Green: d.Green, Water: curemath.Grams(f("water")), Pickup: curemath.Percent(f("pickup")), Nitrite: d.Nitrite, Salt: d.Salt, Mix: mix, Rules: us}); err != nil && c.Weigh.Mix != 0 {
			rt.Fatal("grams beside an error")
		}
		if c, err := curemath.SolvePump(curemath.PumpTargets{Green: d.Green, Pump: curemath.Percent(f("pump")), Cover: curemath.Grams(f("cover")), Nitrite: d.Nitrite, Salt: d.Salt, Mix: mix, Rules: us}); err != nil && c.Weigh.Mix != 0 {
			rt.Fatal("grams beside an error")
		}
		p := curemath.Portion{Mix: curemath.Grams(f("p mix")), Salt: curemath.Grams(f("p salt"))}
		for _, c := range []func() (curemath.Check, error){
			func() (curemath.Check, error) {
				return curemath.CheckDry(curemath.DryRecipe{Green: d.Green, Portion: p, Mix: mix, Rules: us})
			},
			func() (curemath.Check, error) {
				return curemath.CheckBrine(curemath.BrineRecipe{Green: d.Green, Pickle: curemath.Pickle{Water: curemath.Grams(f("w")), Portion: p}, Mix: mix, Rules: us})
			},
			func() (curemath.Check, error) {
				return curemath.CheckPump(curemath.PumpRecipe{Green: d.Green, Pickle: curemath.Pickle{Water: curemath.Grams(f("w")), Portion: p}, Pump: curemath.Percent(f("pump")), Mix: mix, Rules: us})
			},
		} {
			if got, err := c(); err == nil && math.IsNaN(float64(got.Held.Nitrite)) {
				rt.Fatal("not a number for an answer")
			}
		}
		if days, err := curemath.DayRule(curemath.Millimetres(f("thickness")), true); err == nil && (days.Min <= 0 || days.Max < days.Min) {
			rt.Fatalf("%+v", days)
		}
	})
}
