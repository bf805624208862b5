package parse

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestDuration(t *testing.T) {
	for in, want := range map[string]time.Duration{
		"2h":                        2 * time.Hour,
		"36h":                       36 * time.Hour,
		"1d":                        24 * time.Hour,
		"45 min":                    45 * time.Minute,
		"45m":                       45 * time.Minute,
		"1 h 30":                    90 * time.Minute,
		"1h30":                      90 * time.Minute,
		"1h30m":                     90 * time.Minute,
		"1½ h":                      90 * time.Minute,
		"1.5 hours":                 90 * time.Minute,
		"1,5 h":                     90 * time.Minute,
		"half an hour":              30 * time.Minute,
		"a quarter of an hour":      15 * time.Minute,
		"three quarters of an hour": 45 * time.Minute,
		"an hour":                   time.Hour,
		"an hour and a half":        90 * time.Minute,
		"one and a half hours":      90 * time.Minute,
		"2 hours and 15 minutes":    135 * time.Minute,
		"2 hours, 15 minutes":       135 * time.Minute,
		"a day":                     24 * time.Hour,
		"two days":                  48 * time.Hour,
		"1 week":                    7 * 24 * time.Hour,
		"1 week 2 days":             9 * 24 * time.Hour,
		"30 sec":                    30 * time.Second,
		"1½ days":                   36 * time.Hour,
	} {
		if got, err := Duration(in); err != nil || got != want {
			t.Errorf("Duration(%q) = %v, %v; want %v", in, got, err, want)
		}
	}
	checkProblems(t, []problemRow{
		{"", Empty, ""},
		{"2", NoUnit, "2"},
		{"0h", Zero, "0h"},
		{"-2h", Negative, "-2h"},
		{"- 2h", Negative, "- 2h"},
		{"2 moons", UnknownUnit, "2 moons"},
		{"soon", NotADuration, "soon"},
		{"5 lb", NotADuration, "5 lb"},
		{"1e9 h", NotANumber, "1e9 h"},
		{"99999999 h", TooBig, "99999999 h"},
		{"1,000 h", Ambiguous, "1,000 h"},
		{"2h 75", NoUnit, "75"},
		{"30 min 2 h", NoUnit, "2 h"},
		{"1:30", NotADuration, "1:30"},
		{"2h later", UnknownWord, "later"},
	}, func(s string) error { _, err := Duration(s); return err })
}

// Go's own way of writing a duration of hours, minutes and seconds is read too.
func TestDurationRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := time.Duration(rapid.IntRange(1, 1_000_000).Draw(t, "seconds")) * time.Second
		if back, err := Duration(d.String()); err != nil || back != d {
			t.Fatalf("%v reads %v, %v", d, back, err)
		}
	})
}

func FuzzDuration(f *testing.F) {
	seeds(f, "1 h 30", "1h30m", "half an hour", "an hour and a half", "2 hours and 15 minutes", "1 week 2 days", "99999999 weeks")
	read := func(s string) error { _, err := Duration(s); return err }
	f.Fuzz(func(t *testing.T, s string) {
		d, err := Duration(s)
		if err != nil {
			checkProblem(t, s, err, read)
			return
		}
		if d <= 0 || d > longestSpan {
			t.Fatalf("Duration(%q) = %v", s, d)
		}
		if back, err := Duration(d.Round(time.Second).String()); d >= time.Second && (err != nil || back != d.Round(time.Second)) {
			t.Fatalf("Duration(%q) = %v, written and read again %v, %v", s, d, back, err)
		}
	})
}

func BenchmarkDuration(b *testing.B) {
	for b.Loop() {
		if _, err := Duration("2 hours and 15 minutes"); err != nil {
			b.Fatal(err)
		}
	}
}
