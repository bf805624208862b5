package curemath_test

import (
	"testing"

	"larderhand/curemath"
)

// An ounce of a liquid may be a fluid ounce: honey at 340 g a cup is 42.5 g a
// fluid ounce (second-hand), 28.35 g an ounce. A dry thing's ounce is one thing.
func TestOuncesOfLiquids(t *testing.T) {
	ounces := func(name string) curemath.RecipeLine {
		l := grams(name, 4*curemath.Ounce)
		l.Amount.Ounces = true
		return l
	}
	c := checkIt(t, recipe(5*lb, ounces("honey"), ounces("sugar"), ounces("salt")))
	honey, sugar := c.Lines[0].Mass, c.Lines[1].Mass
	near(t, "honey, by weight", honey.Low, 4*28.349523125, 1e-9)
	near(t, "honey, by volume", honey.Typical, 170, 0.5)
	if !sugar.Exact() {
		t.Errorf("sugar %v", sugar)
	}
}

// Heaped and scant spoons are common practice, no source: they widen the band
// and never narrow it.
func TestFullSpoons(t *testing.T) {
	level := checkIt(t, recipe(5*lb, spoons("curing salt", 1, curemath.Teaspoon), grams("salt", 50)))
	for fill, more := range map[curemath.Fill]bool{curemath.Heaped: true, curemath.Rounded: true, curemath.Scant: false} {
		line := spoons("curing salt", 1, curemath.Teaspoon)
		line.Fill = fill
		c := checkIt(t, recipe(5*lb, line, grams("salt", 50)))
		if (c.Nitrite.Typical > level.Nitrite.Typical) != more || c.Nitrite.High-c.Nitrite.Low <= level.Nitrite.High-level.Nitrite.Low {
			t.Errorf("fill %d: %v, level %v", fill, c.Nitrite, level.Nitrite)
		}
	}
}

// A cup goes by the cup row of the table, a spoon by the spoon row; a count by
// the weight of one.
func TestMeasuresGoByTheirRow(t *testing.T) {
	leaf := curemath.RecipeLine{Said: "3 bay leaves", Name: "bay leaves", Amount: curemath.Amount{Kind: curemath.ByCount, Count: curemath.Exactly(3.0)}}
	some := curemath.RecipeLine{Said: "2 salts", Name: "salt", Amount: curemath.Amount{Kind: curemath.ByCount, Count: curemath.Exactly(2.0)}}
	c := checkIt(t, recipe(5*lb, spoons("white sugar", 1, curemath.Cup), spoons("white sugar", 1, curemath.Tablespoon), spoons("white sugar", 0.25, curemath.Cup), leaf, some))
	near(t, "cup", c.Lines[0].Mass.Typical, 200, 1e-9)
	near(t, "tablespoon", c.Lines[1].Mass.Typical, 12.6, 1e-9)
	near(t, "quarter cup", c.Lines[2].Mass.Typical, 50, 1e-9)
	near(t, "leaves", c.Lines[3].Mass.Typical, 0.6, 1e-9)
	if c.Lines[4].Kind != curemath.LineUnmeasured {
		t.Errorf("two salts: kind %d", c.Lines[4].Kind)
	}
}

// A spirit of another strength: 60 % by volume is 51 to 53 % by mass (from
// memory, 0.909 g/mL); the line used is within a few hundredths of it.
func TestStrengthOnTheLabel(t *testing.T) {
	rum := grams("rum", 100)
	rum.Strength = 60
	vinegar := grams("vinegar", 100)
	vinegar.Strength = 10
	c := checkIt(t, recipe(1000, rum, vinegar, grams("salt", 20)))
	near(t, "alcohol", c.Alcohol.Typical, 51.5, 2)
	if !c.Lines[0].Alcohol.Exact() {
		t.Errorf("alcohol of a known strength: %v", c.Lines[0].Alcohol)
	}
}

// A written recipe to inject: ppm = nitrite × pump × 1,000,000 ÷ pickle weight
// (calculations handbook, chapter 3, page 19: second-hand).
func TestRecipeToInject(t *testing.T) {
	cure := grams("curing mix", 20)
	cure.Strength = 6.25
	q := curemath.RecipeQuestion{
		Rules: rules(t, "us"), Method: curemath.Injection, Pump: 15,
		Recipe: recipe(4000, grams("water", 880), grams("salt", 100), cure),
	}
	c, err := pantry(t).Check(q)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "injected", c.Nitrite.Typical, 187.5, 1e-9)
	if c.Verdict != curemath.VerdictOver {
		t.Errorf("verdict %s", c.Verdict)
	}
	if c.Rewrite == nil || c.Rewrite.Nitrite > 120 || c.Rewrite.Nitrite < 118 {
		t.Errorf("rewritten: %+v", c.Rewrite)
	}
	sums(t, c.Trail)
	q.Pump = 0
	_, err = pantry(t).Check(q)
	refused(t, err, curemath.PumpOutOfRange)
}

// With the rind on the limit and the aim lose a tenth (calculations handbook,
// chapter 3: second-hand).
func TestRecipeWithTheRindOn(t *testing.T) {
	cure := grams("curing mix", 7)
	cure.Strength = 6.25
	q := curemath.RecipeQuestion{Rules: rules(t, "us"), RindOn: true, Recipe: recipe(5*lb, grams("salt", 50), cure)}
	c, err := pantry(t).Check(q)
	if err != nil {
		t.Fatal(err)
	}
	if c.Limit.Max != 180 || c.Verdict != curemath.VerdictOver { // 192.9 ppm
		t.Errorf("limit %v, verdict %s", c.Limit.Max, c.Verdict)
	}
	if c.Rewrite.Nitrite > 108 || c.Rewrite.Nitrite < 106 {
		t.Errorf("rewritten to %v ppm", c.Rewrite.Nitrite)
	}
}

// What an unknown country's recipe is held to, and that it is said.
func TestRecipeInAnUnknownCountry(t *testing.T) {
	all, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	set, _ := all.ByID("Atlantis")
	cure := grams("curing mix", 5)
	cure.Strength = 6.25
	c, err := pantry(t).Check(curemath.RecipeQuestion{Rules: set, Recipe: recipe(5*lb, grams("salt", 50), cure)})
	if err != nil {
		t.Fatal(err)
	}
	if c.Verdict != curemath.VerdictOver || !warned(c.Warnings, curemath.WarnRulesUnknown) {
		t.Errorf("%s, %+v", c.Verdict, c.Warnings)
	}
}

func TestTooLongARecipe(t *testing.T) {
	r := recipe(5 * lb)
	for range curemath.MaxRecipeLines + 1 {
		r.Lines = append(r.Lines, grams("salt", 1))
	}
	_, err := pantry(t).Check(curemath.RecipeQuestion{Rules: rules(t, "us"), Recipe: r})
	refused(t, err, curemath.RecipeTooLong)
}
