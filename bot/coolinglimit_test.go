package bot_test

import (
	"strings"
	"testing"
	"time"
)

// What nobody read is held to both limits of the rule for the cure: the first window's
// time over its end, and the time of all of them. Source: FSIS Appendix B (for cured
// meat second-hand, not checked against the text).
func TestTheWordNamesBothLimits(t *testing.T) {
	for _, c := range []struct{ units, says string }{
		{"us", "over 80 °F for more than 5 hours, or warm for more than 15 hours in all"},
		{"metric", "over 26.7 °C for more than 5 hours, or warm for more than 15 hours in all"},
	} {
		b := outOfSmoke(t, "5 lb juniper 1 in", after{0, c.units})
		b.clock.At = b.clock.At.Add(16 * time.Hour)
		for _, line := range []string{"cooled", "cooled 1 cold in time"} {
			if r := b.say(line).Text(); !strings.Contains(r, c.says) {
				t.Errorf("%s, %q: want %q:\n%s", c.units, line, c.says, r)
			}
		}
	}
}
