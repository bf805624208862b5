package curemath_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"larderhand/curemath"
)

// The names the trade gives numbered curing mixes (second-hand, many supplier
// sheets): no. 1 with nitrite, no. 2 with nitrate as well. What only sounds like
// a cure is asked about and never taken for none.
func TestNamesOfCures(t *testing.T) {
	salt := grams("kosher salt", 55)
	for name, want := range map[string]curemath.Verdict{
		"Prague powder #1":       curemath.VerdictWithin,
		"prague powder no. 1":    curemath.VerdictWithin,
		"prague powder 1":        curemath.VerdictWithin,
		"pink curing salt nr. 1": curemath.VerdictWithin,
		"curing powder number 1": curemath.VerdictWithin,
		"Prague powder #2":       curemath.VerdictNitrate,
		"prague powder no 2":     curemath.VerdictNitrate,
		"curing powder #2":       curemath.VerdictNitrate,
		"prague powder":          curemath.VerdictCannotSay,
		"nevercure":              curemath.VerdictCannotSay,
		"tangy quick":            curemath.VerdictCannotSay,
		"quick salt":             curemath.VerdictCannotSay,
		"quick cure salt":        curemath.VerdictCannotSay,
		"hilltop pink stuff":     curemath.VerdictCannotSay,
		"smoky powder #1":        curemath.VerdictCannotSay,
		"nitrate-nitrite dust":   curemath.VerdictCannotSay,
		"moon dust":              curemath.VerdictNoNitrite,
		"pink peppercorns":       curemath.VerdictNoNitrite,
		"pink himalayan salt":    curemath.VerdictNoNitrite,
	} {
		c := checkIt(t, recipe(5*lb, salt, grams(name, 4.3)))
		if c.Verdict != want {
			t.Errorf("%q: %s, want %s", name, c.Verdict, want)
		}
	}
}

// What may be a cure is left out of the version by weight, which the mix in it
// replaces; what is wholly unknown stays, with a word on its packet.
func TestUnknownCureIsReplaced(t *testing.T) {
	c := checkIt(t, recipe(5*lb, grams("salt", 50), spoons("tangy quick", 0.25, curemath.Cup), grams("moon dust", 9)))
	if got := c.Uncounted(); len(got) != 1 || got[0] != "tangy quick" {
		t.Errorf("not counted: %q", got)
	}
	out, kept := 0, 0
	for _, l := range c.Rewrite.Lines {
		switch {
		case l.Name == "tangy quick" && l.LeaveOut && l.Weigh == 0 && l.Times == 0 && strings.Contains(l.Note, "takes its place"):
			out++
		case l.Name == "moon dust" && !l.LeaveOut && strings.Contains(l.Note, "packet"):
			kept++
		case l.Name == "tangy quick" || l.Name == "moon dust":
			t.Errorf("%+v", l)
		}
	}
	if out != 1 || kept != 1 {
		t.Errorf("%d left out, %d kept: %+v", out, kept, c.Rewrite.Lines)
	}
	// Once its percent is said it is a cure as any other: 30 g × 0.5 % on
	// 2267.96 g, computed.
	stated := grams("tangy quick", 30)
	stated.Strength = 0.5
	c = checkIt(t, recipe(5*lb, grams("salt", 50), stated))
	near(t, "0.5 %", c.Nitrite.Typical, 30*5000/2267.96185, 1e-6)
	if c.Rewrite.Mix.Nitrite != 0.5 || c.Verdict != curemath.VerdictUnder {
		t.Errorf("%s, rewritten with %+v", c.Verdict, c.Rewrite.Mix)
	}
}

// A strength said in the line is what is read and what the version by weight
// uses, whatever mix the person usually has: 25 g of 0.6 % is 150 ppm on 1 kg
// (worked case W13: computed).
func TestStrengthInTheLine(t *testing.T) {
	weak := grams("curing salt", 25)
	weak.Strength = 0.6
	q := curemath.RecipeQuestion{Rules: rules(t, "us"), Mix: curemath.StandardMix(), Recipe: recipe(1000, weak)}
	c, err := pantry(t).Check(q)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "nitrite", c.Nitrite.Typical, 150, 1e-9)
	if c.Lines[0].ReadAs != "0.6 % curing mix" || c.Rewrite.Mix.Nitrite != 0.6 || c.Rewrite.Lines[0].Weigh != 20 {
		t.Errorf("read as %q, rewritten with %s, %+v", c.Lines[0].ReadAs, c.Rewrite.Mix.Name, c.Rewrite.Lines)
	}

	// The share of the meat said once more is no strength: 5 g on 2 kg.
	twice := grams("curing salt", 5)
	twice.Strength = 0.25
	c = checkIt(t, recipe(2000, grams("salt", 50), twice))
	near(t, "share said twice", c.Nitrite.Typical, 156.25, 1e-9)
	// A numbered mix is sold at one strength: another beside it is asked about.
	odd := grams("cure #1", 5)
	odd.Strength = 0.4
	c = checkIt(t, recipe(2000, grams("salt", 50), odd))
	if c.Verdict != curemath.VerdictCannotSay || !noted(c, curemath.NoteAskStrength) || c.Rewrite.Mix.Nitrite != 6.25 {
		t.Errorf("%s, %+v", c.Verdict, c.Rewrite.Mix)
	}
}

// The one weight without a name is the meat where no other is named.
func TestNamelessMeat(t *testing.T) {
	share := func(name string, s curemath.Percent) curemath.RecipeLine {
		return curemath.RecipeLine{Said: name, Name: name, Amount: curemath.Amount{Kind: curemath.ByShare, Share: curemath.Exactly(s)}}
	}
	nameless := grams("", 5*lb)
	c := checkIt(t, curemath.Recipe{Lines: []curemath.RecipeLine{share("salt", 2.5), share("cure #1", 0.19), nameless}})
	near(t, "meat", c.Meat.Typical, 2267.96185, 1e-6)
	if c.Lines[2].Kind != curemath.LineMeat || c.Verdict != curemath.VerdictWithin {
		t.Errorf("%+v, %s", c.Lines[2], c.Verdict)
	}
	c = checkIt(t, recipe(5*lb, share("salt", 2.5), share("cure #1", 0.19), nameless))
	if c.Lines[2].Kind != curemath.LineUnknown || c.Verdict != curemath.VerdictCannotSay {
		t.Errorf("a second weight: %+v, %s", c.Lines[2], c.Verdict)
	}
}

// Whoever weighs out every line of the version by weight, at the percent on the
// packet of anything in it that cures, stays within the limit.
func TestRewriteFollowedLiterally(t *testing.T) {
	p, us := pantry(t), rules(t, "us")
	// What may be in the recipe, and what nitrite its packet may hold at most.
	may := map[string]curemath.Percent{
		"cure #1": 6.25, "prague powder #1": 6.25, "prague powder": 6.25, "prague powder #2": 6.25, "pink salt": 6.25, "curing salt": 6.25,
		"nitrited salt": 0.6, "bacon cure": 0.75, "sodium nitrite": 100, "nevercure": 6.25, "tangy quick": 6.25, "quick salt": 6.25,
		"pink sugar": 6.25, "secret rub": 0.75, "smoky powder #1": 6.25, "curing dust": 6.25, "celery powder": 6.25,
		"salt": 0, "brown sugar": 0, "honey": 0, "cracked pepper": 0, "pink himalayan salt": 0, "water": 0,
	}
	names := make([]string, 0, len(may))
	for name := range may {
		names = append(names, name)
	}
	slices.Sort(names)
	rapid.Check(t, func(rt *rapid.T) {
		meat := curemath.Grams(rapid.Float64Range(500, 5000).Draw(rt, "meat"))
		var r curemath.Recipe
		r.Meat = curemath.Exactly(meat)
		for range rapid.IntRange(1, 6).Draw(rt, "lines") {
			name := rapid.SampledFrom(names).Draw(rt, "name")
			line := grams(name, curemath.Grams(rapid.Float64Range(1, 80).Draw(rt, "weight")))
			if strength := may[name]; strength > 0 && strength < 10 && rapid.Bool().Draw(rt, "strength said") {
				line.Strength = strength
			}
			r.Lines = append(r.Lines, line)
		}
		c, err := p.Check(curemath.RecipeQuestion{Recipe: r, Rules: us})
		if err != nil {
			rt.Fatal(err)
		}
		if c.Rewrite == nil {
			return
		}
		var nitrite, brine, water curemath.Grams
		for _, l := range c.Rewrite.Lines {
			g := l.Weigh
			if l.Name != "cracked pepper" { // does not dissolve
				brine += g
			}
			switch l.Name {
			case "water":
				water += g
			case "honey": // 17 % water, from memory
				water += g * 0.17
			case "brown sugar": // 1 to 3 % water, from memory
				water += g * 0.02
			}
			if l.Times > 0 {
				rt.Fatalf("a weight written as times: %+v", l)
			}
			switch {
			case l.LeaveOut:
				if g != 0 {
					rt.Fatalf("left out and weighed: %+v", l)
				}
			case l.Cure:
				nitrite += c.Rewrite.Mix.SodiumNitrite().Of(g)
			default:
				nitrite += may[l.Name].Of(g)
			}
		}
		// All of it on the meat, whatever liquid is in the bag; in a brine that
		// covers the meat by the two ways of the handbook (ch. 3, p. 21 and 22:
		// second-hand), with the 10 % of pick-up that is assumed.
		held := nitrite / meat
		if water >= meat*0.49 { // half, and the rounding of the water
			held = max(nitrite*0.1/brine, nitrite/(meat+brine))
		}
		if held *= 1e6; float64(held) > float64(c.Limit.Max)+1e-6 {
			rt.Fatalf("followed literally it is %v ppm: %+v", held, c.Rewrite.Lines)
		}
	})
}
