package parse

import (
	"math"
	"strings"
	"testing"
	"unicode"

	"larderhand/curemath"
)

// wantLine is a recipe line with its amount in base units: g, mL, pieces or
// percent, from low to high.
type wantLine struct {
	name      string
	kind      curemath.AmountKind
	low, high float64
}

func ends(a curemath.Amount) (low, high float64) {
	switch a.Kind {
	case curemath.ByMass:
		return float64(a.Mass.Low), float64(a.Mass.High)
	case curemath.ByVolume:
		return float64(a.Volume.Low), float64(a.Volume.High)
	case curemath.ByCount:
		return a.Count.Low, a.Count.High
	case curemath.ByShare:
		return float64(a.Share.Low), float64(a.Share.High)
	}
	return 0, 0
}

// US measures are exact (NIST Handbook 44, appendix C).
const (
	tsp = 4.92892159375
	tbl = 14.78676478125
	cup = 236.5882365
	flz = 29.5735295625
	lbs = 453.59237
	ozs = 28.349523125
)

func TestRecipe(t *testing.T) {
	const g, ml, n, pc = curemath.ByMass, curemath.ByVolume, curemath.ByCount, curemath.ByShare
	for _, c := range []struct {
		text     string
		meatLow  float64
		meatHigh float64
		lines    []wantLine
	}{
		{"½ cup coarse kosher salt, 5 tbsp packed brown sugar, 1 ¼ tsp curing salt, 3 tbsp maple syrup, 1 fl oz brandy, 2-3 tsp cracked pepper for 7–7.5 lb belly", 7 * lbs, 7.5 * lbs, []wantLine{
			{"coarse kosher salt", ml, cup / 2, cup / 2}, {"packed brown sugar", ml, 5 * tbl, 5 * tbl}, {"curing salt", ml, 1.25 * tsp, 1.25 * tsp},
			{"maple syrup", ml, 3 * tbl, 3 * tbl}, {"brandy", ml, flz, flz}, {"cracked pepper", ml, 2 * tsp, 3 * tsp},
		}},
		{"Salt: 50 g\nsugar 25g\ncure #1 5.5 g\nBay leaves: 3\n5 lb pork belly", 0, 0, []wantLine{
			{"salt", g, 50, 50}, {"sugar", g, 25, 25}, {"cure #1", g, 5.5, 5.5}, {"bay leaves", n, 3, 3}, {"pork belly", g, 5 * lbs, 5 * lbs},
		}},
		{"2.5% salt, 1 % sugar, 0.25% cure #1", 0, 0, []wantLine{{"salt", pc, 2.5, 2.5}, {"sugar", pc, 1, 1}, {"cure #1", pc, 0.25, 0.25}}},
		{"salt 50 g sugar 20 g curing mix 4 g for 2 kg", 2000, 2000, []wantLine{{"salt", g, 50, 50}, {"sugar", g, 20, 20}, {"curing mix", g, 4, 4}}},
		{"For 5 lb belly: 1/3 cup (80 g) kosher salt + 1 cup plus 2 tbsp brown sugar and 1 tsp pink curing salt (#1)", 5 * lbs, 5 * lbs, []wantLine{
			{"kosher salt", g, 80, 80}, {"brown sugar", ml, cup + 2*tbl, cup + 2*tbl}, {"pink curing salt #1", ml, tsp, tsp},
		}},
		{"• 1½ cups water\n- 5 g saltpeter\n* 1T salt; 1t cure 1", 0, 0, []wantLine{{"water", ml, 1.5 * cup, 1.5 * cup}, {"saltpeter", g, 5, 5}, {"salt", ml, tbl, tbl}, {"cure 1", ml, tsp, tsp}}},
		{"1 tsp black pepper, freshly cracked, 3 cloves garlic, minced and half a teaspoon mace", 0, 0, []wantLine{{"black pepper", ml, tsp, tsp}, {"cloves garlic", n, 3, 3}, {"mace", ml, tsp / 2, tsp / 2}}},
		{"6 lb 4 oz belly; 1,5 kg loin; 2,268 g water", 0, 0, []wantLine{{"belly", g, 6.25 * lbs, 6.25 * lbs}, {"loin", g, 1500, 1500}, {"water", g, 2268, 2268}}},
		{"100 g to 120 g salt, 2 x 5 g cure, ⅓-½ cup sugar", 0, 0, []wantLine{{"salt", g, 100, 120}, {"cure", g, 10, 10}, {"sugar", ml, cup / 3, cup / 2}}},
		{"2 oz rum, 4 ounces honey, 1 pint water", 0, 0, []wantLine{{"rum", g, 2 * ozs, 2 * ozs}, {"honey", g, 4 * ozs, 4 * ozs}, {"water", ml, 2 * cup, 568.26125}}},
		{"80 g salt = ⅓ cup, ¼ cup / 50 g sugar", 0, 0, []wantLine{{"salt", g, 80, 80}, {"sugar", g, 50, 50}}},
		{"5 g curing mix (6.25 % nitrite), 30 ml rum 40 %, 0.5 % nitrited salt 25 g", 0, 0, []wantLine{{"curing mix", g, 5, 5}, {"rum", ml, 30, 30}, {"nitrited salt", g, 25, 25}}},
		{"Mix all. Rub it in. Smoke 3 hours at 200 F. 5 g cure", 0, 0, []wantLine{{"mix all", 0, 0, 0}, {"rub it in", 0, 0, 0}, {"smoke 3 hours at 200 f", 0, 0, 0}, {"cure", g, 5, 5}}},
		{"salt 2.5%, sugar 1%, cure #1 0.25% 5lb", 0, 0, []wantLine{{"salt", pc, 2.5, 2.5}, {"sugar", pc, 1, 1}, {"cure #1", pc, 0.25, 0.25}, {"", g, 5 * lbs, 5 * lbs}}},
		{"2.5% salt, 0.25% cure #1 2.4 kg", 0, 0, []wantLine{{"salt", pc, 2.5, 2.5}, {"cure #1", pc, 0.25, 0.25}, {"", g, 2400, 2400}}},
		{"nitrited salt 0.5 % 25 g, 2 tbsp prague powder 2", 0, 0, []wantLine{{"nitrited salt", g, 25, 25}, {"prague powder 2", ml, 2 * tbl, 2 * tbl}}},
		{"Here is one I found: 3T kosher, 2T brwn sugr", 0, 0, []wantLine{{"here is one i found", 0, 0, 0}, {"kosher", ml, 3 * tbl, 3 * tbl}, {"brwn sugr", ml, 2 * tbl, 2 * tbl}}},
		{"my aunt's rub - 80 g salt and 4 g curing mix for 2 kg", 2000, 2000, []wantLine{{"my aunt's rub", 0, 0, 0}, {"salt", g, 80, 80}, {"curing mix", g, 4, 4}}},
		{"pink rock salt: 30 g, dark brown sugar: 20 g", 0, 0, []wantLine{{"pink rock salt", g, 30, 30}, {"dark brown sugar", g, 20, 20}}},
		{"pepper to taste\n1 tsp. salt", 0, 0, []wantLine{{"pepper to taste", 0, 0, 0}, {"salt", ml, tsp, tsp}}},
		{"a handful of salt, 5 g cure", 0, 0, []wantLine{{"of salt", 0, 0, 0}, {"cure", g, 5, 5}}},
	} {
		got, err := Recipe(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if math.Abs(float64(got.Meat.Low)-c.meatLow) > 1e-6 || math.Abs(float64(got.Meat.High)-c.meatHigh) > 1e-6 {
			t.Errorf("%q: meat %v", c.text, got.Meat)
		}
		if len(got.Lines) != len(c.lines) {
			t.Errorf("%q: %d lines, want %d: %+v", c.text, len(got.Lines), len(c.lines), got.Lines)
			continue
		}
		for i, w := range c.lines {
			l := got.Lines[i]
			low, high := ends(l.Amount)
			if l.Name != w.name || l.Amount.Kind != w.kind || math.Abs(low-w.low) > 1e-9*w.low || math.Abs(high-w.high) > 1e-9*w.high {
				t.Errorf("%q: line %q kind %d, %v to %v; want %+v", l.Said, l.Name, l.Amount.Kind, low, high, w)
			}
		}
	}
}

func TestRecipeSaysMoreThanAmounts(t *testing.T) {
	r, err := Recipe("1 oz dry mix per lb of meat; 25 g/kg nitrited salt 0.5 %; 1 tsp curing salt per 5 lb, 40 g salt/kg, 1 heaping tbsp sugar, 2 scant cups water, 2.268 g cure, for each kg of meat 3 g pepper")
	if err != nil {
		t.Fatal(err)
	}
	if p := r.Lines[0].Amount.Per.Typical; math.Abs(float64(p)-lbs) > 1e-9 {
		t.Errorf("per %v", p)
	}
	if l := r.Lines[1]; l.Strength != 0.5 || l.Amount.Share.Typical != 2.5 {
		t.Errorf("%+v", l)
	}
	if p := r.Lines[2].Amount.Per.Typical; math.Abs(float64(p)-5*lbs) > 1e-9 {
		t.Errorf("per %v", p)
	}
	if f := r.Lines[4].Fill; f != curemath.Heaped {
		t.Errorf("fill %d", f)
	}
	if f := r.Lines[5].Fill; f != curemath.Scant {
		t.Errorf("fill %d", f)
	}
	if l := r.Lines[6]; !strings.Contains(l.Fault, "2268") || l.Amount.Kind != curemath.NoAmount {
		t.Errorf("%+v", l)
	}
}

func TestLooksLikeRecipe(t *testing.T) {
	for text, want := range map[string]bool{
		"Here is a recipe I found: 1/2 cup salt, 2 tsp pink salt, 5 lb belly": true,
		"Here is a recipe I found\n1/2 cup salt\n2 tsp pink salt\n5 lb belly": true,
		"my grandma's rub: 3T kosher, 2T brwn sugr, 1t cure#1, 5 lb belly":    true,
		"3T kosher, 2T sugar, 1t cure#1 for 5 lb belly":                       true,
		"80 g salt, 40 g brown sugar, 4 g curing mix for 2.3 kg belly":        true,
		"Marit's cure: 2.5% salt, 1% sugar, 4 g curing mix for 2 kg":          false, // no word of a recipe in it
		"5 lb": false,
		"5 lb juniper 1.5 in, salt 2.5%, sugar 1%":                                 false,
		"6 lb juniper, 3.2 kg coffee and chilli":                                   false,
		"I put 3 tablespoons of pink salt on it instead of 1 teaspoon":             false,
		"i put 3 tbsp pink salt, 2 tbsp sugar and 1 tsp pepper on it, is that bad": false,
		"my rub had 3 tbsp cure and 2 tbsp salt, is that ok?":                      false,
		"i used 8 grams of pink salt instead of 4.4":                               false,
		"temps: 9:00 pit 150 core 101; 10:00 pit 151 core 110":                     false,
		"a 101, b 110 and c 93, pit at 151":                                        false,
		"":                                                                         false,
	} {
		if got := LooksLikeRecipe(text); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}

func TestRecipeProblems(t *testing.T) {
	for text, kind := range map[string]Kind{
		"":                             Empty,
		"   \n ":                       Empty,
		"rub it in and hope":           NotANumber,
		strings.Repeat("salt ", 3000):  TooLong,
		strings.Repeat("1 g x\n", 150): TooLong,
	} {
		_, err := Recipe(text)
		if p, ok := err.(*Problem); !ok || p.Kind != kind || p.Why == "" || p.Example == "" {
			t.Errorf("%.20q: %v", text, err)
		}
	}
	if _, err := Recipe(recipeExample); err != nil {
		t.Errorf("the example does not work: %v", err)
	}
}

// kept gives the letters and digits of a text that must not get lost: all but
// the words that join two ingredients.
func kept(s string) string {
	var b strings.Builder
	for _, t := range scan(s).toks {
		if t.is("and") || t.is("plus") || t.is("with") {
			continue
		}
		for _, r := range s[t.start:t.end] {
			if r != unicode.ReplacementChar && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
				b.WriteRune(r)
			}
		}
	}
	return b.String()
}

// Nothing a person wrote is dropped: every word and number is in what some line
// says, in order. And no amount is less than nothing or turned around.
func FuzzRecipe(f *testing.F) {
	for _, s := range []string{
		"½ cup coarse kosher salt, 5 tbsp packed brown sugar, 1 ¼ tsp curing salt for 7–7.5 lb belly",
		"Salt: 50 g (about 3 tbsp) fine\nper 5 lb belly\n2.5% salt and 0.25% cure #1",
		"for 5 lb for 6 lb per kg (unclosed 3 g", "1 lb 4 oz + 2 x 5 g / 3 cup = ½, 1-2-3 tsp", "-5 g salt, - - 3", "٣ g salt\r\n１ｇ",
		"2,268 g 2.268 g 1e9 kg 5² g", "per per per kg", ", , ; • ( ) # % / 1 # 2",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := Recipe(s)
		if err != nil {
			if p, ok := err.(*Problem); !ok || p.Why == "" || p.Example == "" {
				t.Fatalf("%q: error %v", s, err)
			}
			return
		}
		var said strings.Builder
		meat := kept(r.MeatSaid)
		for _, l := range r.Lines {
			said.WriteString(kept(l.Said))
			low, high := ends(l.Amount)
			if math.IsNaN(low) || math.IsInf(high, 0) || low < 0 || high < low {
				t.Fatalf("%q: amount from %v to %v", s, low, high)
			}
			if l.Amount.Kind == curemath.NoAmount && low != high {
				t.Fatalf("%q: no amount, and yet %v", s, l.Amount)
			}
		}
		want, got := kept(s), said.String()
		// The words for the meat stand where they were said.
		placed := len(want) == len(meat)+len(got)
		for i := 0; placed; i++ {
			if i > len(got) {
				placed = false
			} else if strings.HasPrefix(want[i:], meat) && want[:i] == got[:i] && want[i+len(meat):] == got[i:] {
				break
			}
		}
		if !placed {
			t.Fatalf("%q: letters %q, but the lines say %q and the meat %q", s, want, got, meat)
		}
	})
}

// A recipe taken apart and checked never panics, whatever it says.
func FuzzRecipeCheck(f *testing.F) {
	pantry, err := curemath.LoadPantry()
	if err != nil {
		f.Fatal(err)
	}
	sets, err := curemath.LoadRules()
	if err != nil {
		f.Fatal(err)
	}
	f.Add("⅓ cup kosher salt, 1 tsp curing salt for 5 lb belly")
	f.Add("1 gallon water, 1 cup salt, 2 tbsp pink salt, 6 lb belly, moon dust 5 g")
	f.Add("0 g salt, 0 kg belly, 0% cure")
	f.Fuzz(func(t *testing.T, s string) {
		r, err := Recipe(s)
		if err != nil {
			return
		}
		c, err := pantry.Check(curemath.RecipeQuestion{Recipe: r, Rules: sets.Default()})
		if err != nil {
			return
		}
		if len(c.Lines) != len(r.Lines) || c.Verdict == 0 {
			t.Fatalf("%q: %d lines of %d, verdict %s", s, len(c.Lines), len(r.Lines), c.Verdict)
		}
		n := c.Nitrite
		if math.IsNaN(float64(n.Typical)) || n.Low < 0 || n.Low > n.Typical || n.Typical > n.High {
			t.Fatalf("%q: nitrite %v", s, n)
		}
		if c.Rewrite != nil && c.Rewrite.Nitrite > c.Limit.Max {
			t.Fatalf("%q: rewritten to %v ppm over %v", s, c.Rewrite.Nitrite, c.Limit.Max)
		}
	})
}

func BenchmarkRecipe(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Recipe("½ cup coarse kosher salt, 5 tbsp packed brown sugar, 1 ¼ tsp curing salt, 3 tbsp maple syrup, 1 fl oz brandy, 2-3 tsp cracked pepper for 7–7.5 lb belly"); err != nil {
			b.Fatal(err)
		}
	}
}

// A recipe as it is pasted, read and checked: what "check" takes before its reply is
// written.
func BenchmarkRecipeReadAndChecked(b *testing.B) {
	pantry, err := curemath.LoadPantry()
	if err != nil {
		b.Fatal(err)
	}
	rules, err := curemath.LoadRules()
	if err != nil {
		b.Fatal(err)
	}
	const text = "⅓ cup coarse kosher salt, 3 tbsp packed brown sugar, 1 ½ tsp curing salt, 2 tbsp honey, 2 fl oz rum, 1-2 tsp cracked pepper for 6–6.5 lb belly"
	b.ReportAllocs()
	for b.Loop() {
		r, err := Recipe(text)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := pantry.Check(curemath.RecipeQuestion{Recipe: r, Rules: rules.Default(), Piece: 2000}); err != nil {
			b.Fatal(err)
		}
	}
}
