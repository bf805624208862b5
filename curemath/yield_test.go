package curemath

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Losses as cooks and rules report them. Sources beside each row.
func TestYieldPercents(t *testing.T) {
	rows := []struct {
		name      string
		weighings []Weighing
		ofGreen   Percent
		fresh     FreshBelly
	}{
		// 6 oz of 10 lb in a cool 12 h smoke: second-hand, one cook.
		{"cool smoke", []Weighing{{WeighedGreen, 10 * Pound}, {WeighedSmoked, 10*Pound - 6*Ounce}}, 96.25, FreshBellyMet},
		// 35 to 28 lb, cure to smoked, skin on: second-hand, one cook.
		{"skin on", []Weighing{{WeighedGreen, 35 * Pound}, {WeighedSmoked, 28 * Pound}}, 80, FreshBellyMet},
		// Pumped bacon returns to 100 % of green at most: 9 CFR 319.107, second-hand.
		{"pumped, exactly back", []Weighing{{WeighedGreen, 5000}, {WeighedCured, 5500}, {WeighedSmoked, 5000}}, 100, FreshBellyMet},
		{"pumped, a gram over", []Weighing{{WeighedGreen, 5000}, {WeighedCured, 5500}, {WeighedSmoked, 5001}}, 100.02, FreshBellyOver},
		{"not smoked yet", []Weighing{{WeighedCured, 4900}, {WeighedGreen, 5000}}, 98, FreshBellyNotYet},
	}
	for _, r := range rows {
		y, err := Yields(r.weighings)
		if err != nil {
			t.Fatal(r.name, err)
		}
		last := y.Lines[len(y.Lines)-1]
		if math.Abs(float64(last.OfGreen-r.ofGreen)) > 1e-9 || y.FreshBelly != r.fresh || math.Abs(float64(y.Loss+last.OfGreen-100)) > 1e-9 {
			t.Errorf("%s: %+v, want %v %% and %d", r.name, y, float64(r.ofGreen), r.fresh)
		}
		for _, s := range y.Trail {
			if s.Working == "" || s.Source.Status == 0 {
				t.Errorf("%s: step without working or source: %+v", r.name, s)
			}
		}
	}
	over, _ := Yields(rows[3].weighings)
	if math.Abs(float64(over.Excess-1)) > 1e-9 {
		t.Errorf("excess %v g, want 1", float64(over.Excess))
	}
}

func TestYieldRemarksAndErrors(t *testing.T) {
	rows := []struct {
		name      string
		weighings []Weighing
		remark    YieldRemark
		kind      YieldErrorKind
	}{
		{"a gain in the smoke", []Weighing{{WeighedGreen, 1000}, {WeighedDried, 950}, {WeighedSmoked, 960}}, YieldGained, 0},
		{"a gain in the brine is no remark", []Weighing{{WeighedGreen, 1000}, {WeighedCured, 1050}}, 0, 0},
		{"half gone", []Weighing{{WeighedGreen, 1000}, {WeighedSmoked, 500}}, YieldUnusual, 0},
		{"no green weight", []Weighing{{WeighedSmoked, 900}}, 0, YieldNoGreen},
		{"none", nil, 0, YieldNoGreen},
		{"twice green", []Weighing{{WeighedGreen, 1000}, {WeighedGreen, 900}}, 0, YieldStageTwice},
		{"nothing", []Weighing{{WeighedGreen, 0}}, 0, YieldBadWeight},
		{"not a number", []Weighing{{WeighedGreen, Grams(math.NaN())}}, 0, YieldBadWeight},
		{"no stage", []Weighing{{0, 1000}}, 0, YieldBadStage},
	}
	for _, r := range rows {
		y, err := Yields(r.weighings)
		var failed YieldError
		if errors.As(err, &failed); failed.Kind != r.kind {
			t.Errorf("%s: %v, want kind %d", r.name, err, r.kind)
		}
		if (r.remark != 0) != (len(y.Remarks) > 0) || (r.remark != 0 && y.Remarks[0] != r.remark) {
			t.Errorf("%s: remarks %v, want %d", r.name, y.Remarks, r.remark)
		}
	}
}

// Target weight and salt after drying (computed: 1000 g at 35 % is 650 g; 2.5 %
// salt at 35 % loss is 3.85 %).
func TestDrying(t *testing.T) {
	d, err := DryTo(1000, 35, 2.5)
	if err != nil || math.Abs(float64(d.Weight-650)) > 1e-9 || math.Abs(float64(d.Salt)-3.846154) > 1e-6 {
		t.Errorf("%+v (%v), want 650 g and 3.85 %%", d, err)
	}
	back, err := DryingSoFar(1000, 650, 2.5)
	if err != nil || math.Abs(float64(back.Loss-35)) > 1e-9 || math.Abs(float64(back.Salt-d.Salt)) > 1e-9 || back.Weight != 650 {
		t.Errorf("%+v (%v), want 35 %%", back, err)
	}
	for _, loss := range []Percent{-1, 100, 120, Percent(math.NaN())} {
		if _, err := DryTo(1000, loss, 2.5); err == nil {
			t.Errorf("a loss of %v %% was accepted", float64(loss))
		}
	}
	if _, err := DryingSoFar(1000, 1001, 2.5); err == nil {
		t.Error("a gain was taken for drying")
	}
}

func TestDryingKeepsItsSalt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := Grams(rapid.Float64Range(50, 20000).Draw(t, "start"))
		loss := Percent(rapid.Float64Range(0, 60).Draw(t, "loss"))
		salt := Percent(rapid.Float64Range(0, 6).Draw(t, "salt"))
		d, err := DryTo(start, loss, salt)
		if err != nil {
			t.Fatal(err)
		}
		if before, after := salt.Of(start), d.Salt.Of(d.Weight); math.Abs(float64(before-after)) > 1e-9*float64(start) {
			t.Fatalf("%v g of salt became %v g", float64(before), float64(after))
		}
	})
}

func TestCost(t *testing.T) {
	// 10 lb at 4.50 a pound, 90 % left: 45 ÷ 9 lb = 5.00 a pound (computed).
	green := 10 * Pound
	c, err := CostOf(Price{4.50, Pound}.For(green), Percent(90).Of(green))
	if err != nil || math.Abs(float64(c.PerPound)-5) > 1e-9 || math.Abs(float64(c.PerKilogram)-5/0.45359237) > 1e-9 {
		t.Errorf("%+v (%v), want 5.00 a pound", c, err)
	}
	for _, bad := range []Money{-1, Money(math.NaN()), Money(math.Inf(1))} {
		if _, err := CostOf(bad, green); err == nil {
			t.Errorf("cost %v was accepted", float64(bad))
		}
	}
}

func TestSlices(t *testing.T) {
	// 12 in. of slab at 1/8 in.: 96 slices; 6 lb of it are 16 a pound (computed).
	s, err := SlicesOfSlab(6*Pound, 12*Inch, Inch/8)
	if err != nil || s.Count != 96 || math.Abs(s.PerPound.Typical-16) > 1e-9 {
		t.Errorf("%+v (%v), want 96 slices, 16 a pound", s, err)
	}
	// 9 × 1.5 × 1/8 in. is 27.65 mL; at 1 g/mL 16.4 a pound (density from memory).
	f, err := SlicesOfFace(9*Inch, 1.5*Inch, Inch/8)
	if err != nil || math.Abs(f.PerPound.Typical-453.59237/27.6536) > 1e-3 || f.PerPound.Low >= f.PerPound.Typical || f.PerPound.High <= f.PerPound.Typical {
		t.Errorf("%+v (%v)", f, err)
	}
	for _, bad := range []Millimetres{0, -1, 0.01, 3000, Millimetres(math.NaN())} {
		if _, err := SlicesOfSlab(1000, 300, bad); err == nil {
			t.Errorf("slices of %v mm were accepted", float64(bad))
		}
	}
}

func TestThickerSlicesAreFewer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := Millimetres(rapid.Float64Range(100, 600).Draw(t, "length"))
		thin := Millimetres(rapid.Float64Range(0.5, 10).Draw(t, "thin"))
		a, err := SlicesOfSlab(2000, length, thin)
		if err != nil {
			t.Fatal(err)
		}
		b, err := SlicesOfSlab(2000, length, thin*1.5)
		if err != nil || b.Count > a.Count || b.PerPound.Typical > a.PerPound.Typical {
			t.Fatalf("thicker slices are more: %+v then %+v (%v)", a, b, err)
		}
	})
}

func TestPlannedYield(t *testing.T) {
	// 85–95 %, middle 90: common practice, no source.
	low, typical, high, err := PlannedYield(2000)
	if err != nil || low != 1700 || typical != 1800 || high != 1900 {
		t.Errorf("%v %v %v (%v)", low, typical, high, err)
	}
}

func BenchmarkYields(b *testing.B) {
	w := []Weighing{{WeighedGreen, 5000}, {WeighedCured, 4900}, {WeighedDried, 4850}, {WeighedSmoked, 4500}, {WeighedSliced, 4400}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Yields(w); err != nil {
			b.Fatal(err)
		}
	}
}
