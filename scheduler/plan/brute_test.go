package plan

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// nastyZones have changes at midnight, across it, by half an hour, by a day, by
// seconds, or several times a year.
var nastyZones = []string{
	"America/Havana", "America/Santiago", "America/Nuuk", "America/St_Johns", "America/Asuncion", "America/New_York",
	"America/Juneau", "Africa/Casablanca", "Africa/Cairo", "Africa/Monrovia", "Asia/Beirut", "Asia/Gaza", "Asia/Tehran",
	"Asia/Manila", "Asia/Kathmandu", "Australia/Lord_Howe", "Antarctica/Troll", "Antarctica/Casey", "Europe/Berlin",
	"Europe/Dublin", "Pacific/Apia", "Pacific/Kwajalein", "Pacific/Auckland", "UTC",
}

func anyZone(t *rapid.T) *time.Location {
	name := rapid.SampledFrom(nastyZones).Draw(t, "zone")
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}

// anyInstant is often close to a change of the clocks.
func anyInstant(t *rapid.T, loc *time.Location) time.Time {
	at := time.Unix(rapid.Int64Range(-4_000_000_000, 2_600_000_000).Draw(t, "seconds"), 0)
	if _, end := at.In(loc).ZoneBounds(); !end.IsZero() && rapid.IntRange(0, 3).Draw(t, "near") > 0 {
		at = end.Add(time.Duration(rapid.IntRange(-30*3600, 30*3600).Draw(t, "beside")) * time.Second)
	}
	return at
}

func anyHour(t *rapid.T, label string) HourMinute {
	usual := []HourMinute{0, 1, 30, 105, 120, 150, 180, 480, 1380, 1410, 1439}
	if rapid.Bool().Draw(t, label+" usual") {
		return rapid.SampledFrom(usual).Draw(t, label)
	}
	return HourMinute(rapid.IntRange(0, 1439).Draw(t, label))
}

// bySeconds finds the instant by looking at the wall clock every second.
func bySeconds(d Date, hm HourMinute, loc *time.Location) (int64, bool) {
	midnight := d.midnight().Unix()
	for at := midnight - 17*3600; at < midnight+41*3600; at++ {
		_, offset := time.Unix(at, 0).In(loc).Zone()
		if shown := at + int64(offset) - midnight; shown >= int64(hm)*60 && shown < secondsPerDay {
			return at, true
		}
	}
	return 0, false
}

func TestInstantAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loc := anyZone(t)
		d := DateOf(anyInstant(t, loc), loc).AddDays(rapid.IntRange(-1, 1).Draw(t, "days"))
		hm := anyHour(t, "hour")
		got, ok := Instant(d, hm, loc)
		want, exists := bySeconds(d, hm, loc)
		if ok != exists || ok && (got.Unix() != want || got.Nanosecond() != 0) {
			t.Fatalf("%v %v %v: %v, %v, by brute force %v, %v", loc, d, hm, got, ok, time.Unix(want, 0).In(loc), exists)
		}
	})
}

// NextDaily leaves out no date that still has an instant to come, and gives none
// twice.
func TestNextDailyLeavesNothingOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loc := anyZone(t)
		after, hm := anyInstant(t, loc), anyHour(t, "hour")
		var last Date
		if rapid.Bool().Draw(t, "has last") {
			last = DateOf(after, loc).AddDays(rapid.IntRange(-3, 3).Draw(t, "last"))
		}
		d, at := NextDaily(after, hm, loc, last)
		if !at.After(after) || !last.IsZero() && !d.After(last) || DateOf(at, loc) != d {
			t.Fatalf("%v after %v: %v at %v", loc, after, d, at)
		}
		for earlier := DateOf(after, loc).AddDays(-2); earlier.Before(d); earlier = earlier.AddDays(1) {
			if !last.IsZero() && !earlier.After(last) {
				continue
			}
			if missed, ok := Instant(earlier, hm, loc); ok && missed.After(after) {
				t.Fatalf("%v after %v: %v, leaving out %v at %v", loc, after, d, earlier, missed)
			}
		}
	})
}

func TestPushOutAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loc := anyZone(t)
		at := anyInstant(t, loc).Add(time.Duration(rapid.IntRange(0, 999_999_999).Draw(t, "nanoseconds")))
		q := Quiet{From: anyHour(t, "from"), To: anyHour(t, "to")}
		got := q.PushOut(at, loc)
		if !q.Contains(at, loc) {
			if !got.Equal(at) {
				t.Fatalf("%v not quiet, pushed to %v", at, got)
			}
			return
		}
		want := at.Unix() + 1
		for q.Contains(time.Unix(want, 0), loc) {
			want++
		}
		if !got.Equal(time.Unix(want, 0)) {
			t.Fatalf("%v %v: %v pushed to %v, by brute force %v", loc, q, at.In(loc), got, time.Unix(want, 0).In(loc))
		}
	})
}

// FuzzInstant holds that no date, hour or offset panics or hangs, and that what
// comes out is on the date.
func FuzzInstant(f *testing.F) {
	f.Add(2027, 3, 28, 150, 3600)
	f.Add(1<<62, 1<<62, -1<<62, -1, -1<<31)
	f.Add(-292277022400, 1, 1, 0, 0)
	f.Fuzz(func(t *testing.T, year, month, day, hm, offset int) {
		d := Date{year, time.Month(month), day}
		for _, loc := range []*time.Location{nil, time.FixedZone("odd", offset), zone(t, "Europe/Berlin")} {
			at, ok := Instant(d, HourMinute(hm), loc)
			plain := d.AddDays(0) == d && year > -1_000_000 && year < 1_000_000
			if ok && plain && DateOf(at, loc) != d {
				t.Fatalf("%v %d in %v: %v", d, hm, loc, at)
			}
			NextDaily(at, HourMinute(hm), loc, d)
			Quiet{HourMinute(hm), HourMinute(day)}.PushOut(d.midnight(), loc)
		}
	})
}
