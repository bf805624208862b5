package zone

import (
	"errors"
	"slices"
	"testing"
	"time"
	_ "time/tzdata" // zone data must not depend on the machine

	"pgregory.net/rapid"
)

// Names are those of the IANA time zone database; what people call places and
// times is common practice, no source.
func TestFind(t *testing.T) {
	for said, want := range map[string]string{
		"Europe/Berlin":          "Europe/Berlin",
		"europe/berlin":          "Europe/Berlin",
		" EUROPE / berlin ":      "Europe/Berlin",
		"Berlin":                 "Europe/Berlin",
		"new york":               "America/New_York",
		"New_York":               "America/New_York",
		"america/new york":       "America/New_York",
		"São Paulo":              "America/Sao_Paulo",
		"Zürich":                 "Europe/Zurich",
		"St. John's":             "America/St_Johns",
		"port au prince":         "America/Port-au-Prince",
		"indiana/knox":           "America/Indiana/Knox",
		"Buenos Aires":           "America/Argentina/Buenos_Aires", // two names, one clock
		"Istanbul":               "Europe/Istanbul",
		"Calcutta":               "Asia/Kolkata", // retired name of a city
		"Asia/Calcutta":          "Asia/Calcutta",
		"Hawaii":                 "Pacific/Honolulu",
		"Arizona":                "America/Phoenix",
		"Germany":                "Europe/Berlin", // two zones, one clock
		"England":                "Europe/London",
		"Korea":                  "Asia/Seoul",
		"bosnia and herzegovina": "Europe/Sarajevo",
		"utc":                    "UTC",
		"US/Eastern":             "US/Eastern",
		"EST5EDT":                "EST5EDT",
		"Etc/GMT+5":              "Etc/GMT+5",
		"etc/gmt-5":              "Etc/GMT-5",
	} {
		loc, name, err := Find(said)
		if err != nil || name != want || loc.String() != want {
			t.Errorf("Find(%q) = %v, %q, %v, want %s", said, loc, name, err, want)
		}
	}
}

func TestFindRefuses(t *testing.T) {
	for _, c := range []struct {
		said    string
		kind    Kind
		suggest string // one that must be among the suggestions
	}{
		{"", Empty, "Europe/Berlin"},
		{" \t", Empty, "America/New_York"},
		{"Local", Local, "Europe/Berlin"},
		{"localtime", Local, "Europe/Berlin"},
		{"CST", Loose, "America/Chicago"},
		{"CST", Loose, "Asia/Shanghai"},
		{"est", Loose, "America/New_York"},
		{"CET", Loose, "Europe/Berlin"},
		{"Eastern time", Loose, "America/New_York"},
		{"GMT", Loose, "Europe/London"},
		{"Georgia", Loose, "Asia/Tbilisi"},
		{"UTC+2", Offset, "Europe/Berlin"},
		{"GMT -05:00", Offset, "America/New_York"},
		{"+0530", Offset, "Asia/Kolkata"},
		{"−3", Offset, "America/Sao_Paulo"},
		{"United States", Ambiguous, "America/Chicago"},
		{"usa", Ambiguous, "Pacific/Honolulu"},
		{"Indiana", Ambiguous, "America/Indiana/Knox"},
		{"Samoa", Ambiguous, "Pacific/Apia"},
		{"europe", Ambiguous, "Europe/London"},
		{"Berln", Unknown, "Europe/Berlin"},
		{"new yrok", Unknown, "America/New_York"},
		{"germny", Unknown, "Europe/Berlin"},
		{"the smokehouse", Unknown, ""},
		{"../../etc/passwd", Unknown, ""},
		{"Factory", Unknown, ""},
		{"posixrules", Unknown, ""},
	} {
		loc, name, err := Find(c.said)
		var refused *Error
		if !errors.As(err, &refused) || loc != nil || name != "" {
			t.Errorf("Find(%q) = %v, %q, %v, want a refusal", c.said, loc, name, err)
			continue
		}
		if refused.Kind != c.kind {
			t.Errorf("Find(%q): kind %d, want %d", c.said, refused.Kind, c.kind)
		}
		if c.suggest != "" && !slices.Contains(refused.Suggestions, c.suggest) {
			t.Errorf("Find(%q) suggests %v, want %s among them", c.said, refused.Suggestions, c.suggest)
		}
	}
}

func TestErrorIsOneSentence(t *testing.T) {
	for said, want := range map[string]string{
		"JST":     `"JST" can be taken more than one way: say a city, for example Asia/Tokyo`,
		"+05:30":  `"+05:30" says nothing about when clocks change: say a city, for example Asia/Kolkata`,
		"Berln":   `no time zone, city or country called "Berln": did you mean Europe/Berlin?`,
		"a\nb":    `no time zone, city or country called "a\nb": say a big city with the same clock, or a country`,
		"indiana": `"indiana" has more than one time zone: say a city, for example America/Indiana/Indianapolis or America/Indiana/Knox`,
	} {
		if _, _, err := Find(said); err == nil || err.Error() != want {
			t.Errorf("Find(%q): %v, want %s", said, err, want)
		}
	}
}

// Whatever case or separators a listed name is typed with, it is that zone, or it
// is refused the same way.
func TestNamesInAnySpelling(t *testing.T) {
	names := Names()
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(names).Draw(t, "name")
		_, want, wantErr := Find(name)
		spelled := []byte(name)
		for i, c := range spelled {
			swap := rapid.Bool().Draw(t, "swap")
			switch {
			case swap && c == '_':
				spelled[i] = ' '
			case swap && 'a' <= c && c <= 'z':
				spelled[i] = c - 'a' + 'A'
			case swap && 'A' <= c && c <= 'Z':
				spelled[i] = c - 'A' + 'a'
			}
		}
		_, got, err := Find(string(spelled))
		if got != want || (err == nil) != (wantErr == nil) {
			t.Fatalf("Find(%q) = %q, %v; Find(%q) = %q, %v", spelled, got, err, name, want, wantErr)
		}
	})
}

func FuzzFind(f *testing.F) {
	for _, s := range []string{"", "berlin", "Europe/Berlin", "new york", "Local", "CST", "UTC+2", "−3", "usa", "Zürich", "\xff/\x00", "İzmir", "a/b/c", "//", "Etc/GMT+5", "Korea (South)", "ST"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, said string) {
		loc, name, err := Find(said)
		if err == nil {
			again, same, err := Find(name)
			if loc.String() != name || err != nil || same != name || again.String() != name {
				t.Fatalf("Find(%q) = %v, %q but Find(%q) = %v, %q, %v", said, loc, name, name, again, same, err)
			}
			return
		}
		var refused *Error
		if !errors.As(err, &refused) || refused.Kind == 0 || refused.Kind == Missing || refused.Error() == "" {
			t.Fatalf("Find(%q): %#v", said, err)
		}
		if len(refused.Suggestions) > most {
			t.Fatalf("Find(%q) suggests %d zones", said, len(refused.Suggestions))
		}
		for _, s := range refused.Suggestions {
			if _, name, err := Find(s); err != nil || name != s {
				t.Fatalf("Find(%q) suggests %q, which gives %q, %v", said, s, name, err)
			}
		}
	})
}

func TestCache(t *testing.T) {
	var c Cache
	first, err := c.Location("Europe/Berlin")
	if err != nil || first.String() != "Europe/Berlin" {
		t.Fatalf("%v, %v", first, err)
	}
	if again, _ := c.Location("Europe/Berlin"); again != first {
		t.Error("loaded twice")
	}
	for _, name := range []string{"", "Local", "berlin", "../Europe/Berlin", "Nowhere/Here"} {
		var refused *Error
		if loc, err := c.Location(name); !errors.As(err, &refused) || refused.Kind != Unknown {
			t.Errorf("Location(%q) = %v, %v", name, loc, err)
		}
	}
}

var sink *time.Location

func BenchmarkFind(b *testing.B) {
	for _, said := range []string{"Europe/Berlin", "new york", "new yrok"} {
		b.Run(said, func(b *testing.B) {
			for b.Loop() {
				sink, _, _ = Find(said)
			}
		})
	}
}

func BenchmarkCache(b *testing.B) {
	var c Cache
	for b.Loop() {
		sink, _ = c.Location("America/New_York")
	}
}
