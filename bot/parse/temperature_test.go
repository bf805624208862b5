package parse

import (
	"fmt"
	"math"
	"testing"

	"larderhand/curemath"

	"pgregory.net/rapid"
)

// °F = °C × 9/5 + 32 exactly; the fixed points are the ice point, body-warm
// water and the one temperature both scales share (NIST SP 811).
func TestTemperature(t *testing.T) {
	rows := []struct {
		in   string
		def  TempUnit
		want curemath.Fahrenheit
	}{
		{"150", FahrenheitUnit, 150},
		{"65", CelsiusUnit, 149},
		{"150F", CelsiusUnit, 150},
		{"150 °F", CelsiusUnit, 150},
		{"150ºF", UnitUnknown, 150},
		{"150 deg F", UnitUnknown, 150},
		{"150 degrees fahrenheit", UnitUnknown, 150},
		{"65C", FahrenheitUnit, 149},
		{"65 ℃", FahrenheitUnit, 149},
		{"65,5 °C", FahrenheitUnit, 149.9},
		{"65 celsius", UnitUnknown, 149},
		{"150°", FahrenheitUnit, 150},
		{"150 degrees", FahrenheitUnit, 150},
		{"0 C", UnitUnknown, 32},
		{"100 C", UnitUnknown, 212},
		{"-40 C", UnitUnknown, -40},
		{"−18 °C", UnitUnknown, -0.4},
		{"-459.67 F", UnitUnknown, -459.67},
		{"1480 F", UnitUnknown, 1480},
	}
	for _, r := range rows {
		got, err := Temperature(r.in, r.def)
		if err != nil || math.Abs(float64(got-r.want)) > 1e-9 {
			t.Errorf("Temperature(%q, %v) = %v, %v; want %v", r.in, r.def, got, err, r.want)
		}
	}
	checkProblems(t, []problemRow{
		{"", Empty, ""},
		{"150", NoUnit, "150"},
		{"150°", NoUnit, "150°"},
		{"-274 C", ImpossibleTemperature, "-274 C"},
		{"2001 F", ImpossibleTemperature, "2001 F"},
		{"1,480 F", Ambiguous, "1,480 F"},
		{"1e3 F", NotANumber, "1e3 F"},
		{"warm", NotATemperature, "warm"},
		{"5 lb", NotATemperature, "5 lb"},
		{"338 K", NoUnit, "338"},
		{"150 F core", UnknownWord, "core"},
	}, func(s string) error { _, err := Temperature(s, UnitUnknown); return err })
}

func TestTemperatureRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenths := rapid.IntRange(-2731, 10000).Draw(t, "tenths of °C")
		c := curemath.Celsius(float64(tenths) / 10)
		got, err := Temperature(fmt.Sprintf("%.1f °C", float64(c)), FahrenheitUnit)
		if err != nil || math.Abs(float64(got-c.Fahrenheit())) > 1e-9 {
			t.Fatalf("%v °C reads %v °F, %v", c, got, err)
		}
	})
}

func FuzzTemperature(f *testing.F) {
	seeds(f, "150 °F", "65 deg C", "-18 C", "65℃", "1480", "150 degrees")
	f.Fuzz(func(t *testing.T, s string) {
		for _, def := range []TempUnit{UnitUnknown, FahrenheitUnit, CelsiusUnit} {
			v, err := Temperature(s, def)
			if err != nil {
				checkProblem(t, s, err, func(s string) error { _, err := Temperature(s, def); return err })
				continue
			}
			if !(v >= coldest && v <= hottest) {
				t.Fatalf("Temperature(%q) = %v", s, v)
			}
			if back, err := Temperature(fmt.Sprintf("%.6f F", float64(v)), CelsiusUnit); err != nil || math.Abs(float64(back-v)) > 1e-6 {
				t.Fatalf("Temperature(%q) = %v, written and read again %v, %v", s, v, back, err)
			}
		}
	})
}

func BenchmarkTemperature(b *testing.B) {
	for b.Loop() {
		if _, err := Temperature("65.5 °C", FahrenheitUnit); err != nil {
			b.Fatal(err)
		}
	}
}
