package curemath_test

import (
	"math"
	"testing"

	"larderhand/curemath"
)

func mixes(t testing.TB) curemath.Mixes {
	t.Helper()
	m, err := curemath.LoadMixes()
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// W13 and C9, computed: 25 g of nitrited salt on a kilogram. W16: level
// teaspoons of 6.25 % on 5 lb; the spoon weights are common practice.
func TestCheckDry(t *testing.T) {
	for _, c := range []struct {
		name    string
		mix     curemath.Percent
		grams   curemath.Grams
		green   curemath.Grams
		ppm     curemath.PPM
		salt    curemath.Percent
		verdict curemath.Verdict
	}{
		{"25 g of 0.4 % on 1 kg", 0.4, 25, 1000, 100, 2.49, curemath.VerdictWithin},
		{"25 g of 0.5 % on 1 kg", 0.5, 25, 1000, 125, 2.4875, curemath.VerdictWithin},
		{"25 g of 0.6 % on 1 kg", 0.6, 25, 1000, 150, 2.485, curemath.VerdictWithin},
		{"8 g of 6.25 % on 1 kg", 6.25, 8, 1000, 500, 0.75, curemath.VerdictOver},
		{"a 5.0 g spoon on 5 lb", 6.25, 5.0, 5 * lb, 137.8, 0.2067, curemath.VerdictWithin},
		{"a 5.6 g spoon on 5 lb", 6.25, 5.6, 5 * lb, 154.3, 0.2315, curemath.VerdictWithin},
		{"a 6.0 g spoon on 5 lb", 6.25, 6.0, 5 * lb, 165.3, 0.2480, curemath.VerdictWithin},
		{"a 7.0 g spoon on 5 lb", 6.25, 7.0, 5 * lb, 192.9, 0.2894, curemath.VerdictWithin},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := curemath.CheckDry(curemath.DryRecipe{Green: c.green, Portion: curemath.Portion{Mix: c.grams}, Mix: mixOf(t, c.mix), Rules: rules(t, "us")})
			if err != nil {
				t.Fatal(err)
			}
			near(t, "ppm", got.Held.Nitrite, c.ppm, 0.06)
			near(t, "salt", got.Held.Salt, c.salt, 1e-4)
			if got.Verdict != c.verdict {
				t.Errorf("verdict %s, want %s", got.Verdict, c.verdict)
			}
			sums(t, got.Trail)
		})
	}
}

// W14: an extension bulletin's dry mix for hams (Mississippi State extension
// P2648: recipe found, ppm computed): 8 lb salt, 3 lb sugar, 2 oz nitrate and
// ½ oz nitrite, 1 oz to each pound of meat. As bacon it is refused for nitrate.
func TestExtensionDryMix(t *testing.T) {
	oz := curemath.Ounce
	blend, err := curemath.BlendMix("extension dry mix", 8*lb, 3*lb, oz/2, 2*oz)
	if err != nil {
		t.Fatal(err)
	}
	rub := curemath.Portion{Mix: 10 * oz}
	got, err := curemath.CheckBox(curemath.BoxRecipe{Green: 20 * lb, Rubs: []curemath.Portion{rub, rub}, Mix: blend, Rules: rules(t, "us")})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "nitrite", got.Held.Nitrite, 175.07, 5e-3)
	near(t, "nitrate", got.Held.Nitrate, 700.28, 5e-3)
	if got.Verdict != curemath.VerdictNitrate {
		t.Errorf("verdict %s", got.Verdict)
	}
	sums(t, got.Trail)
}

func TestMixOf(t *testing.T) {
	for _, p := range []curemath.Percent{0.4, 0.5, 0.6, 0.75, 1, 5.88, 6.25} {
		m := mixOf(t, p)
		near(t, m.Name, m.Salt()+m.Nitrite, 100, 1e-12)
	}
	for _, p := range []curemath.Percent{0, -1, 0.0625, 11, 62.5, 100, curemath.Percent(math.Inf(1))} {
		if _, err := curemath.MixOf(p); err == nil {
			t.Errorf("%v %% taken for a curing mix", p)
		}
	}
	_, err := curemath.MixOf(0.0625)
	if r := refused(t, err, curemath.MixUnknown); r.Hint != "Did you mean 6.25 %?" {
		t.Errorf("hint %q", r.Hint)
	}
}

func TestMixesByName(t *testing.T) {
	m := mixes(t)
	for words, id := range map[string]string{
		"Curing mix": "standard", "cure #1": "standard", "Cure No.1": "standard", "pink curing salt": "standard",
		"curing salt #2": "no2", "Pökelsalz": "nitrited-0.5", "nitrited salt": "nitrited-0.5",
		"saltpeter": "saltpetre", "Pink Himalayan salt": "pink-table-salt", "pink salt": "pink-salt", "sodium nitrite": "pure-nitrite",
	} {
		k, ok := m.ByName(words)
		if !ok || k.ID != id {
			t.Errorf("%q: %q, want %q", words, k.ID, id)
		}
		if k.Mix.Source.Status == 0 {
			t.Errorf("%q has no source", words)
		}
	}
	for words, want := range map[string]curemath.RefusalKind{
		"saltpetre": curemath.NitrateInBacon, "himalayan salt": curemath.MixHoldsNone, "pink salt": curemath.MixUnknown,
		"sodium nitrite": curemath.MixUnknown, "bacon cure": curemath.MixUnknown, "moon dust": curemath.MixUnknown,
	} {
		_, err := m.Use(words)
		refused(t, err, want)
	}
	got, err := m.Use("curing mix")
	if err != nil || got.Nitrite != curemath.StandardMix().Nitrite {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestSolveBox(t *testing.T) {
	box := curemath.BoxTargets{DryTargets: curemath.DryTargets{Green: 5 * lb, Nitrite: 120, Salt: 3, Sugar: 1, Mix: curemath.StandardMix(), Rules: rules(t, "us")}, Rubs: 3, Gap: 4}
	got, err := curemath.SolveBox(box)
	if err != nil {
		t.Fatal(err)
	}
	var all curemath.Portion
	for i, r := range got.Rubs {
		if r.Day != 4*i {
			t.Errorf("rub %d on day %d", i, r.Day)
		}
		all = all.Plus(r.Portion)
	}
	near(t, "mix in all rubs", all.Mix, got.Weigh.Mix, 1e-9)
	near(t, "salt in all rubs", all.Salt, got.Weigh.Salt, 1e-9)
	near(t, "exact mix", got.Exact.Mix, 4.354486752, 1e-8)
	if !warned(got.Warnings, curemath.WarnDrained) {
		t.Error("nothing said about the liquor")
	}
	forth, err := curemath.CheckBox(curemath.BoxRecipe{Green: 5 * lb, Rubs: []curemath.Portion{got.Rubs[0].Portion, got.Rubs[1].Portion, got.Rubs[2].Portion}, Mix: box.Mix, Rules: box.Rules})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "counted again", forth.Held.Nitrite, got.Ingoing, 1e-9)
	box.Rubs = 9
	_, err = curemath.SolveBox(box)
	refused(t, err, curemath.RubsOutOfRange)
}

// Make-up as sold. 5.88 and 0.4 to 0.5 % and the complete cures second-hand, the
// 4 % nitrate of no. 2 and the 0.6 % from memory.
func TestMixTable(t *testing.T) {
	m := mixes(t)
	for id, want := range map[string]struct {
		nitrite, nitrate curemath.Percent
		status           curemath.Status
	}{
		"standard":        {6.25, 0, curemath.SecondHand},
		"uk-pack":         {5.88, 0, curemath.SecondHand},
		"no2":             {6.25, 4, curemath.FromMemory},
		"nitrited-0.4":    {0.4, 0, curemath.SecondHand},
		"nitrited-0.5":    {0.5, 0, curemath.SecondHand},
		"nitrited-0.6":    {0.6, 0, curemath.FromMemory},
		"sugar-cure-0.4":  {0.4, 0, curemath.SecondHand},
		"sugar-cure-0.75": {0.75, 0, curemath.SecondHand},
	} {
		k, ok := m.ByName(id)
		if !ok || k.Mix.Nitrite != want.nitrite || k.Mix.Nitrate != want.nitrate || k.Mix.Source.Status != want.status {
			t.Errorf("%s: %+v", id, k.Mix)
		}
		if k.Low > k.Mix.Nitrite || k.High < k.Mix.Nitrite {
			t.Errorf("%s: %v to %v around %v", id, k.Low, k.High, k.Mix.Nitrite)
		}
	}
	if len(m.All()) < 12 {
		t.Errorf("%d mixes", len(m.All()))
	}
	// A complete cure holds sugar too; how much only its packet says.
	mix, err := m.Use("complete sugar cure 0.75")
	if err != nil {
		t.Fatal(err)
	}
	c, err := curemath.SolveDry(curemath.DryTargets{Green: 2000, Nitrite: 120, Salt: 2.5, Mix: mix, Rules: rules(t, "us")})
	if err != nil {
		t.Fatal(err)
	}
	if !warned(c.Warnings, curemath.WarnRestUnknown) {
		t.Errorf("%+v", c.Warnings)
	}
}
