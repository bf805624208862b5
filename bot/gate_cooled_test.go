package bot_test

import (
	"strings"
	"testing"
	"time"
)

// The word stands for a reading only once a slab can be cold, and then for good: up to
// the label. The hours are an estimate, common practice, no source.
func TestTheWordIsNotTakenTooSoon(t *testing.T) {
	for _, c := range []struct {
		cure  string
		core  string // read at the end of the smoke, if any
		hours float64
		taken bool
	}{
		{"5 lb juniper 1 in", "", 1, false},
		{"5 lb juniper 1 in", "", 2, false},
		{"5 lb juniper 1 in", "", 4, true},
		{"5 lb juniper 2.5 in", "", 5, false},
		{"5 lb juniper 2.5 in", "", 8, true},
		{"5 lb juniper 3 in", "", 14, true},
		{"5 lb juniper 1 in", "core 118", 2, false},
		{"5 lb juniper 1 in", "core 118", 3.5, false},
		{"5 lb juniper 1 in", "core 118", 12, true},
	} {
		b := outOfSmoke(t, c.cure)
		if c.core != "" {
			b.clock.At = b.clock.At.Add(time.Hour)
			b.say(c.core)
		}
		b.clock.At = b.clock.At.Add(time.Duration(c.hours * float64(time.Hour)))
		r := b.say("cooled 1 cold in time").Text()
		if got := strings.Contains(r, "Batch 1 (juniper): cooled."); got != c.taken {
			t.Errorf("%s, %q, %g h after: taken %v, want %v\n%s", c.cure, c.core, c.hours, got, c.taken, r)
		}
		if !c.taken && (!strings.Contains(r, "not before") || !strings.Contains(r, "`core 1 41`") && !strings.Contains(r, "core 1 41")) {
			t.Errorf("%s, %q, %g h after: it does not say what to do:\n%s", c.cure, c.core, c.hours, r)
		}
		if !c.taken {
			continue
		}
		for _, l := range []after{{12, "chilled"}, {1, "slice 4 mm"}, {1, "pack 1 4 lb"}} {
			b.clock.At = b.clock.At.Add(time.Duration(l.hours * float64(time.Hour)))
			b.say(l.line)
		}
		if r := b.say("label 1").Text(); !strings.Contains(r, "Cooling not shown by readings") {
			t.Errorf("%s, %q: no way to the label, or it shows nothing:\n%s", c.cure, c.core, r)
		}
	}
	b := outOfSmoke(t, "5 lb juniper 1 in", after{1, "core 118"}, after{12, "cooled 1 cold in time"}, after{12, "core 60"}, after{0, "keep"}, after{1, "chilled"}, after{1, "slice 4 mm"})
	if r := b.say("pack 1 4 lb").Text(); strings.Contains(r, "packed.") {
		t.Errorf("a warm core after the word is passed over:\n%s", r)
	}
}
