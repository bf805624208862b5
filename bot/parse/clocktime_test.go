package parse

import (
	"testing"
	"time"
	_ "time/tzdata"

	"pgregory.net/rapid"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}

func TestClockTime(t *testing.T) {
	// Wednesday.
	now := time.Date(2027, 3, 3, 9, 15, 0, 0, zone(t, "Europe/Vienna"))
	for in, want := range map[string]string{
		"18:00":                      "2027-03-03 18:00",
		"08:00":                      "2027-03-03 08:00",
		"8am":                        "2027-03-03 08:00",
		"8 AM":                       "2027-03-03 08:00",
		"8 a.m.":                     "2027-03-03 08:00",
		"8.30 pm":                    "2027-03-03 20:30",
		"8:30pm":                     "2027-03-03 20:30",
		"8.30":                       "2027-03-03 08:30",
		"at 8.10":                    "2027-03-03 08:10",
		"12am":                       "2027-03-03 00:00",
		"12 pm":                      "2027-03-03 12:00",
		"noon":                       "2027-03-03 12:00",
		"midnight":                   "2027-03-04 00:00",
		"18h":                        "2027-03-03 18:00",
		"18h30":                      "2027-03-03 18:30",
		"six o'clock":                "2027-03-03 06:00",
		"8 in the evening":           "2027-03-03 20:00",
		"this evening at 8":          "2027-03-03 20:00",
		"tonight 8":                  "2027-03-03 20:00",
		"last night 11":              "2027-03-02 23:00",
		"yesterday 18:00":            "2027-03-02 18:00",
		"Yesterday at 6 pm":          "2027-03-02 18:00",
		"18:00 yesterday":            "2027-03-02 18:00",
		"yesterday":                  "2027-03-02 09:15",
		"yesterday evening 6":        "2027-03-02 18:00",
		"the day before yesterday":   "2027-03-01 09:15",
		"today 7":                    "2027-03-03 07:00",
		"tomorrow 07:00":             "2027-03-04 07:00",
		"friday 18:00":               "2027-03-05 18:00",
		"on Friday at 18:00":         "2027-03-05 18:00",
		"wed 8:00":                   "2027-03-03 08:00",
		"last friday 18:00":          "2027-02-26 18:00",
		"next wednesday 08:00":       "2027-03-10 08:00",
		"2027-03-01 09:00":           "2027-03-01 09:00",
		"2027-03-01T09:00":           "2027-03-01 09:00",
		"2027-03-01T09:00:00-06:00":  "2027-03-01 16:00",
		"2027-03-01t09:00:00z":       "2027-03-01 10:00",
		"3h ago":                     "2027-03-03 06:15",
		"half an hour ago":           "2027-03-03 08:45",
		"1d ago":                     "2027-03-02 09:15",
		"in 2h":                      "2027-03-03 11:15",
		"in 1 h 30":                  "2027-03-03 10:45",
		"2h from now":                "2027-03-03 11:15",
		"in 3 days":                  "2027-03-06 09:15",
		"now":                        "2027-03-03 09:15",
		"just now":                   "2027-03-03 09:15",
		"24 December":                "2027-12-24 09:15",
		"24 december 18:00":          "2027-12-24 18:00",
		"24th of Dec. 2028 at 6pm":   "2028-12-24 18:00",
		"December 24, 2028 18:00":    "2028-12-24 18:00",
		"dec 24":                     "2027-12-24 09:15",
		"2 January":                  "2028-01-02 09:15",
		"29 February":                "2028-02-29 09:15",
		"24.12. 18:00":               "2027-12-24 18:00",
		"24.12":                      "2027-12-24 09:15",
		"24.12.2027":                 "2027-12-24 09:15",
		"24.12.2027, 18:00":          "2027-12-24 18:00",
		"12/24/2027 6 pm":            "2027-12-24 18:00",
		"24/12 18:00":                "2027-12-24 18:00",
		"friday 24 December":         "2027-12-24 09:15",
		"\u00a0１８：００ ":               "2027-03-03 18:00",
		"9:05:30 pm":                 "2027-03-03 21:05",
		"quarter of an hour ago":     "2027-03-03 09:00",
		"an hour and a half ago":     "2027-03-03 07:45",
		"2 hours and 15 minutes ago": "2027-03-03 07:00",
	} {
		got, err := ClockTime(in, now)
		if err != nil || got.Format("2006-01-02 15:04") != want {
			t.Errorf("ClockTime(%q) = %v, %v; want %s", in, got, err, want)
		}
	}
	for in, want := range map[string]Kind{
		"": Empty, "7": Ambiguous, "8.10": NotATime, "25:00": NotATime, "18:75": NotATime, "13 pm": NotATime, "0am": NotATime,
		"30 February": NotATime, "29 February 2027": NotATime, "3/1/2027": NotATime, "3/1": NotATime, "32.1.2027": NotATime,
		"next friday 8:00": NotATime, "soon": NotATime, "tonight": NotATime, "friday midnight": NotATime, "thursday 24 December": NotATime,
		"-1h ago": Negative, "2027-13-01": NotATime, "1/2/27": NotATime, "18:00 19:00": NotATime, "today 2027-03-01": NotATime,
		"18:00 juniper": UnknownWord, "1999-01-01 08:00": NotATime, "1000000h ago": TooBig, "tomorrow 18:0": NotATime,
		"18:00:75": NotATime, "morning 13:00": NotATime,
	} {
		if got, err := ClockTime(in, now); kindOf(err) != want {
			t.Errorf("ClockTime(%q) = %v, %v (%v), want %v", in, got, err, kindOf(err), want)
		}
	}
}

func TestClockTimeLeans(t *testing.T) {
	now := time.Date(2027, 3, 3, 0, 40, 0, 0, zone(t, "America/Chicago")) // Wednesday, after midnight
	rows := []struct {
		in, past, upcoming string
	}{
		{"23:50", "2027-03-02 23:50", "2027-03-03 23:50"},
		{"00:30", "2027-03-03 00:30", "2027-03-04 00:30"},
		{"friday 18:00", "2027-02-26 18:00", "2027-03-05 18:00"},
		{"wednesday 00:10", "2027-03-03 00:10", "2027-03-10 00:10"},
		{"24 December", "2026-12-24 00:40", "2027-12-24 00:40"},
		{"09:00", "in the future", "2027-03-03 09:00"},
		{"yesterday 18:00", "2027-03-02 18:00", "in the past"},
		{"in 2h", "in the future", "2027-03-03 02:40"},
		{"2h ago", "2027-03-02 22:40", "in the past"},
		{"now", "2027-03-03 00:40", "in the past"},
		{"2027-03-01T09:00:00-06:00", "2027-03-01 09:00", "in the past"},
		{"midnight", "2027-03-03 00:00", "2027-03-04 00:00"},
	}
	show := func(at time.Time, err error) string {
		if err != nil {
			return kindOf(err).String()
		}
		return at.Format("2006-01-02 15:04")
	}
	for _, r := range rows {
		if got := show(Past(r.in, now)); got != r.past {
			t.Errorf("Past(%q) = %s, want %s", r.in, got, r.past)
		}
		if got := show(Upcoming(r.in, now)); got != r.upcoming {
			t.Errorf("Upcoming(%q) = %s, want %s", r.in, got, r.upcoming)
		}
	}
}

// The changes of clocks are those of the IANA time zone database, 2024 rules.
func TestClockTimeChanges(t *testing.T) {
	rows := []struct{ zone, now, in, want string }{
		{"Europe/Berlin", "2027-03-28 00:30", "02:30", "2027-03-28T03:00:00+02:00"},
		{"America/New_York", "2027-03-14 00:30", "02:30", "2027-03-14T03:00:00-04:00"},
		{"America/Havana", "2027-03-13 12:00", "2027-03-14 00:30", "2027-03-14T01:00:00-04:00"},
		{"Europe/Berlin", "2027-10-31 00:30", "02:30", "2027-10-31T02:30:00+02:00"},
		{"America/New_York", "2027-11-07 00:30", "01:30", "2027-11-07T01:30:00-04:00"},
		{"Australia/Lord_Howe", "2027-10-02 12:00", "tomorrow 02:15", "2027-10-03T02:30:00+11:00"},
		{"Pacific/Apia", "2011-12-29 12:00", "tomorrow 08:00", "2011-12-31T00:00:00+14:00"},
		{"Europe/Berlin", "2027-03-27 18:00", "in 1d", "2027-03-28T18:00:00+02:00"},
		{"Europe/Berlin", "2027-03-27 18:00", "in 24h", "2027-03-28T19:00:00+02:00"},
	}
	for _, r := range rows {
		loc := zone(t, r.zone)
		now, err := time.ParseInLocation("2006-01-02 15:04", r.now, loc)
		if err != nil {
			t.Fatal(err)
		}
		got, err := ClockTime(r.in, now)
		if err != nil || got.Format(time.RFC3339) != r.want {
			t.Errorf("%s: ClockTime(%q) = %v, %v; want %s", r.zone, r.in, got, err, r.want)
		}
	}
}

// Whatever date and minute is written in full is read back, in zones with odd
// offsets too; where the clocks skip it, the moment is the end of the gap.
func TestClockTimeRoundTrip(t *testing.T) {
	var zones []*time.Location
	for _, n := range []string{"UTC", "America/Chicago", "Europe/Vienna", "America/St_Johns", "Australia/Lord_Howe", "Asia/Kathmandu", "America/Havana"} {
		zones = append(zones, zone(t, n))
	}
	rapid.Check(t, func(t *rapid.T) {
		loc := rapid.SampledFrom(zones).Draw(t, "zone")
		want := time.Unix(rapid.Int64Range(946771200, 4102444800).Draw(t, "seconds")/60*60, 0).In(loc)
		now := time.Unix(rapid.Int64Range(946771200, 4102444800).Draw(t, "now"), 0).In(loc)
		layout := rapid.SampledFrom([]string{"2006-01-02 15:04", "2.1.2006 15:04", "2 January 2006 3:04 PM", "15:04 on Jan 2 2006", "Monday 2 Jan 2006 at 15:04"}).Draw(t, "layout")
		got, err := ClockTime(want.Format(layout), now)
		if err != nil || got.Format(layout) != want.Format(layout) || got.After(want) {
			t.Fatalf("%s reads %v, %v", want.Format(layout), got, err)
		}
		if exact, err := ClockTime(want.Format(time.RFC3339), now); err != nil || !exact.Equal(want) {
			t.Fatalf("%s reads %v, %v", want.Format(time.RFC3339), exact, err)
		}
	})
}

func FuzzClockTime(f *testing.F) {
	seeds(f, "18:00", "8.30 pm", "friday 18:00", "24.12.2027", "2027-03-01T09:00:00-06:00", "in 1 h 30", "last night 11", "3/1", "29 February", "8 in the evening", "next monday", "midnight", "99:99:99")
	loc := zone(f, "America/Havana")
	f.Fuzz(func(t *testing.T, s string) {
		for _, now := range []time.Time{noon(), time.Date(2027, 3, 13, 23, 59, 59, 0, loc)} {
			// An example has to work at noon of any day; just before midnight a
			// coming time may not be left today.
			at, err := ClockTime(s, now)
			if err != nil {
				checkProblem(t, s, err, func(s string) error { _, err := ClockTime(s, noon()); return err })
			} else if at.Year() < 2000 || at.Year() > 2199 || at.Location() != now.Location() {
				t.Fatalf("ClockTime(%q) = %v", s, at)
			}
			if err == nil && at.Second() == 0 {
				if back, err := ClockTime(at.Format("2006-01-02 15:04"), now); err != nil || back.Format("2006-01-02 15:04") != at.Format("2006-01-02 15:04") {
					t.Fatalf("ClockTime(%q) = %v, written and read again %v, %v", s, at, back, err)
				}
			}
			if at, err := Past(s, now); err == nil && at.After(now) {
				t.Fatalf("Past(%q) = %v, now %v", s, at, now)
			} else if err != nil {
				checkProblem(t, s, err, func(s string) error { _, err := Past(s, noon()); return err })
			}
			if at, err := Upcoming(s, now); err == nil && !at.After(now) {
				t.Fatalf("Upcoming(%q) = %v, now %v", s, at, now)
			} else if err != nil {
				checkProblem(t, s, err, func(s string) error { _, err := Upcoming(s, noon()); return err })
			}
		}
	})
}

func BenchmarkClockTime(b *testing.B) {
	now := noon()
	for b.Loop() {
		if _, err := ClockTime("friday at 8.30 pm", now); err != nil {
			b.Fatal(err)
		}
	}
}
