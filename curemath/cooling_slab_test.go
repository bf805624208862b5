package curemath

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// The first root and its factor for a plane sheet, as tables of heat transfer print
// them: from memory.
func TestFirstRootOfAPlaneSheet(t *testing.T) {
	for _, row := range []struct{ biot, zeta, c float64 }{
		{0.1, 0.3111, 1.0161}, {0.5, 0.6533, 1.0701}, {1, 0.8603, 1.1191}, {10, 1.4289, 1.2620},
	} {
		zeta, c := firstRoot(row.biot)
		if math.Abs(zeta-row.zeta) > 2e-4 || math.Abs(c-row.c) > 3e-4 {
			t.Errorf("Bi %g: ζ %.4f, C %.4f, want %.4f, %.4f", row.biot, zeta, c, row.zeta, row.c)
		}
	}
}

// What a slab of 1 in cannot have done in fridge air, and what it can: our own choice,
// common practice, no source.
func TestColdestCore(t *testing.T) {
	for _, row := range []struct {
		minutes  float64
		air      ColdAir
		core     Fahrenheit
		possible bool
	}{
		{30, MovingAir, 44, false}, {60, MovingAir, 44, false}, {120, MovingAir, 42.8, false}, {30, MovingAir, 60, false},
		{120, StillAir, 50, false}, {240, MovingAir, 44, true}, {360, StillAir, 44, true}, {90, MovingAir, 85, true},
	} {
		got := ColdestCore(25.4, 151, time.Duration(row.minutes)*time.Minute, row.air)
		if possible := row.core >= got; possible != row.possible {
			t.Errorf("151 to %g °F in %g min, air %d: coldest %.1f °F, want possible %v", float64(row.core), row.minutes, row.air, float64(got), row.possible)
		}
	}
}

// Longer is colder, thicker and stiller warmer, and nothing gets colder than its air.
func TestColdestCoreFallsAsItShould(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thick := Millimetres(rapid.Float64Range(5, 120).Draw(t, "thick"))
		from := Fahrenheit(rapid.Float64Range(34, 212).Draw(t, "from"))
		after := time.Duration(rapid.Int64Range(0, int64(72*time.Hour)).Draw(t, "after"))
		c := ColdestCore(thick, from, after, MovingAir)
		if c > from || c < min(from, coldestFridge) || math.IsNaN(float64(c)) {
			t.Fatalf("%v °F from %v", c, from)
		}
		const slack = 1e-9
		if ColdestCore(thick, from, after+time.Hour, MovingAir) > c+slack {
			t.Fatal("an hour more made it warmer")
		}
		if ColdestCore(thick, from, after, StillAir) < c-slack {
			t.Fatal("still air cooled quicker")
		}
		if ColdestCore(thick*2, from, after, MovingAir) < c-slack {
			t.Fatal("a thicker slab cooled quicker")
		}
	})
}
