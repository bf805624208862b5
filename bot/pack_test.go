package bot_test

import (
	"strings"
	"testing"
)

// What is packed is weighed and kept as it was said, and an example is a line that
// packs.
func TestPackAsTyped(t *testing.T) {
	cold := []string{"firm", "skip 1 smoke, unsmoked on purpose", "slice"}
	for _, c := range []struct{ line, of, says string }{
		{"pack a 4 lb", "a", "Packed 4 lb"},
		{"pack a 4 lb fridge", "a", "Keep refrigerated"},
		{"pack a 4 lb in the fridge", "a", "Keep refrigerated"},
		{"pack a in the fridge, 4 lb", "a", "Packed 4 lb"},
		{"pack a 4 lb vacuum packed, frozen", "a", "Kept as a note: vacuum packed."},
		{"pack a 4 lb vacuum frozen", "a", "Kept as a note: vacuum."},
		{"pack a 4 lb 2 oz, two packets", "a", "Kept as a note: two packets."},
		{"pack a vacuum packed", "a", "Kept as a note: vacuum packed."},
		{"pack a 1.78kg b 1540g c 1150 g frozen", "abc", "b: Packed 3.4 lb (1,540 g)"},
		{"pack a: 1.78kg, b: 1540g and c: 1150 g", "abc", "c: Packed"},
		{"pack 1a 4 lb, 1b 3 lb", "ab", "b: Packed 3 lb"},
		{"pack a 4 lb b 3 lb", "ab", "Next: piece c"},
		{"pack", "abc", "packed"},
		{"pack a 4 lb b 9 lb", "", "This works: `pack 1b 4.5 lb`"},
		{"pack a 4 lb a 3 lb", "", "there twice"},
		{"pack a 40 lb", "", "This works: `pack 1a 4.5 lb`"},
		{"pack a 4 quux", "", "This works: `pack 1a 4.5 lb`"},
		{"pack a 4 lb or 5 lb", "", "more than one weight"},
		{"pack a 4 lb fridge and freezer", "", "fridge or in the freezer"},
		{"pack a b 4 lb", "", "what each weighs"},
	} {
		b := three(t, cold...)
		r := b.say(c.line).Text()
		if !strings.Contains(r, c.says) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.says, r)
		}
		if got := strings.Contains(r, "Keep refrigerated"); c.of != "" && got == (strings.Contains(c.line, "frozen") || strings.Contains(c.line, "freezer")) {
			t.Errorf("%q: in the fridge %v\n%s", c.line, got, r)
		}
		if got := recorded(b, "pack"); got != c.of {
			t.Errorf("%q is recorded of %q, want %q\n%s", c.line, got, c.of, r)
		}
	}
}

// How a batch stands while its pieces are sliced and packed one by one, and what the
// packed ones gave.
func TestStandingWhileSlicedAndPacked(t *testing.T) {
	b := three(t, "firm", "rinse", "fry good", "dry", "tacky", "season", "skip 1 smoke, unsmoked on purpose", "skip 1 smoked, unsmoked", "skip 1 cooled, unsmoked", "skip 1 chilled, cold already")
	for _, c := range []struct{ line, says string }{
		{"batch 1", "Batch 1 (juniper; coffee; plain): to be sliced."},
		{"slice a", "piece a"},
		{"batch 1", ": slicing: 1 of 3."},
		{"slice", "pieces b (coffee), c (plain)"},
		{"batch 1", ": sliced, to be packed."},
		{"yield 1", "was not weighed on the way yet"},
		{"pack a 4 lb b 4 lb", "piece c"},
		{"batch 1", ": being packed: 2 of 3."},
		{"yield 1", "80 % of the fresh weight so far; not weighed yet: c."},
		{"yield a", "20 % lost so far"},
		{"compare a b", "1a"},
		{"compare 1a and 1b", "1a"},
		{"compare 1a 1b 1c", "I compare two at a time"},
		{"compare a, b and c", "I compare two at a time"},
		{"compare 1 2 3", "I compare two at a time"},
		{"compare a d", "Compare it with which"},
	} {
		if r := b.say(c.line).Text(); !strings.Contains(r, c.says) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.says, r)
		}
	}
}

func TestWeighedAndLabelledByPiece(t *testing.T) {
	b := three(t, "firm", "skip 1 smoke, unsmoked on purpose")
	for _, c := range []struct{ line, says string }{
		{"weigh a cured 4.5 lb", "Batch 1 a (juniper): cured 4.5 lb"},
		{"weigh b 4.5 lb", "Batch 1 b (coffee): "},
		{"weigh a 4 lb b 4 lb", "nothing was recorded"},
		{"weigh a b 4 lb", "One weight is of one piece"},
		{"weigh c cured heavy", "This works: `weigh 1c cured 3.6 lb`"},
		{"slice a and b 4 mm", "b: about"},
		{"pack a 4 lb b 4 lb", "b: Packed 4 lb"},
		{"label c", "Batch 1 c (plain) is not packed yet"},
		{"label a sheet", "1 label."},
		{"label a and b", "2 labels."},
	} {
		if r := b.say(c.line).Text(); !strings.Contains(r, c.says) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.says, r)
		}
	}
}
