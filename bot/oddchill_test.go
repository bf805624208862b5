package bot_test

import (
	"strings"
	"testing"
	"time"
)

// A core read too cold while it cools is asked about, the colder the surer, and the
// other unit is named where it would do: °C typed where °F is set makes a warm slab
// look cold, which is the dangerous way round. Common practice, no source.
func TestAColdCoreIsDoubted(t *testing.T) {
	longTable(t)
	const min = time.Minute
	for _, c := range []struct {
		units, smoked string
		after         time.Duration
		core          string
		asked, other  string
	}{
		{"us", "151", 10 * min, "44", "faster than a slab", "44 °C"},
		{"us", "151", 30 * min, "40", "faster than a slab", "40 °C"},
		{"us", "151", 30 * min, "44", "faster than a slab", "44 °C"},
		{"us", "151", 30 * min, "60", "faster than a slab", "60 °C"},
		{"us", "151", 60 * min, "46", "faster than a slab", "46 °C"},
		{"us", "151", 60 * min, "60", "faster than a slab", "60 °C"},
		{"us", "151", 120 * min, "40", "faster than a slab", "40 °C"},
		{"us", "151", 120 * min, "50", "fast for a slab", "50 °C"},
		{"us", "151", 120 * min, "60", "fast for a slab", "60 °C"},
		{"us", "151", 90 * min, "112", "", ""},
		{"us", "151", 240 * min, "75", "", ""},
		{"us", "151", 360 * min, "44", "", ""},
		{"us", "", 30 * min, "44", "after a hot smoke", "44 °C"},
		{"us", "", 360 * min, "44", "", ""},
		{"metric", "66", 120 * min, "6", "faster than a slab", ""},
		{"metric", "66", 60 * min, "122", "", "122 °F"},
		{"metric", "66", 60 * min, "111", "over the boiling point", "111 °F"},
		{"metric", "66", 360 * min, "6", "", ""},
		{"metric", "66", 90 * min, "45", "", ""},
	} {
		b := smoking(t, "5 lb juniper 1 in")
		b.say(c.units)
		b.clock.At = b.clock.At.Add(12 * time.Hour)
		b.say(strings.TrimSpace("smoked 1 " + c.smoked))
		b.clock.At = b.clock.At.Add(c.after)
		said := b.say("core " + c.core).Text()
		if asked := strings.Contains(said, "keep"); asked != (c.asked != "") || !strings.Contains(said, c.asked) {
			t.Errorf("%s, %s, %v, core %s: asked %v, want %q\n%s", c.units, c.smoked, c.after, c.core, asked, c.asked, said)
		}
		if other := strings.Contains(said, "Did you mean"); other != (c.other != "") || !strings.Contains(said, c.other) {
			t.Errorf("%s, %s, %v, core %s: want the other unit %q\n%s", c.units, c.smoked, c.after, c.core, c.other, said)
		}
	}
}
