package parse

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"larderhand/curemath"

	"pgregory.net/rapid"
)

// soup draws lines of words the parsers know, in any order: what random bytes
// seldom hit.
func soup(words string) *rapid.Generator[string] {
	w := append(strings.Fields(words), " ", "\n", "")
	return rapid.Custom(func(t *rapid.T) string {
		n := rapid.IntRange(1, 14).Draw(t, "words")
		var b strings.Builder
		for range n {
			b.WriteString(rapid.SampledFrom(w).Draw(t, "word"))
			b.WriteString(rapid.SampledFrom([]string{" ", " ", " ", ""}).Draw(t, "gap"))
		}
		return b.String()
	})
}

func TestCureSoup(t *testing.T) {
	line := soup("5 6.5 2,27 ½ 0 -3 150 1e9 2,268 a two half lb kg g oz # in cm mm \" % ppm g/kg mg/kg C °F days week h x × 3 slabs pieces each " +
		"salt sugar nitrite nitrate mix curing ascorbate brown sea target rind skin on off no without with dry wet brine cure pump box rub from yesterday " +
		"18:00 friday fridge juniper coffee black pepper spice and & + , ; . ( ) / - = : belly pork thick of the NaN fl tsp tons")
	read := func(s string) error { _, err := Cure(s, noon()); return err }
	rapid.Check(t, func(t *rapid.T) {
		s := line.Draw(t, "line")
		LooksLikeCure(s)
		c, err := Cure(s, noon())
		if err != nil {
			checkProblem(t, s, err, read)
			return
		}
		sane(t, s, c, noon())
	})
}

func TestReadingsSoup(t *testing.T) {
	line := soup("148 121 151/124 49.5 -5 1,480 14:30 8 pm am pit core a b c f : = , ; / and at F C °F °C yesterday friday 20 min ago half an hour now in is temp 2027-03-01 24/12 noon last night morning 1e3")
	rapid.Check(t, func(t *rapid.T) {
		s := line.Draw(t, "line")
		got, err := Readings(s, FahrenheitUnit, noon())
		if err != nil {
			checkProblem(t, s, err, func(s string) error { _, err := Readings(s, FahrenheitUnit, noon()); return err })
			return
		}
		for _, r := range got {
			saneReading(t, s, r)
		}
	})
}

func TestClockTimeSoup(t *testing.T) {
	line := soup("8 08 18 30 2027 24 8.30 24.12. 24.12.2027 3/4 12/24 2027-03-01 T : : am pm p.m. h o'clock noon midnight today yesterday tomorrow tonight friday wed last next this " +
		"morning afternoon evening night December dec may 24th of at on the in , ago from now min h days half an hour and a week before after day")
	rapid.Check(t, func(t *rapid.T) {
		s := line.Draw(t, "line")
		if at, err := ClockTime(s, noon()); err != nil {
			checkProblem(t, s, err, func(s string) error { _, err := ClockTime(s, noon()); return err })
		} else if at.IsZero() {
			t.Fatalf("%q reads no time and no problem", s)
		}
		if _, err := Duration(s); err != nil {
			checkProblem(t, s, err, func(s string) error { _, err := Duration(s); return err })
		}
	})
}

// A line put together of pieces and settings comes apart the same, whatever
// parts the pieces and whatever the order of the settings.
func TestCureRoundTrip(t *testing.T) {
	flavours := []string{"juniper", "black pepper and honey", "coffee & chilli", "Maple", "five spice", "salt and pepper", "juniper, honey"}
	rapid.Check(t, func(t *rapid.T) {
		type want struct {
			grams, mm float64
			flavour   string
		}
		n := rapid.IntRange(1, 6).Draw(t, "pieces")
		var parts []string
		var pieces []want
		for range n {
			g := rapid.IntRange(250, 9000).Draw(t, "grams")
			mm := rapid.IntRange(0, 60).Draw(t, "mm")
			f := rapid.SampledFrom(flavours).Draw(t, "flavour")
			s := rapid.SampledFrom([]string{fmt.Sprintf("%d g", g), fmt.Sprintf("%.6f kg", float64(g)/1000), fmt.Sprintf("%dG pork belly", g)}).Draw(t, "form")
			if mm > 0 {
				s += fmt.Sprintf(" %d mm thick", mm)
			}
			parts = append(parts, s+" "+f)
			pieces = append(pieces, want{float64(g), float64(mm), f})
		}
		salt, sugar, ppm := rapid.IntRange(0, 100).Draw(t, "salt"), rapid.IntRange(0, 100).Draw(t, "sugar"), rapid.IntRange(0, 200).Draw(t, "ppm")
		settings := rapid.Permutation([]string{fmt.Sprintf("salt %d%%", salt), fmt.Sprintf("%d%% sugar", sugar), fmt.Sprintf("%d ppm", ppm), "9 days", "fridge 3 C"}).Draw(t, "settings")
		text := strings.Join(parts, rapid.SampledFrom([]string{", ", "; ", "\n", " and "}).Draw(t, "separator")) + ", " + strings.Join(settings, ", ")
		c, err := Cure(text, noon())
		if err != nil || len(c.Pieces) != n {
			t.Fatalf("%q: %s, %v", text, draw(c), err)
		}
		for i, p := range c.Pieces {
			w := pieces[i]
			if math.Abs(float64(p.Weight)-w.grams) > 1e-6 || float64(p.Thickness) != w.mm || p.Flavouring != w.flavour {
				t.Fatalf("%q: piece %d is %+v, want %+v", text, i, p, w)
			}
		}
		if c.Salt == nil || *c.Salt != curemath.Percent(salt) || c.Sugar == nil || *c.Sugar != curemath.Percent(sugar) || c.Nitrite == nil || *c.Nitrite != curemath.PPM(ppm) || c.Days == nil || *c.Days != 9 || c.Fridge == nil || *c.Fridge != 3 {
			t.Fatalf("%q: %s", text, draw(c))
		}
	})
}

// long gives texts of about n characters that could make a careless parser slow.
func long(n int) map[string]string {
	texts := map[string]string{}
	for _, unit := range []string{"5 ", "5 lb ", "5 lb juniper, ", "and a ", "a and a half ", "one and ", "1 1/", "1,", "1'000", "salt ", "salt 2% ", "mix nitrite of ", "2% ",
		"rind ", "from ", "yesterday ", "at 5 , ", "pit 148 ", "a 1 ", "148 ", "1/2/", "((", "--", "½", "é", "🌶", "\n", "- ", "5 spice ", "2 x ", "18:", "\"", ";", "and "} {
		texts[unit] = strings.Repeat(unit, n/len(unit))
	}
	texts["digits"] = strings.Repeat("9", n)
	texts["spaces"] = "5" + strings.Repeat(" ", n) + "lb"
	texts["word"] = "5 lb " + strings.Repeat("x", n)
	return texts
}

// Four times the text may take about four times the memory, never sixteen: what grows
// faster than its input shows here without a clock.
func TestLongInputGrowsEvenly(t *testing.T) {
	now := noon()
	all := func(s string) {
		_, _ = Weight(s)
		_, _ = Cure(s, now)
		_, _ = Cure("5 lb "+s, now)
		_, _ = Readings(s, FahrenheitUnit, now)
		_, _ = ClockTime(s, now)
		_, _ = Duration(s)
		_, _, _, _ = Batch("3 " + s)
		LooksLikeCure(s)
		_, _ = ReadingsCSV([]byte(s), FahrenheitUnit, now)
	}
	small, big := long(2_000), long(8_000)
	for name := range small {
		a := testing.AllocsPerRun(1, func() { all(small[name]) })
		b := testing.AllocsPerRun(1, func() { all(big[name]) })
		if b > 5*a+500 {
			t.Errorf("%q: %v allocations for 2,000 characters, %v for 8,000", name, a, b)
		}
	}
}

func BenchmarkLongLine(b *testing.B) {
	now := noon()
	for _, name := range []string{"5 lb juniper, ", "one and ", "a and a half ", "yesterday ", "at 5 , ", "salt 2% ", "spaces"} {
		for _, n := range []int{10_000, 40_000} {
			s := "5 lb " + long(n)[name]
			b.Run(fmt.Sprintf("%q/%d", name, n), func(b *testing.B) {
				b.SetBytes(int64(len(s)))
				for b.Loop() {
					_, _ = Cure(s, now)
					_, _ = Readings(s, FahrenheitUnit, now)
				}
			})
		}
	}
}
