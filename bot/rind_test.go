package bot_test

import (
	"strings"
	"testing"

	"larderhand/store"
)

// Of two pieces each goes by its own rind, whichever is told first: with it on, the days
// are those of one open face, (2 in ÷ 0.5) × 4 + 2 = 18 (worked by hand from the day
// rule), and the limit is a tenth less (FSIS Directive 7620.3, second-hand, not checked
// against the text).
func TestEachPieceGoesByItsOwnRind(t *testing.T) {
	for on, line := range map[string]string{
		"a juniper": "open 5 lb juniper 1.5 in rind on, 4 lb coffee 1.5 in rind off",
		"b coffee":  "open 5 lb juniper 1.5 in rind off, 4 lb coffee 1.5 in rind on",
	} {
		b := newBench(t, store.Memory)
		card := b.say(strings.TrimPrefix(line, "open ")).Text()
		for _, want := range []string{on + ", rind on ", "by the piece that needs longest", "180 ppm (200 less a tenth for the rind) of " + on[:1], "200 ppm of "} {
			if !strings.Contains(card, want) {
				t.Errorf("%s: it does not say %q:\n%s", on, want, card)
			}
		}
		b.say(line)
		if r := b.say("yes").Text(); !strings.Contains(r, on+", rind on ") || strings.Count(r, "rind on") != 1 {
			t.Errorf("%s: opened, it does not say which has its rind on:\n%s", on, r)
		}
		if r := b.say("thick 1 2 in").Text(); !strings.Contains(r, "day 0 of 18") {
			t.Errorf("%s: all of it 2 in thick reads:\n%s", on, r)
		}
		// 1 in with the rind on: 1 in ÷ 0.5 × 4 + 2 = 10 days; 2 in without: 2 in ÷ 0.25 + 2 = 10.
		if r := b.say("thick 1" + on[:1] + " 1 in").Text(); !strings.Contains(r, "day 0 of 10") {
			t.Errorf("%s: with that piece 1 in thick it reads:\n%s", on, r)
		}
		if r := b.say("batch 1").Text(); !strings.Contains(r, on+", rind on ") {
			t.Errorf("%s: its batch does not say which has its rind on:\n%s", on, r)
		}
	}
}

// A card says what went into all of its pieces, not only into the first.
func TestACardNamesTheNitriteOfEveryPiece(t *testing.T) {
	c := newCommons(t)
	c.say("Ines", "club", "hello")
	c.say("Ines", "", "open 5 lb juniper 1.5 in rind on, 4 lb coffee 1.5 in rind off")
	c.say("Ines", "", "yes")
	c.reads("Ines", "", "share 1 in club", "shared in club")
	c.reads("Tobias", "", "shared b_code1", "107.5 to 117.1 ppm nitrite")
}

// A plan by a recipe with the rind on counts the days and the mix as for one told with
// its rind on, and for one with it off as such.
func TestAPlanByARecipeMindsTheRind(t *testing.T) {
	b := newBench(t, store.Memory)
	for _, line := range []string{"open 5 lb juniper 1.5 in rind on", "yes", `save 1 as "skin on"`, "brine 5 lb 1.5 in rind on, 2 l water", "open", `save 2 as "kettle"`} {
		b.say(line)
	}
	for line, want := range map[string]string{
		`plan 5 lb juniper 1.5 in rind on for 24 May`:    "14 to 16 days",
		`plan "skin on" 5 lb 1.5 in for 24 May`:          "14 to 16 days",
		`plan "skin on" 5 lb 1.5 in rind off for 24 May`: "8 to 10 days",
		`plan "kettle" 5 lb 1.5 in for 24 May`:           "14 to 16 days",
		`plan "kettle" 5 lb 1.5 in rind off for 24 May`:  "8 to 10 days",
	} {
		if r := b.say(line).Text(); !strings.Contains(r, "Counted with "+want+" in cure") {
			t.Errorf("%q does not count %s:\n%s", line, want, r)
		}
	}
}

// A batch whose pieces differ in their rind is not made again without a word which.
func TestAgainAsksWhichRind(t *testing.T) {
	b := newBench(t, store.Memory)
	b.say("open 5 lb juniper 1.5 in rind on, 4 lb juniper 1.5 in rind off")
	b.say("yes")
	if r := b.say("again 1 7 lb 1.5 in").Text(); !strings.Contains(r, "Like which piece") {
		t.Errorf("it does not ask:\n%s", r)
	}
	if r := b.say("again 1b 7 lb 1.5 in").Text(); !strings.Contains(r, "8 to 10 days") {
		t.Errorf("like the one with its rind off reads:\n%s", r)
	}
}
