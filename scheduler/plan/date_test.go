package plan

import (
	"cmp"
	"errors"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func anyDate(t *rapid.T, label string) Date {
	return Date{1, time.January, 1}.AddDays(rapid.IntRange(0, 3652058).Draw(t, label))
}

// Calendar facts are those of the Gregorian calendar as ISO 8601 uses it.
func TestParseDate(t *testing.T) {
	for _, c := range []struct {
		in string
		ok bool
	}{
		{"2027-03-01", true}, {"2028-02-29", true}, {"2000-02-29", true}, {"0001-01-01", true}, {"9999-12-31", true},
		{"2027-02-29", false}, {"2100-02-29", false}, {"2027-04-31", false}, {"2027-13-01", false}, {"2027-00-10", false},
		{"0000-01-01", false}, {"2027-3-1", false}, {"10000-01-01", false}, {"", false}, {"2027-03-01 ", false},
		{"2027-03-01T08:00", false}, {"-001-01-01", false}, {"２０２７-03-01", false},
	} {
		d, err := ParseDate(c.in)
		if (err == nil) != c.ok || c.ok && d.String() != c.in || !c.ok && !errors.Is(err, ErrDate) {
			t.Errorf("ParseDate(%q) = %v, %v", c.in, d, err)
		}
	}
}

func TestDateSums(t *testing.T) {
	for _, c := range []struct {
		from string
		days int
		to   string
	}{
		{"2027-02-28", 1, "2027-03-01"},
		{"2028-02-28", 1, "2028-02-29"},
		{"2027-12-31", 1, "2028-01-01"},
		{"2027-03-01", -1, "2027-02-28"},
		{"2027-03-01", 14, "2027-03-15"},
		{"2000-03-01", 365, "2001-03-01"},
		{"1600-01-01", 146097, "2000-01-01"}, // 400 Gregorian years
	} {
		from, to := date(t, c.from), date(t, c.to)
		if got := from.AddDays(c.days); got != to {
			t.Errorf("%s + %d = %v, want %s", c.from, c.days, got, c.to)
		}
		if got := to.DaysSince(from); got != c.days {
			t.Errorf("%s since %s: %d, want %d", c.to, c.from, got, c.days)
		}
	}
	if day := date(t, "2000-01-01").Weekday(); day != time.Saturday {
		t.Errorf("2000-01-01 is a %v", day)
	}
}

func TestDateOf(t *testing.T) {
	at := instant(t, "2027-03-01T23:30:00-05:00")
	for name, want := range map[string]string{
		"America/New_York": "2027-03-01", "Europe/Berlin": "2027-03-02", "Pacific/Kiritimati": "2027-03-02", "Pacific/Pago_Pago": "2027-03-01",
	} {
		if got := DateOf(at, zone(t, name)); got.String() != want {
			t.Errorf("%s: %v, want %s", name, got, want)
		}
	}
	if got := DateOf(at, nil); got.String() != "2027-03-02" {
		t.Errorf("nil zone: %v", got)
	}
	if !(Date{}).IsZero() || DateOf(at, nil).IsZero() {
		t.Error("IsZero")
	}
}

func TestDateProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyDate(t, "a"), anyDate(t, "b")
		if got := a.AddDays(b.DaysSince(a)); got != b {
			t.Fatalf("%v plus the days to %v is %v", a, b, got)
		}
		if again, err := ParseDate(a.String()); err != nil || again != a {
			t.Fatalf("%v reads back as %v, %v", a, again, err)
		}
		if got, want := a.Compare(b), cmp.Compare(a.String(), b.String()); got != want {
			t.Fatalf("%v against %v: %d, as text %d", a, b, got, want)
		}
		if a.Before(b) != (b.DaysSince(a) > 0) || a.After(b) != b.Before(a) {
			t.Fatalf("order of %v and %v", a, b)
		}
	})
}

func FuzzParseDate(f *testing.F) {
	for _, s := range []string{"2027-03-01", "2028-02-29", "2027-02-30", "", "0000-00-00", "9999-12-31", "2027-3-1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := ParseDate(s)
		switch {
		case err != nil && (!errors.Is(err, ErrDate) || !d.IsZero()):
			t.Fatalf("ParseDate(%q) = %v, %v", s, d, err)
		case err == nil && (d.String() != s || d.AddDays(0) != d):
			t.Fatalf("ParseDate(%q) = %v", s, d)
		}
	})
}
