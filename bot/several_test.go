package bot_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/store"
)

// three is a bench with a batch of three pieces whose cure check is due, walked on by
// more lines.
func three(t *testing.T, lines ...string) *bench {
	t.Helper()
	b := newBench(t, store.Memory)
	for _, s := range append([]string{"open 5 lb juniper 1 in, 5 lb coffee 1 in, 4 lb plain 1 in from 20 Feb 9:00", "yes"}, lines...) {
		b.say(s)
	}
	return b
}

// recorded are the letters of the pieces that a step was recorded of.
func recorded(b *bench, step string) string {
	out := ""
	for _, l := range []string{"a", "b", "c"} {
		if strings.Contains(b.say(step+" 1"+l).Text(), "nothing changed") {
			out += l
		}
	}
	return out
}

// A cure check is never recorded of a piece that was not named. That an "a" before
// some words is rather the article is our own choice, common practice, no source.
func TestACureCheckIsOfThePiecesNamed(t *testing.T) {
	for _, c := range []struct{ line, of, says string }{
		{"firm", "abc", "Batch 1 (juniper; coffee; plain): firm"},
		{"firm 1", "abc", ""},
		{"firm all", "abc", ""},
		{"firm all through", "abc", ""},
		{"firm a", "a", "piece a"},
		{"firm a fine", "a", "piece a"},
		{"firm a all through", "a", "piece a"},
		{"firm a: all fine", "a", ""},
		{"firm 1 a fine", "a", ""},
		{"firm 1a fine", "a", ""},
		{"firm A", "a", ""},
		{"firm a 08:30", "a", ""},
		{"firm b fine", "b", "piece b"},
		{"firm a and c", "ac", "pieces a (juniper), c (plain)"},
		{"firm b and c", "bc", "pieces b (coffee), c (plain)"},
		{"firm b and a", "ab", ""},
		{"firm c, a fine", "ac", ""},
		{"firm b, a bit rough at the edge", "b", ""},
		{"firm a c", "ac", ""},
		{"firm a & b, c", "abc", ""},
		{"firm 1 a, c", "ac", ""},
		{"firm 1a 1c", "ac", ""},
		{"firm 1a, 1c fine", "ac", ""},
		{"firm pieces a and b", "ab", ""},
		{"1 firm a", "a", ""},
		{"firmed a", "", ""},
		{"done a fine", "a", ""},
		{"done b and c", "bc", ""},
		{"firm a bit rough", "", "of piece a alone"},
		{"firm a little dry outside", "", "of piece a alone"},
		{"firm 1a a bit rough", "a", ""},
		{"firm 1 all: a bit rough", "abc", ""},
		{"firm all but b", "", "nothing was recorded"},
		{"firm except b", "", "nothing was recorded"},
		{"firm a fine, b soft", "", "nothing was recorded"},
		{"firm b, c soft", "", "not firm all through"},
		{"firm a and c but not b", "", "nothing was recorded"},
		{"firm d fine", "", "no piece d"},
		{"firm a and d", "", "no piece d"},
		{"firm a, d fine", "", "no piece d"},
		{"firm soft in the middle", "", "not firm all through"},
		{"firm 1 not soft any more", "abc", ""},
		{"firm 1a no soft spots", "a", ""},
	} {
		b := three(t)
		r := b.say(c.line).Text()
		if got := recorded(b, "firm"); got != c.of {
			t.Errorf("%q is recorded of %q, want %q\n%s", c.line, got, c.of, r)
		}
		if !strings.Contains(r, c.says) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.says, r)
		}
	}
}

// The same for the steps after it, and for a person's own words.
func TestStepsAreOfThePiecesNamed(t *testing.T) {
	cured := []string{"firm"}
	fried := []string{"firm", "rinse", "fry good"}
	tacky := append(fried[:3:3], "dry", "tacky")
	for _, c := range []struct {
		first          []string
		line, step, of string
		says           string
	}{
		{cured, "rinse a well", "rinse", "a", "piece a"},
		{cured, "rinse a and b", "rinse", "ab", "pieces a (juniper), b (coffee)"},
		{cured, "rinsed 1 b, c", "rinse", "bc", ""},
		{cured, "skip a rinse, box cure", "rinse", "a", "Batch 1 a"},
		{cured, "skip a and c rinse, box cure", "rinse", "ac", ""},
		{fried, "dry a, b", "dry", "ab", ""},
		{tacky, "season a: honey", "season", "a", "piece a"},
		{tacky, "season a nothing", "season", "a", "piece a"},
		{tacky, "season b black pepper", "season", "b", "piece b"},
		{tacky, "season a and c: honey", "season", "ac", ""},
		{tacky, "season a little honey", "season", "", "of piece a alone"},
		{tacky, "season a black pepper crust", "season", "", "of piece a alone"},
		{tacky, "season 1 all: a black pepper crust", "season", "abc", ""},
		{tacky, "season s&p", "season", "abc", ""},
		{tacky, "season a juniper, b garlic", "season", "", ""},
		{tacky, "season b juniper, c garlic", "season", "", "nothing was recorded"},
		{tacky, "season 3 juniper berries", "season", "", ""},
		{tacky, "season 1 3 juniper berries", "season", "abc", ""},
		{tacky, "season", "season", "abc", ""},
	} {
		b := three(t, c.first...)
		r := b.say(c.line).Text()
		if got := recorded(b, c.step); got != c.of {
			t.Errorf("%q is recorded of %q, want %q\n%s", c.line, got, c.of, r)
		}
		if !strings.Contains(r, c.says) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.says, r)
		}
	}
}

// What each piece was seasoned with goes on its label and on no other.
func TestSeasoningOfOnePieceStaysWithIt(t *testing.T) {
	b := three(t, "firm", "rinse", "fry good", "dry", "tacky", "season a: honey", "season b black pepper", "season c nothing", "skip 1 smoke, unsmoked on purpose", "slice", "pack a 4 lb, b 4 lb and c 3.2 lb frozen")
	for letter, want := range map[string]string{"a": "honey", "b": "black pepper", "c": ""} {
		r := b.say("label 1" + letter).Text()
		for _, what := range []string{"honey", "black pepper"} {
			if got := strings.Contains(r, what); got != (what == want) {
				t.Errorf("label of %s: %s there: %v\n%s", letter, what, got, r)
			}
		}
	}
}

func TestSoakIsOfThePiecesNamed(t *testing.T) {
	for line, says := range map[string]string{
		"soak a 45 min":       "Batch 1 a (juniper): soaking for 45 min",
		"soak a 1h":           "Batch 1 a (juniper): soaking for 1 h",
		"soak a":              "Batch 1 a (juniper): soaking for 45 min",
		"soak b 45min":        "Batch 1 b (coffee): soaking for 45 min",
		"soak a and c 1 h":    "Batch 1 (juniper; coffee; plain), pieces a (juniper), c (plain): soaking for 1 h",
		"soak 1 45 min":       "Batch 1 (juniper; coffee; plain): soaking for 45 min",
		"soak a half hour":    "of piece a alone",
		"soak 1a a half hour": "Batch 1 a (juniper): soaking for 30 min",
		"soak a 5h":           "`soak 1a 45 min`",
	} {
		b := three(t, "firm", "rinse")
		if r := b.say(line).Text(); !strings.Contains(r, says) {
			t.Errorf("%q does not say %q:\n%s", line, says, r)
		}
	}
}

func TestOneBatchAtATime(t *testing.T) {
	one := three(t)
	for line, says := range map[string]string{
		"firm 1 2":            "There is no batch 2 here",
		"firm 1,2":            "There is no batch 2 here",
		"firm 1 and 2 fine":   "There is no batch 2 here",
		"firm 1 2 looks good": "There is no batch 2 here",
	} {
		if r := one.say(line).Text(); !strings.Contains(r, says) {
			t.Errorf("%q does not say %q:\n%s", line, says, r)
		}
	}
	two := three(t, "open 5 lb plain 1 in from 20 Feb 9:00", "yes")
	for _, line := range []string{"firm both", "firm 1,2", "firm 1, 2", "firm 1 2", "firm 1 and 2", "firm all", "firm 1a 2", "firm 1a and 2"} {
		if r := two.say(line).Text(); !strings.Contains(r, "One batch at a time") {
			t.Errorf("%q does not ask:\n%s", line, r)
		}
	}
	if got := recorded(one, "firm") + recorded(two, "firm"); got != "" {
		t.Errorf("recorded of %q", got)
	}
}

// Pit and cores of three pieces in one line, as people type them.
func TestReadingsOfSeveralPieces(t *testing.T) {
	for _, c := range []struct{ line, says string }{
		{"pit 148 a 58 b 62 c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"pit 148 core a 58 b 62 c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"148 / a 58, b 62, c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"148F/a 58, b 62, c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"62°C / a 15, b 17, c 18", "b (coffee): core 62.6 °F, pit 143.6 °F"},
		{"148 a 58 b 62 c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"pit 1 148 a 58 b 62 c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"core 1b 62", "b (coffee): core 62 °F"},
		{"core 4b 62", "There is no batch 4"},
		{"pit 4 148 core 62", "There is no batch 4"},
	} {
		b := three(t, "firm", "smoke")
		b.clock.At = b.clock.At.Add(2 * time.Hour)
		if r := b.say(c.line).Text(); !strings.Contains(r, c.says) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.says, r)
		}
	}
}

// The core at the end of the smoke, piece by piece; one read shortly before stands for
// it and is told as what it is.
func TestOutOfTheSmokeByPiece(t *testing.T) {
	for _, c := range []struct {
		first      []string
		line, says string
		of         string
	}{
		{nil, "smoked core a 151 b 152 c 150", "b: core 152 °F, at the 150 °F target", "abc"},
		{nil, "smoked a 151, b 152", "b: core 152 °F, at the 150 °F target", "ab"},
		{nil, "smoked a b", "No core temperature noted", "ab"},
		{nil, "smoked b core 151", "Core 151 °F, at", "b"},
		{nil, "smoked 1 core 151", "Core 151 °F, at", "abc"},
		{nil, "smoked a 151 d 152", "no piece d", ""},
		{[]string{"core a 151 b 148"}, "smoked", "b: core 148 °F as read at", "abc"},
		{[]string{"core a 151 b 148"}, "smoked", "c: no core temperature noted", "abc"},
		{[]string{"core a 151 b 148"}, "smoked a", "Core 151 °F as read at", "a"},
		{[]string{"core 151"}, "smoked", "Core 151 °F as read at", "abc"},
	} {
		b := three(t, "firm", "smoke")
		b.clock.At = b.clock.At.Add(20 * time.Hour)
		for _, s := range c.first {
			b.say(s)
		}
		b.clock.At = b.clock.At.Add(10 * time.Minute)
		r := b.say(c.line).Text()
		if !strings.Contains(r, c.says) {
			t.Errorf("%q after %q does not say %q:\n%s", c.line, c.first, c.says, r)
		}
		if got := recorded(b, "smoked"); got != c.of {
			t.Errorf("%q is recorded of %q, want %q\n%s", c.line, got, c.of, r)
		}
	}
	b := three(t, "firm", "smoke")
	b.clock.At = b.clock.At.Add(20 * time.Hour)
	b.say("core 151")
	b.clock.At = b.clock.At.Add(16 * time.Minute)
	if r := b.say("smoked").Text(); !strings.Contains(r, "No core temperature noted") {
		t.Errorf("a core of 16 minutes ago stands for the end:\n%s", r)
	}
}

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

func TestNotesAndFlipsNameTheirPieces(t *testing.T) {
	for line, says := range map[string]string{
		"note a bit loose":            "of piece a alone",
		"note 1 all: a bit loose":     "Noted with Batch 1 (juniper; coffee; plain): a bit loose",
		"note 1a a bit loose":         "Noted with Batch 1 a (juniper): a bit loose",
		"note b smells of juniper":    "Noted with Batch 1 b (coffee): smells",
		"note a and c: bag leaked":    "pieces a (juniper), c (plain): bag leaked",
		"note d leaked":               "no piece d",
		"note bag was a bit loose":    "Noted with Batch 1 (juniper; coffee; plain): bag",
		"flip 1a":                     "noted for the whole batch (a, b, c)",
		"flip a":                      "noted for the whole batch (a, b, c)",
		"flip a and b":                "noted for the whole batch (a, b, c)",
		"flip 1":                      "Batch 1 (juniper; coffee; plain) flipped",
		"discard 1 a and d, too soft": "no piece d",
	} {
		b := three(t)
		if r := b.say(line).Text(); !strings.Contains(r, says) {
			t.Errorf("%q does not say %q:\n%s", line, says, r)
		}
	}
}
