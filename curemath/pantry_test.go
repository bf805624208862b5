package curemath_test

import (
	"testing"

	"larderhand/curemath"
)

func pantry(t testing.TB) curemath.Pantry {
	t.Helper()
	p, err := curemath.LoadPantry()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func row(t testing.TB, p curemath.Pantry, id string) curemath.Ingredient {
	t.Helper()
	for _, r := range p.Ingredients() {
		if r.ID == id {
			return r
		}
	}
	t.Fatalf("no ingredient %q", id)
	return curemath.Ingredient{}
}

// Weights of a teaspoon and a cup, and make-up, as published. Sources and their
// status stand beside each row.
func TestIngredientTable(t *testing.T) {
	p := pantry(t)
	for _, c := range []struct {
		id             string
		tsp, cup       curemath.Grams
		salt, sugar    curemath.Percent
		water, alcohol curemath.Percent
	}{
		// 6 g a teaspoon, USDA data (second-hand); 292 g a cup from memory.
		{"fine-salt", 6.0, 292, 99.8, 0, 0, 0},
		// 15 g a tablespoon (second-hand).
		{"dense-kosher-salt", 5.0, 240, 99.8, 0, 0, 0},
		// 10 g a tablespoon (second-hand).
		{"flake-salt", 3.3, 160, 99.8, 0, 0, 0},
		// 200 g a cup (second-hand).
		{"white-sugar", 4.2, 200, 0, 99.9, 0, 0},
		// 220 g a cup citing USDA (second-hand), split from memory.
		{"brown-sugar-packed", 4.6, 220, 0, 96, 2, 0},
		// Solids 66.0 to 68.9 %, USDA grade standard (found), 98 % of it sugar (second-hand).
		{"maple-syrup", 6.6, 315, 0, 65.7, 33, 0},
		// 340 g a cup (second-hand), split from memory.
		{"honey", 7.1, 340, 0, 82, 17, 0},
		// 0.948 g/mL (found, interpolated); 0.4 × 0.78924 ÷ 0.948 (computed).
		{"spirit", 4.67, 224.3, 0, 0, 66.7, 33.3},
		// From memory: 14 to 16 % salt.
		{"soy-sauce", 5.5, 255, 15, 1.5, 70, 0},
		{"apple-juice", 5.2, 248, 0, 10.5, 88, 0},
	} {
		r := row(t, p, c.id)
		near(t, c.id+" teaspoon", r.Teaspoon().Typical, c.tsp, 1e-9)
		near(t, c.id+" cup", r.Cup().Typical, c.cup, 1e-9)
		near(t, c.id+" salt", r.Salt().Typical, c.salt, 1e-9)
		near(t, c.id+" sugar", r.Sugar().Typical, c.sugar, 1e-9)
		near(t, c.id+" water", r.Water().Typical, c.water, 1e-9)
		near(t, c.id+" alcohol", r.Alcohol().Typical, c.alcohol, 1e-9)
	}
	near(t, "alcohol of a 40 % spirit", row(t, p, "spirit").Alcohol().Typical, curemath.Percent(0.4*0.78924/0.948*100), 0.05)
}

// A cup is 48 teaspoons, so the two weights of a row must be near each other:
// a slip of the pen in the file shows here.
func TestSpoonsAndCupsAgree(t *testing.T) {
	for _, r := range pantry(t).Ingredients() {
		tsp, cup := r.Teaspoon(), r.Cup()
		if tsp.High == 0 || cup.High == 0 {
			continue
		}
		if cup.High < 48*tsp.Low || cup.Low > 48*tsp.High {
			t.Errorf("%s: %v g a teaspoon, %v g a cup", r.ID, tsp, cup)
		}
		if tsp.Low <= 0 || tsp.Low > tsp.Typical || tsp.Typical > tsp.High || cup.Low > cup.Typical || cup.Typical > cup.High {
			t.Errorf("%s: not low, typical, high: %v, %v", r.ID, tsp, cup)
		}
		if density := tsp.Typical / curemath.Grams(curemath.Teaspoon); density < 0.1 || density > 1.6 {
			t.Errorf("%s: %v g/mL", r.ID, density)
		}
	}
}

func TestEveryIngredientSaysWhereItIsFrom(t *testing.T) {
	rows := pantry(t).Ingredients()
	if len(rows) < 60 {
		t.Fatalf("only %d rows", len(rows))
	}
	for _, r := range rows {
		if r.WeightSource.Status == 0 || r.MakeUpSource.Status == 0 || r.Kind == "" {
			t.Errorf("%s: %q, %q", r.ID, r.WeightSource, r.MakeUpSource)
		}
	}
}
