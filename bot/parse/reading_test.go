package parse

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"larderhand/curemath"

	"pgregory.net/rapid"
)

// tell writes readings on one line, with the time only if it was said.
func tell(rows []Reading) string {
	var out []string
	for _, r := range rows {
		s := sketch([]Reading{r})
		if !r.HasTime {
			s = s[len("03 12:00 "):]
		}
		out = append(out, s)
	}
	return strings.Join(out, " | ")
}

func TestReadings(t *testing.T) {
	rows := []struct{ in, want string }{
		{"pit 148 core 121", "pit 148 core 121"},
		{"core 121 pit 148", "pit 148 core 121"},
		{"Pit: 148, Core: 121", "pit 148 core 121"},
		{"pit=148 core=121", "pit 148 core 121"},
		{"pit at 148 and core is 121", "pit 148 core 121"},
		{"smoker 148 meat 121", "pit 148 core 121"},
		{"pit temp 148, core temperature 121", "pit 148 core 121"},
		{"pit65 core 25c", "pit 149 core 77"},
		{"pit:150 core:83", "pit 150 core 83"},
		{"core=80 pit=150", "pit 150 core 80"},
		{"P150 C82", "pit 150 core 82"},
		{"p 150, c 82", "pit 150 core 82"},
		{"c:82 p:150", "pit 150 core 82"},
		{"p65c c28c", "pit 149 core 82.4"},
		{"P150 a 82 c 80", "pit 150 | a core 82 | c core 80"},
		{"a 101, b 110 and c 93, pit at 151", "pit 151 | a core 101 | b core 110 | c core 93"},
		{"temps: 9:00 pit 150 core 101; 10:00 pit 151 core 104", "03 09:00 pit 150 core 101 | 03 10:00 pit 151 core 104"},
		{"pit 148", "pit 148"},
		{"core 121", "core 121"},
		{"151/124", "pit 151 core 124"},
		{"151 / 124", "pit 151 core 124"},
		{"151.5/124.5", "pit 151.5 core 124.5"},
		{"151°F/124°F", "pit 151 core 124"},
		{"pit/core 151/124", "pit 151 core 124"},
		{"core/pit 124/151", "pit 151 core 124"},
		{"148 pit 121 core", "pit 148 core 121"},
		{"148F pit, 121F core", "pit 148 core 121"},
		{"148 in the pit, 121 at the core", "pit 148 core 121"},
		{"11:30 - 148/121", "03 11:30 pit 148 core 121"},
		{"core a 121 b 118", "a core 121 | b core 118"},
		{"core a: 121, b: 118, c: 117", "a core 121 | b core 118 | c core 117"},
		{"core a 121 c 118 d 117", "a core 121 | c core 118 | d core 117"},
		{"a 121 b 118", "a core 121 | b core 118"},
		{"slab a 121, slab b 118", "a core 121 | b core 118"},
		{"pit 148 core a 121 b 118", "pit 148 | a core 121 | b core 118"},
		{"core a 151/121", "pit 151 | a core 121"},
		{"core 49C", "core 120.2"},
		{"core 49 c", "core 120.2"},
		{"pit 65 core 49C", "pit 149 core 120.2"},
		{"65/49 °C", "pit 149 core 120.2"},
		{"core a 49c b 50c", "a core 120.2 | b core 122"},
		{"core a 49 c b 50 c", "a core 120.2 | b core 122"},
		{"pit 300F core 49C", "pit 300 core 120.2"},
		{"pit 151 1/2", "pit 151.5"},
		{"pit -5", "pit -5"},
		{"pit 1480", "pit 1480"},
		{"pit 148 core 121 at 11:30", "03 11:30 pit 148 core 121"},
		{"at 11:30 pit 148", "03 11:30 pit 148"},
		{"11:30 151/124", "03 11:30 pit 151 core 124"},
		{"at 11 pit 148", "03 11:00 pit 148"},
		{"11:30 24/12", "03 11:30 pit 24 core 12"},
		{"11.30 am pit 148", "03 11:30 pit 148"},
		{"20 min ago pit 148", "03 11:40 pit 148"},
		{"pit 148 half an hour ago", "03 11:30 pit 148"},
		{"yesterday 23:00 151/124", "02 23:00 pit 151 core 124"},
		{"2027-03-02 23:00 pit 148", "02 23:00 pit 148"},
		{"at 9 in the morning pit 148", "03 09:00 pit 148"},
		{"last night at 11 pit 148", "02 23:00 pit 148"},
		{"10:00 151/124; 10:30 153/126", "03 10:00 pit 151 core 124 | 03 10:30 pit 153 core 126"},
		{"10:00 pit 151\n10:30 pit 153\r\n\n11:00 pit 154\n", "03 10:00 pit 151 | 03 10:30 pit 153 | 03 11:00 pit 154"},
	}
	for _, r := range rows {
		got, err := Readings(r.in, FahrenheitUnit, noon())
		if s := tell(got); err != nil || s != r.want {
			t.Errorf("Readings(%q)\n got %s, %v\nwant %s", r.in, s, err, r.want)
		}
	}
}

func TestReadingsProblems(t *testing.T) {
	checkProblems(t, []problemRow{
		{"", Empty, ""},
		{";;", NotAReading, ";;"},
		{"hello", NotAReading, "hello"},
		{"148", Ambiguous, "148"},
		{"148 121", Ambiguous, "148"},
		{"121 at 11:30", Ambiguous, "121"},
		{"pit 148 121", Ambiguous, "121"},
		{"3 pit 148", Ambiguous, "148"},
		{"pit", NotAReading, "pit"},
		{"pit 148 core", NotAReading, "pit 148 core"},
		{"pit core 148", Ambiguous, "148"},
		{"pit 148 pit 150", SaidTwice, "150"},
		{"11:00 pit 148 11:30", SaidTwice, "11:30"},
		{"pit 148 at 16:00", InFuture, "16:00"},
		{"pit 148 at 25:00", NotATime, "25:00"},
		{"pit 99999", ImpossibleTemperature, "99999"},
		{"pit -500", ImpossibleTemperature, "-500"},
		{"pit 1,480", Ambiguous, "1,480"},
		{"pit 1e3", NotANumber, "1e3"},
		{"0/0", NotANumber, "0/0"},
		{"pit - 5", NotAReading, "-"},
		{"pit NaN", NotAReading, "NaN"},
		{"pit 300F core 49C a 50", Ambiguous, "50"},
		{"pit 5 lb", NotAReading, "lb"},
		{"core a 121/118/117", Ambiguous, "121/118/117"},
	}, func(s string) error { _, err := Readings(s, FahrenheitUnit, noon()); return err })
	if _, err := Readings("pit 148", UnitUnknown, noon()); kindOf(err) != NoUnit {
		t.Errorf("without a unit: %v", err)
	}
	if _, err := Readings(strings.Repeat("pit 148\n", mostReadings+1), FahrenheitUnit, noon()); kindOf(err) != TooMany {
		t.Errorf("a flood: %v", err)
	}
}

func TestReadingsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenth := func(name string) float64 {
			return float64(rapid.IntRange(-400, 3000).Draw(t, name)) / 10
		}
		p, c := tenth("pit"), tenth("core")
		minute := rapid.IntRange(0, 12*60-1).Draw(t, "minute")
		sep := rapid.SampledFrom([]string{" ", ", ", " and ", "  ", "\t"}).Draw(t, "separator")
		text := fmt.Sprintf("PIT %.1f°C%score %.1f°C%sat %02d:%02d", p, sep, c, sep, minute/60, minute%60)
		got, err := Readings(text, FahrenheitUnit, noon())
		if err != nil || len(got) != 1 || !got[0].HasTime {
			t.Fatalf("%q reads %v, %v", text, got, err)
		}
		near := func(f *curemath.Fahrenheit, c float64) bool {
			return f != nil && math.Abs(float64(*f)-(c*9/5+32)) < 1e-9
		}
		if r := got[0]; !near(r.Pit, p) || !near(r.Core, c) || r.At.Hour()*60+r.At.Minute() != minute {
			t.Fatalf("%q reads %s", text, tell(got))
		}
	})
}

// saneReading holds a reading to its promises.
func saneReading(t tester, in string, r Reading) {
	t.Helper()
	if r.Pit == nil && r.Core == nil || len(r.Piece) > 1 || r.At.IsZero() {
		t.Fatalf("%q: reading %+v", in, r)
	}
	for _, f := range []*curemath.Fahrenheit{r.Pit, r.Core} {
		if f != nil && !(*f >= coldest && *f <= hottest) {
			t.Fatalf("%q: %v °F", in, *f)
		}
	}
}

func FuzzReadings(f *testing.F) {
	seeds(f, "pit 148 core 121", "151/124 at 14:30", "core a 121 b 118", "11:30 24/12", "20 min ago pit 148; pit 150", "148F pit 121F core", "pit/core 1/2", "P150 C82", "c:82 p:150 a 80")
	f.Fuzz(func(t *testing.T, s string) {
		for _, def := range []TempUnit{FahrenheitUnit, UnitUnknown} {
			got, err := Readings(s, def, noon())
			if err != nil {
				checkProblem(t, s, err, func(s string) error {
					_, err := Readings(s, FahrenheitUnit, noon())
					return err
				})
				continue
			}
			if len(got) == 0 {
				t.Fatalf("%q: no readings and no problem", s)
			}
			for _, r := range got {
				saneReading(t, s, r)
				if r.At.After(noon()) || !r.HasTime && !r.At.Equal(noon()) {
					t.Fatalf("%q: at %v", s, r.At)
				}
			}
		}
	})
}

func FuzzReadingsCSV(f *testing.F) {
	for _, s := range []string{tableExample, "Datum;Uhrzeit;Pit °C;Core °C\n03.03.2027;14:00:00;65,5;49,5\n", "14:00\t121\t148\n14:30\t124\t151",
		"elapsed min,pit\n0,148\n30,151", "time,pit\n1804078800,148", "time,probe 1,probe 2\n3/3/2027 2:00 PM,148,121", "\xff\xfea\x00", "\"", "a,b\n\"c\n1,2", "time pit\n25:00 1e9\n0:0 NaN"} {
		f.Add([]byte(s))
	}
	now := time.Date(2027, 10, 31, 9, 0, 0, 0, zone(f, "Europe/Vienna"))
	f.Fuzz(func(t *testing.T, b []byte) {
		got, err := ReadingsCSV(b, FahrenheitUnit, now)
		if err != nil {
			checkProblem(t, string(b), err, func(s string) error {
				_, err := ReadingsCSV([]byte(s), UnitUnknown, now)
				if kindOf(err) == NoUnit {
					err = nil
				}
				return err
			})
			return
		}
		if len(got.Rows) == 0 {
			t.Fatalf("%q: no rows and no problem", b)
		}
		for i, r := range got.Rows {
			saneReading(t, string(b), r)
			if i > 0 && r.At.Before(got.Rows[i-1].At) {
				t.Fatalf("%q: row %d is out of order", b, i)
			}
		}
	})
}

func BenchmarkReadings(b *testing.B) {
	now := noon()
	for b.Loop() {
		if _, err := Readings("pit 148 core a 121 b 118 at 11:30", FahrenheitUnit, now); err != nil {
			b.Fatal(err)
		}
	}
}

// A reading every half minute for 24 hours.
func BenchmarkReadingsCSV(b *testing.B) {
	var file strings.Builder
	file.WriteString("time,pit,core a,core b\n")
	at := time.Date(2027, 3, 2, 12, 0, 0, 0, time.UTC)
	for i := range 2880 {
		fmt.Fprintf(&file, "%s,148.%d,121.%d,118.%d\n", at.Add(time.Duration(i)*30*time.Second).Format("2006-01-02 15:04:05"), i%10, i%10, i%10)
	}
	b.SetBytes(int64(file.Len()))
	for b.Loop() {
		if t, err := ReadingsCSV([]byte(file.String()), FahrenheitUnit, noon()); err != nil || len(t.Rows) != 3*2880 {
			b.Fatal(err)
		}
	}
}
