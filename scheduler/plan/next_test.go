package plan

import (
	"testing"
	"time"
)

func TestNextDaily(t *testing.T) {
	for _, c := range []struct {
		why, zone, after, at, last string
		wantDate, want             string
	}{
		{"later today", "Europe/Berlin", "2027-03-01T07:59:59+01:00", "08:00", "", "2027-03-01", "2027-03-01T08:00:00+01:00"},
		{"strictly after", "Europe/Berlin", "2027-03-01T08:00:00+01:00", "08:00", "", "2027-03-02", "2027-03-02T08:00:00+01:00"},
		{"today is done", "Europe/Berlin", "2027-03-01T06:00:00+01:00", "08:00", "2027-03-01", "2027-03-02", "2027-03-02T08:00:00+01:00"},
		{"done ahead", "Europe/Berlin", "2027-03-01T06:00:00+01:00", "08:00", "2027-03-03", "2027-03-04", "2027-03-04T08:00:00+01:00"},
		{"missed days are skipped", "Europe/Berlin", "2027-03-05T12:00:00+01:00", "08:00", "2027-03-01", "2027-03-06", "2027-03-06T08:00:00+01:00"},
		{"clock set back, dates go on", "Europe/Berlin", "2027-02-28T12:00:00+01:00", "08:00", "2027-03-01", "2027-03-02", "2027-03-02T08:00:00+01:00"},
		{"over the gap", "America/New_York", "2027-03-13T12:00:00-05:00", "02:30", "", "2027-03-14", "2027-03-14T03:00:00-04:00"},
		{"between the two of an overlap", "America/New_York", "2027-11-07T01:50:00-04:00", "01:45", "", "2027-11-08", "2027-11-08T01:45:00-05:00"},
		{"over a date left out", "Pacific/Apia", "2011-12-29T08:00:00-10:00", "08:00", "2011-12-29", "2011-12-31", "2011-12-31T08:00:00+14:00"},
		{"over an evening left out", "America/Nuuk", "2027-03-27T12:00:00-02:00", "23:30", "", "2027-03-28", "2027-03-28T23:30:00-01:00"},
		{"after a move east", "Europe/Berlin", "2027-03-01T08:00:00-05:00", "08:00", "2027-03-01", "2027-03-02", "2027-03-02T08:00:00+01:00"},
		{"after a move west", "America/New_York", "2027-03-02T08:00:00+01:00", "08:00", "2027-03-02", "2027-03-03", "2027-03-03T08:00:00-05:00"},
	} {
		t.Run(c.why, func(t *testing.T) {
			var last Date
			if c.last != "" {
				last = date(t, c.last)
			}
			d, at := NextDaily(instant(t, c.after), clock(t, c.at), zone(t, c.zone), last)
			if d.String() != c.wantDate || !at.Equal(instant(t, c.want)) {
				t.Errorf("%v at %v, want %s at %s", d, at, c.wantDate, c.want)
			}
		})
	}
}

func TestNextDailyInNoSuchPlace(t *testing.T) {
	loc := time.FixedZone("elsewhere", 500*3600)
	if d, at := NextDaily(instant(t, "2027-03-01T08:00:00Z"), 480, loc, Date{}); !d.IsZero() || !at.IsZero() {
		t.Errorf("%v at %v", d, at)
	}
}
