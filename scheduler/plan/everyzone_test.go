package plan_test

import (
	"archive/zip"
	"io"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"larderhand/scheduler/plan"
	"larderhand/scheduler/plan/zone"
)

// pingHours are the times of day clocks are known to skip or repeat, and a usual
// one.
var pingHours = []plan.HourMinute{0, 30, 105, 150, 480} // 00:00 00:30 01:45 02:30 08:00

// TestEveryZoneForTenYears walks a daily chore through every zone of the zone
// data (IANA time zone database, as embedded in Go) and every date from 2025 to
// 2034, and holds each instant against the wall clock. Near a change of the
// clocks the expected instant is found by looking at the wall clock minute by
// minute. Under -short it is every tenth zone.
func TestEveryZoneForTenYears(t *testing.T) {
	data := embeddedZones(t)
	first, end := plan.Date{Year: 2025, Month: time.January, Day: 1}, plan.Date{Year: 2035, Month: time.January, Day: 1}
	names, walked := zone.Names(), map[string]string{}
	if len(names) <= 400 { // the database has had more since the nineties
		t.Fatalf("only %d zones", len(names))
	}
	for _, name := range names {
		loc, err := time.LoadLocationFromTZData(name, data[name])
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		// Many names are the same zone to the last byte.
		if walked[string(data[name])] != "" {
			continue
		}
		walked[string(data[name])] = name
		if testing.Short() && len(walked)%10 != 0 {
			continue
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			near := nearChanges(loc, first, end)
			for i := range pingHours {
				walk(t, loc, first, end, i, near)
			}
		})
	}
	if len(walked) < 300 {
		t.Errorf("only %d zones differ", len(walked))
	}
}

// walk takes the chore of the i-th ping hour through every date.
func walk(t *testing.T, loc *time.Location, first, end plan.Date, i int, near map[plan.Date]brute) {
	hm := pingHours[i]
	at := time.Date(2024, time.December, 1, 0, 0, 0, 0, time.UTC)
	last := first.AddDays(-1)
	for d := first; d.Before(end); d = d.AddDays(1) {
		got, next := plan.NextDaily(at, hm, loc, last)
		if got != d {
			t.Fatalf("%v: %v follows %v", hm, got, last)
		}
		if !next.After(at) {
			t.Fatalf("%v %v: %v is not after %v", d, hm, next, at)
		}
		wantAt, wantShown := next.Unix(), hm
		if b, changed := near[d]; changed {
			wantAt, wantShown = b.at[i], b.shown[i]
		}
		// Seconds after midnight of d on the wall: of another date, they would be
		// below zero or past a day's worth.
		_, offset := next.Zone()
		shown := next.Unix() + int64(offset) - midnight(d)
		if shown != int64(wantShown)*60 || next.Nanosecond() != 0 {
			t.Fatalf("%v %v: landed on %v, want %v shown", d, hm, next, wantShown)
		}
		if next.Unix() != wantAt {
			t.Fatalf("%v %v: %v, by brute force %v", d, hm, next, time.Unix(wantAt, 0).In(loc))
		}
		at, last = next, d
	}
}

// brute holds, for each of the ping hours, the first minute of a date at which
// the wall clock shows that hour or later.
type brute struct {
	at    [5]int64
	shown [5]plan.HourMinute
	found [5]bool
}

// nearChanges looks at every minute around every change of the offset, and gives
// what it saw for the date of the change, the one before and the one after.
func nearChanges(loc *time.Location, first, end plan.Date) map[plan.Date]brute {
	const step = 6 * 60 * 60
	seen := map[plan.Date]brute{}
	offset := func(at int64) int64 {
		_, o := time.Unix(at, 0).In(loc).Zone()
		return int64(o)
	}
	from := time.Date(first.Year, first.Month, first.Day-3, 0, 0, 0, 0, time.UTC).Unix()
	to := time.Date(end.Year, end.Month, end.Day+3, 0, 0, 0, 0, time.UTC).Unix()
	for at, was := from, offset(from); at < to; at += step {
		now := offset(at)
		if now == was {
			continue
		}
		was = now
		day := plan.DateOf(time.Unix(at, 0), loc)
		lookAround(day, offset, seen)
	}
	return seen
}

// lookAround looks at every minute of a date, the one before and the one after.
func lookAround(day plan.Date, offset func(int64) int64, seen map[plan.Date]brute) {
	const fullDay = 24 * 60 * 60
	dates := []plan.Date{day.AddDays(-1), day, day.AddDays(1)}
	looks := make([]brute, len(dates))
	start := midnight(dates[0])
	for at := start - 16*60*60; at < start+3*fullDay+16*60*60; at += 60 {
		shown := at + offset(at) - start
		if shown < 0 || shown >= 3*fullDay {
			continue
		}
		look, clock := &looks[shown/fullDay], plan.HourMinute(shown%fullDay/60)
		for i, hm := range pingHours {
			if !look.found[i] && clock >= hm {
				look.at[i], look.shown[i], look.found[i] = at, clock, true
			}
		}
	}
	for i, d := range dates {
		seen[d] = looks[i]
	}
}

func midnight(d plan.Date) int64 {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).Unix()
}

// embeddedZones reads the very data Go embeds, not what the machine has
// installed, which may be older.
func embeddedZones(t *testing.T) map[string][]byte {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal("go env GOROOT: ", err)
	}
	r, err := zip.OpenReader(filepath.Join(strings.TrimSpace(string(root)), "lib", "time", "zoneinfo.zip"))
	if err != nil {
		t.Fatal("the zone data that comes with Go: ", err)
	}
	defer r.Close()
	data := map[string][]byte{}
	for _, f := range r.File {
		file, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if data[f.Name], err = io.ReadAll(file); err != nil {
			t.Fatal(err)
		}
	}
	return data
}
