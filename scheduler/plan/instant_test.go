package plan

import (
	"testing"
	"time"
	_ "time/tzdata" // zone data must not depend on the machine
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}

func date(t testing.TB, s string) Date {
	t.Helper()
	d, err := ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func clock(t testing.TB, s string) HourMinute {
	t.Helper()
	hm, err := ParseHourMinute(s)
	if err != nil {
		t.Fatal(err)
	}
	return hm
}

func instant(t testing.TB, s string) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339, s)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

// The transitions are those of the IANA time zone database (tzdata, files
// africa, asia, australasia, europe, northamerica, southamerica).
func TestInstant(t *testing.T) {
	for _, c := range []struct {
		why, zone, date, at string
		want                string // empty when the date has no such instant
	}{
		{"an ordinary day", "Europe/Berlin", "2027-03-01", "08:00", "2027-03-01T08:00:00+01:00"},
		{"the day clocks go forward, after the gap", "Europe/Berlin", "2027-03-28", "08:00", "2027-03-28T08:00:00+02:00"},
		{"in the gap 02:00 to 03:00", "Europe/Berlin", "2027-03-28", "02:30", "2027-03-28T03:00:00+02:00"},
		{"at the start of the gap", "Europe/Berlin", "2027-03-28", "02:00", "2027-03-28T03:00:00+02:00"},
		{"the last minute before the gap", "Europe/Berlin", "2027-03-28", "01:59", "2027-03-28T01:59:00+01:00"},
		{"in the overlap 02:00 to 03:00", "Europe/Berlin", "2027-10-31", "02:30", "2027-10-31T02:30:00+02:00"},
		{"after the overlap", "Europe/Berlin", "2027-10-31", "03:00", "2027-10-31T03:00:00+01:00"},
		{"in the gap 02:00 to 03:00", "America/New_York", "2027-03-14", "02:30", "2027-03-14T03:00:00-04:00"},
		{"in the overlap 01:00 to 02:00", "America/New_York", "2027-11-07", "01:45", "2027-11-07T01:45:00-04:00"},
		{"no midnight: 00:00 to 01:00 missing", "America/Havana", "2027-03-14", "00:00", "2027-03-14T01:00:00-04:00"},
		{"midnight twice: 01:00 back to 00:00", "America/Havana", "2027-11-07", "00:00", "2027-11-07T00:00:00-04:00"},
		{"no midnight: 00:00 to 01:00 missing", "America/Santiago", "2027-09-05", "00:30", "2027-09-05T01:00:00-03:00"},
		{"24:00 back to 23:00 of the day before", "America/Santiago", "2027-04-04", "00:00", "2027-04-04T00:00:00-04:00"},
		{"the evening that comes twice", "America/Santiago", "2027-04-03", "23:30", "2027-04-03T23:30:00-03:00"},
		{"no midnight", "Asia/Beirut", "2027-03-28", "00:00", "2027-03-28T01:00:00+03:00"},
		{"last Friday of April, 00:00 to 01:00 missing", "Africa/Cairo", "2027-04-30", "00:30", "2027-04-30T01:00:00+03:00"},
		{"half-hour gap 02:00 to 02:30", "Australia/Lord_Howe", "2027-10-03", "02:15", "2027-10-03T02:30:00+11:00"},
		{"half-hour overlap 01:30 to 02:00", "Australia/Lord_Howe", "2027-04-04", "01:45", "2027-04-04T01:45:00+11:00"},
		{"the date the zone left out", "Pacific/Apia", "2011-12-30", "08:00", ""},
		{"the date before it", "Pacific/Apia", "2011-12-29", "08:00", "2011-12-29T08:00:00-10:00"},
		{"the date after it", "Pacific/Apia", "2011-12-31", "00:00", "2011-12-31T00:00:00+14:00"},
		{"a gap to midnight: 23:00 to 24:00 missing", "America/Nuuk", "2027-03-27", "23:30", ""},
		{"a gap to midnight: the last minute before", "America/Nuuk", "2027-03-27", "22:59", "2027-03-27T22:59:00-02:00"},
		{"a gap to midnight: the date after", "America/Nuuk", "2027-03-28", "00:00", "2027-03-28T00:00:00-01:00"},
		{"24:01 back to 23:01, date begun and taken back", "America/St_Johns", "2010-11-07", "00:00", "2010-11-07T00:00:00-02:30"},
		{"the same, for a minute not reached the first time", "America/St_Johns", "2010-11-07", "00:30", "2010-11-07T00:30:00-03:30"},
		{"seconds in the offset, local mean time", "Europe/Berlin", "1890-01-01", "08:00", "1890-01-01T07:06:32Z"},
		{"last day of a leap year under a yearly rule", "Europe/Berlin", "2048-12-31", "12:00", "2048-12-31T12:00:00+01:00"},
		{"last day of a leap year under a yearly rule", "Pacific/Auckland", "2048-12-31", "23:59", "2048-12-31T23:59:00+13:00"},
	} {
		t.Run(c.zone+" "+c.date+" "+c.at, func(t *testing.T) {
			got, ok := Instant(date(t, c.date), clock(t, c.at), zone(t, c.zone))
			if ok != (c.want != "") {
				t.Fatalf("%s: ok = %v, instant %v", c.why, ok, got)
			}
			if ok && !got.Equal(instant(t, c.want)) {
				t.Errorf("%s: %v, want %s", c.why, got.Format(time.RFC3339), c.want)
			}
		})
	}
}
