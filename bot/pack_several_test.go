package bot_test

import (
	"strings"
	"testing"
)

// A packing is of the piece its weight was told of, and the weight is of all of it.
func TestPackIsOfThePieceNamed(t *testing.T) {
	for _, c := range []struct{ line, of, says string }{
		{"pack 1 a 4 lb, b frozen", "", "nothing was recorded"},
		{"pack 1a 4 lb, c later", "", "nothing was recorded"},
		{"pack 1 8 lb, b frozen", "", "nothing was recorded"},
		{"pack 1a 4 lb in a bag", "a", "piece a"},
		{"pack 1 a 4 lb, b 4 lb frozen", "ab", ""},
		{"pack 1 2 packs of 1 lb", "", "one packet or of all"},
		{"pack 1 two packs of 1 lb", "", "one packet or of all"},
		{"pack 1 1 lb each", "", "one packet or of all"},
		{"pack 1 2 x 1 lb", "", "othing was recorded"},
		{"pack 1b 4 lb in a vacuum bag", "b", "piece b"},
		{"pack 1a 4 lb in 4 bags", "a", ""},
		{"pack 1 all 8 lb", "abc", ""},
	} {
		b := three(t, "firm", "rinse", "fry good", "dry", "tacky", "season", "skip 1 smoke, unsmoked on purpose", "slice")
		r := b.say(c.line).Text()
		if got := recorded(b, "pack"); got != c.of || !strings.Contains(r, c.says) {
			t.Errorf("%q is recorded of %q, want %q, or does not say %q:\n%s", c.line, got, c.of, c.says, r)
		}
	}
}
