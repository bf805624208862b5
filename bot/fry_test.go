package bot_test

import (
	"strings"
	"testing"

	"larderhand/store"
)

// How slices of several pieces are spoken of: what is said of one is recorded of that
// one only, and what can't be told apart is asked about.
func TestSlicesByPiece(t *testing.T) {
	for _, c := range []struct{ line, salty, right, asks string }{
		{"fried a slice of each, b is a bit salty, a and c good", "b", "ac", ""},
		{"fry a and b, c too salty", "", "", "piece by piece"},
		{"fry a, b, c is too salty", "", "", "piece by piece"},
		{"fry a, b and c too salty", "abc", "", ""},
		{"fry 1 a and c 08:30", "", "ac", ""},
		{"fry a good, b too salty, c good", "b", "ac", ""},
		{"fry 1 b salty but a & c are fine", "b", "ac", ""},
		{"fry b and c too salty", "bc", "", ""},
		{"fry a: good; b: good; c: too salty", "c", "ab", ""},
		{"fry b good", "", "b", ""},
		{"fry 1b too salty", "b", "", ""},
		{"fry good", "", "abc", ""},
		{"fry a good b too salty c good", "", "", "piece by piece"},
		{"fry a and c", "", "ac", ""},
		{"fry a bit salty", "", "", "of piece a alone"},
		{"fry 1a a bit salty", "a", "", ""},
		{"fry a good, b hmm", "", "", "piece by piece"},
		{"fry all good except b", "", "", "piece by piece"},
		{"fry a slice, hmm", "", "", "nothing was recorded"},
	} {
		b := newBench(t, store.Memory)
		for _, s := range []string{"open 5 lb juniper 1 in, 5 lb coffee 1 in, 4 lb plain 1 in from 20 Feb 9:00", "yes", "firm", "rinse"} {
			b.say(s)
		}
		r := b.say(c.line).Text()
		notes := b.say("batch 1").Text()
		for _, l := range []string{"a", "b", "c"} {
			if got, want := strings.Contains(notes, l+": test slice too salty"), strings.Contains(c.salty, l); got != want {
				t.Errorf("%q: %s too salty: %v, want %v\n%s", c.line, l, got, want, r)
			}
			was := b.say("fry 1" + l).Text()
			if got, want := strings.Contains(was, "was recorded"), strings.Contains(c.right, l); got != want {
				t.Errorf("%q: %s right: %v, want %v\n%s", c.line, l, got, want, r)
			}
		}
		if !strings.Contains(r, c.asks) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.asks, r)
		}
	}
}
