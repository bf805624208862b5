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

// A 40 % spirit by mass (computed from a 20 °C density table: found).
func TestSpiritByMass(t *testing.T) {
	near(t, "alcohol", row(t, pantry(t), "spirit").Alcohol().Typical, curemath.Percent(0.4*0.78924/0.948*100), 0.05)
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
