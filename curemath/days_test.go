package curemath_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"larderhand/curemath"
)

// The day rule in its two readings (second-hand): 1.5 in gives 5 and 8, 2 in
// gives 6 and 10; 7 to 10 days is the habit for both. The longer is taken.
func TestDayRule(t *testing.T) {
	for _, c := range []struct {
		inches       curemath.Millimetres
		rind         bool
		faces, whole float64
		low, high    int
	}{
		{1, false, 4, 6, 6, 8},
		{1.5, false, 5, 8, 8, 10},
		{2, false, 6, 10, 10, 12},
		// Where the estimate is the longer it is taken, from a little under 2.5 in on; beyond
		// that the longer of 14 days × 3 ÷ 2.5 and the estimate: Fo 0.3035 of a fixed
		// dose at nine tenths (Crank), 38.1 mm from each face at 2.38e-10 m²/s: 21.4 days.
		{2.5, false, 7, 12, 15, 17},
		{3, false, 8, 14, 22, 24},
		// One face: seven days an inch (from memory), and four times 3 days plus 2, which is the longer.
		{1.5, true, 5, 8, 14, 16},
	} {
		got, err := curemath.DayRule(c.inches*curemath.Inch, c.rind)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "from each face", got.FromFaces, c.faces, 1e-9)
		near(t, "over the whole", got.WholeThickness, c.whole, 1e-9)
		if got.Min != c.low || got.Max != c.high {
			t.Errorf("%v in, rind %v: %d to %d days, want %d to %d", c.inches, c.rind, got.Min, got.Max, c.low, c.high)
		}
		if warned(got.Warnings, curemath.WarnBeyondDayRule) != (c.inches >= 2.5) || warned(got.Warnings, curemath.WarnRindOn) != c.rind {
			t.Errorf("%v in: warnings %+v", c.inches, got.Warnings)
		}
		sums(t, got.Trail)
	}
}

// A belly of 10 lb lies about 15 days in sweet pickle, a heavier one 21. Source: USDA farm
// pork handbook (found); in proportion for a lighter one, computed.
func TestDaysInPickle(t *testing.T) {
	for _, c := range []struct {
		pounds    curemath.Grams
		inches    curemath.Millimetres
		low, high int
	}{
		{10, 1.5, 15, 17}, {12, 2, 21, 23}, {8, 1.5, 12, 14}, {5, 1.5, 8, 10}, {10, 2, 15, 17}, {5, 3, 22, 24},
	} {
		d, err := curemath.DayRule(c.inches*curemath.Inch, false)
		if err != nil {
			t.Fatal(err)
		}
		if got := d.InPickle(c.pounds * curemath.Pound); got.Min != c.low || got.Max != c.high {
			t.Errorf("%v lb, %v in: %d to %d days, want %d to %d", c.pounds, c.inches, got.Min, got.Max, c.low, c.high)
		} else {
			sums(t, got.Trail)
		}
	}
}

// The estimate the day rule is held to is that of CureTimeTo, whose own source is Crank.
func TestDayRuleTakesTheEstimate(t *testing.T) {
	for _, rind := range []bool{false, true} {
		for _, inches := range []curemath.Millimetres{2.6, 3, 4.5} {
			c := curemath.Course{Slab: curemath.Slab{Thickness: inches * curemath.Inch}, Supply: curemath.FixedDose(), Temps: []curemath.TempSpan{{Temp: curemath.Fahrenheit(36).Celsius()}}}
			if rind {
				c.Slab.Faces = curemath.OneFace
			}
			want, err := curemath.CureTimeTo(c, 90)
			if err != nil {
				continue // past a year at its slowest
			}
			got, err := curemath.DayRule(inches*curemath.Inch, rind)
			if least := int(math.Ceil(want.Typical.Hours()/24 - 0.001)); err != nil || got.Min != least {
				t.Errorf("%v in, rind %v: %d days, want %d, %v", inches, rind, got.Min, least, err)
			}
		}
	}
}

func TestDayRuleNeverShortensWithThickness(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		a := rapid.Float64Range(5, 250).Draw(rt, "mm")
		b := rapid.Float64Range(a, 250).Draw(rt, "thicker")
		rind := rapid.Bool().Draw(rt, "rind")
		thin, err := curemath.DayRule(curemath.Millimetres(a), rind)
		if err != nil {
			rt.Fatal(err)
		}
		thick, err := curemath.DayRule(curemath.Millimetres(b), rind)
		if err != nil {
			rt.Fatal(err)
		}
		if thick.Min < thin.Min || thick.Max < thin.Max || thin.Max < thin.Min {
			rt.Fatalf("%v mm %d to %d, %v mm %d to %d", a, thin.Min, thin.Max, b, thick.Min, thick.Max)
		}
	})
}

func TestDaysUnknown(t *testing.T) {
	got := curemath.DaysUnknown(false)
	if got.Min != 10 || got.Max != 12 || !warned(got.Warnings, curemath.WarnThicknessUnknown) {
		t.Errorf("%+v", got)
	}
	_, err := curemath.DayRule(0, false)
	refused(t, err, curemath.ThicknessOutOfRange)
	_, err = curemath.DayRule(2000, false)
	refused(t, err, curemath.ThicknessOutOfRange)
}

// The last rub of a box cure needs its days too: common practice, no source.
func TestDaysAfterRub(t *testing.T) {
	d, err := curemath.DayRule(1.5*curemath.Inch, false)
	if err != nil {
		t.Fatal(err)
	}
	got := d.AfterRub(8)
	if got.Min != d.Min+8 || got.Max != d.Max+8 || len(got.Trail) != len(d.Trail)+1 {
		t.Errorf("after a rub on day 8: %+v, from %+v", got, d)
	}
	if one := d.AfterRub(0); one.Min != d.Min || one.Max != d.Max {
		t.Errorf("one rub alone changes the days: %+v", one)
	}
}
