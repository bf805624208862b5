package bot

import (
	"math"
	"testing"

	"larderhand/curemath"
)

// The thing, its weight in either order, and the price last (1 lb = 453.59237 g,
// 1 oz = 28.349523125 g, exact).
func TestReadStock(t *testing.T) {
	p, err := curemath.LoadPantry()
	if err != nil {
		t.Fatal(err)
	}
	const lb, oz = 453.59237, 28.349523125
	for _, c := range []struct {
		said   string
		item   string
		weight float64
		paid   float64
		mind   bool
	}{
		{"mix 500 g", "mix", 500, 0, false},
		{"mix +250 g for 4.20", "mix", 250, 4.2, false},
		{"curing mix 250 g at €4,20", "mix", 250, 4.2, false},
		{"pink salt 1 lb", "mix", lb, 0, true},
		{"pink salt 4oz $6", "mix", 4 * oz, 6, true},
		{"2 lb salt for 1.80", "salt", 2 * lb, 1.8, false},
		{"1 lb curing salt for 8", "mix", lb, 8, false},
		{"1 lb 4 oz of kosher salt", "salt", lb + 4*oz, 0, false},
		{"cure #1 4 oz for $6.50", "mix", 4 * oz, 6.5, false},
		{"4 oz prague powder #1 6 dollars", "mix", 4 * oz, 6, false},
		{"prague powder 1 4 oz", "mix", 4 * oz, 0, false},
		{"brown sugar 1 kg 2.40 €", "sugar", 1000, 2.4, false},
		{"himalayan salt 1 kg", "salt", 1000, 0, true},
		{"sugar none", "sugar", 0, 0, false},
	} {
		got, err := readStock(p, c.said, true)
		if err != nil || got.item != c.item || math.Abs(float64(got.weight)-c.weight) > 1e-6 || math.Abs(float64(got.paid)-c.paid) > 1e-9 || (got.mind != "") != c.mind {
			t.Errorf("%q: %+v, %v", c.said, got, err)
		}
	}
	for _, said := range []string{"", "salt", "mix", "500 g", "saltpetre 1 lb", "cure #2 1 lb", "celery powder 50 g", "pepper 1 kg", "honey 1 kg", "mix lots", "mix -5 g", "mix 500 g for ever", "$6"} {
		if got, err := readStock(p, said, false); err == nil {
			t.Errorf("%q is read as %+v", said, got)
		}
	}
}
