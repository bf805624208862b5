package plan

import (
	"testing"
	"time"
)

// The transitions are those of the IANA time zone database.
func TestPushOut(t *testing.T) {
	for _, c := range []struct {
		why, zone, from, to, at string
		want                    string // empty when at is not quiet
	}{
		{"an ordinary night, before midnight", "Europe/Berlin", "22:00", "07:00", "2027-03-01T23:15:20+01:00", "2027-03-02T07:00:00+01:00"},
		{"an ordinary night, after midnight", "Europe/Berlin", "22:00", "07:00", "2027-03-02T03:00:00+01:00", "2027-03-02T07:00:00+01:00"},
		{"its first second", "Europe/Berlin", "22:00", "07:00", "2027-03-01T22:00:00+01:00", "2027-03-02T07:00:00+01:00"},
		{"the second before", "Europe/Berlin", "22:00", "07:00", "2027-03-01T21:59:59+01:00", ""},
		{"its end", "Europe/Berlin", "22:00", "07:00", "2027-03-02T07:00:00+01:00", ""},
		{"within a day", "Europe/Berlin", "12:00", "14:00", "2027-03-02T13:00:00+01:00", "2027-03-02T14:00:00+01:00"},
		{"none", "Europe/Berlin", "08:00", "08:00", "2027-03-02T08:00:00+01:00", ""},
		{"to midnight", "Europe/Berlin", "20:00", "00:00", "2027-03-02T23:00:00+01:00", "2027-03-03T00:00:00+01:00"},
		{"the short night", "Europe/Berlin", "22:00", "07:00", "2027-03-27T23:00:00+01:00", "2027-03-28T07:00:00+02:00"},
		{"ends in the gap", "Europe/Berlin", "22:00", "02:30", "2027-03-27T23:00:00+01:00", "2027-03-28T03:00:00+02:00"},
		{"the long night", "America/New_York", "22:00", "07:00", "2027-11-06T23:00:00-04:00", "2027-11-07T07:00:00-05:00"},
		{"ends in the overlap: the first time", "America/New_York", "22:00", "01:30", "2027-11-06T23:00:00-04:00", "2027-11-07T01:30:00-04:00"},
		{"begins again in the overlap", "America/New_York", "22:00", "01:30", "2027-11-07T01:10:00-05:00", "2027-11-07T01:30:00-05:00"},
		{"ends at a midnight that is not there", "America/Havana", "21:00", "00:00", "2027-03-13T22:00:00-05:00", "2027-03-14T01:00:00-04:00"},
		{"across a date left out", "Pacific/Apia", "22:00", "07:00", "2011-12-29T23:00:00-10:00", "2011-12-31T07:00:00+14:00"},
	} {
		t.Run(c.zone+" "+c.why, func(t *testing.T) {
			loc, at := zone(t, c.zone), instant(t, c.at)
			q := Quiet{From: clock(t, c.from), To: clock(t, c.to)}
			want := at
			if c.want != "" {
				want = instant(t, c.want)
			}
			if got := q.Contains(at, loc); got != (c.want != "") {
				t.Errorf("Contains = %v", got)
			}
			if got := q.PushOut(at, loc); !got.Equal(want) {
				t.Errorf("%v, want %v", got, want)
			}
		})
	}
}

func TestQuietZero(t *testing.T) {
	if (Quiet{}).Contains(time.Unix(0, 0), nil) {
		t.Error("no quiet time contains midnight")
	}
}
