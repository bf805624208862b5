package bot_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

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
		{"firm ab", "ab", ""},
		{"firm 1ac fine", "ac", ""},
		{"firm 1 bc", "bc", ""},
		{"1 firm a", "a", ""},
		{"firmed a", "", ""},
		{"done a fine", "a", ""},
		{"done b and c", "bc", ""},
		{"firm a bit rough", "", "of piece a alone"},
		{"firm a little dry outside", "", "of piece a alone"},
		{"firm 1a a bit rough", "a", ""},
		{"firm 1 all: a bit rough", "abc", ""},
		{"firm 1 feels like the heel of my hand", "abc", ""},
		{"firm 1 my cousin pressed on", "", "can't tell from"},
		{"firm 1 give it a week", "", "can't tell from"},
		{"firm all but b", "", "nothing was recorded"},
		{"firm except b", "", "nothing was recorded"},
		{"firm a fine, b soft", "", "nothing was recorded"},
		{"firm b, c soft", "", "nothing was recorded"},
		{"firm 1 a and b, c needs more days", "", "nothing was recorded"},
		{"firm 1 a and c; b to wait", "", "nothing was recorded"},
		{"firm 1 a, c later", "", "nothing was recorded"},
		{"firm 1a, 1c later", "", "nothing was recorded"},
		{"firm 1a c later", "", "nothing was recorded"},
		{"firm 1 a and c: later", "", "nothing was recorded"},
		{"firm 1 a, b and c is still spongey", "", "nothing was recorded"},
		{"firm b, c a day on", "", "nothing was recorded"},
		{"firm 1 a and c all through", "ac", "pieces a"},
		{"firm 1 a, b and c fine", "abc", ""},
		{"firm 1 no", "", "not firm all through"},
		{"firm 1 nope", "", "not firm all through"},
		{"firm 1b not yet", "", "not firm all through"},
		{"firm 1 b: not quite there", "", "not firm all through"},
		{"firm 1 no, still gives in the middle", "", "not firm all through"},
		{"firm 1 needs another day", "", "not firm all through"},
		{"firm 1 almost", "", "not firm all through"},
		{"firm 1 spongey", "", "not firm all through"},
		{"firm 1 fine but a gives", "", "nothing was recorded"},
		{"firm 1 a nice one", "", "of piece a alone"},
		{"firm 1 yes", "abc", ""},
		{"firm 1 no give in the middle", "abc", ""},
		{"firm 1a, no longer spongey", "a", ""},
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

// A check before its day is of the piece named, also in the line that is offered.
func TestAnEarlyCheckIsOfThePieceNamed(t *testing.T) {
	early := func() *bench {
		b := newBench(t, store.Memory)
		b.say("open 5 lb juniper 1 in, 5 lb coffee 1 in, 4 lb plain 1 in from 25 Feb 9:00")
		b.say("yes")
		return b
	}
	for _, c := range []struct{ line, of, says string }{
		{"firm a", "", "`firm 1a early, thin end piece`"},
		{"firm", "", "`firm 1 early, thin end piece`"},
		{"firm a early, thin end", "a", "piece a"},
		{"firm a and c early: thin ends", "ac", "pieces a"},
		{"firm 1 a, c early, thin", "ac", ""},
	} {
		b := early()
		r := b.say(c.line).Text()
		if got := recorded(b, "firm"); got != c.of || !strings.Contains(r, c.says) {
			t.Errorf("%q is recorded of %q, want %q, or does not say %q:\n%s", c.line, got, c.of, c.says, r)
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
		{cured, "rinse with 4 °C water", "rinse", "abc", ""},
		{cured, "rinse fine but not b", "rinse", "", "nothing was recorded"},
		{cured, "rinse a and b", "rinse", "ab", "pieces a (juniper), b (coffee)"},
		{cured, "rinsed 1 b, c", "rinse", "bc", ""},
		{cured, "rinse 1 under a cold tap", "rinse", "abc", ""},
		{cured, "rinse all but a in water", "rinse", "", "nothing was recorded"},
		{cured, "rinse all 08:30", "rinse", "abc", ""},
		{fried, "dry 1 on a rack in the fridge", "dry", "abc", ""},
		{tacky[:4], "tacky 1 a nice pellicle", "tacky", "", "of piece a alone"},
		{tacky[:4], "tacky 1 a well", "tacky", "a", "piece a"},
		{cured, "rinse 1 b and c, a had no time", "rinse", "", "nothing was recorded"},
		{cured, "rinse a and b, c is still in the fridge", "rinse", "", "nothing was recorded"},
		{cured, "rinse b, c a day later", "rinse", "", "nothing was recorded"},
		{cured, "rinse a and b well", "rinse", "ab", ""},
		{cured, "rinse a, b 08:30", "rinse", "ab", ""},
		{cured, "skip a, c is not rinse", "rinse", "", "nothing was recorded"},
		{tacky[:4], "tacky a and b, c still wet", "tacky", "", "nothing was recorded"},
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

func TestNotesAndFlipsNameTheirPieces(t *testing.T) {
	for line, says := range map[string]string{
		"note a bit loose":                   "of piece a alone",
		"note 1 all: a bit loose":            "Noted with Batch 1 (juniper; coffee; plain): a bit loose",
		"note 1a a bit loose":                "Noted with Batch 1 a (juniper): a bit loose",
		"note b smells of juniper":           "Noted with Batch 1 b (coffee): smells",
		"note a and c: bag leaked":           "pieces a (juniper), c (plain): bag leaked",
		"note d leaked":                      "no piece d",
		"note bag was a bit loose":           "Noted with Batch 1 (juniper; coffee; plain): bag",
		"flip 1a":                            "noted for the whole batch (a, b, c)",
		"flip a":                             "noted for the whole batch (a, b, c)",
		"flip a and b":                       "noted for the whole batch (a, b, c)",
		"flip 1":                             "Batch 1 (juniper; coffee; plain) flipped",
		"note 1 a and b, c leaks a little":   "nothing was recorded",
		"note 1 a and c leaked":              "pieces a (juniper), c (plain): leaked",
		"discard 1 a and d, too soft":        "no piece d",
		"discard 1 a and b, c is fine":       "nothing was recorded",
		"discard 1 b, c looks ok":            "nothing was recorded",
		"discard 1 a and c fine":             "nothing was recorded",
		"discard 1 a, b, and c smelled sour": "nothing was recorded",
		"discard 1 b; a is fine":             "nothing was recorded",
		"discard 1 all but c":                "Nothing was recorded",
		"discard 1 a and c smelled sour":     "pieces a (juniper), c (plain) thrown away (smelled sour)",
		"discard 1 b smelled off, c is fine": "piece b (coffee) thrown away",
	} {
		b := three(t)
		if r := b.say(line).Text(); !strings.Contains(r, says) {
			t.Errorf("%q does not say %q:\n%s", line, says, r)
		}
	}
}

// Whatever is typed, a cure check is recorded of no piece but those whose letters
// stand in the line, or of the whole batch where none does.
func TestNoPieceIsCuredUnnamed(t *testing.T) {
	words := []string{"a", "b", "c", "d", "and", ",", "&", ":", "fine", "all", "not", "but", "1", "1a", "1b", "1c", "2", "early", "firm", "piece", "through", "10:30", "-", "ok"}
	rapid.Check(t, func(rt *rapid.T) {
		list := rapid.SliceOfN(rapid.SampledFrom(words), 1, 6).Draw(rt, "words")
		line := "firm " + strings.Join(list, " ")
		b := three(t)
		r := b.say(line).Text()
		named := ""
		for _, l := range []string{"a", "b", "c"} {
			if slices.Contains(list, l) || slices.Contains(list, "1"+l) {
				named += l
			}
		}
		of := recorded(b, "firm")
		for _, l := range strings.Split(of, "") {
			if named != "" && !strings.Contains(named, l) {
				rt.Fatalf("%q is recorded of %q\n%s", line, of, r)
			}
		}
	})
}

// A letter that other words follow in the same breath ("c later", "b is soft") is never
// recorded with those before it, whatever joins them.
func TestNoPieceSetApartIsRecorded(t *testing.T) {
	joints := []string{" and ", ", ", "; ", " ", " & ", ", and ", " + "}
	apart := []string{"later", "needs more days", "is still soft", "to wait", "had no time", "not yet", "is fine", "looks ok", "stays in the fridge", "tomorrow", ": later", "- not yet", "a day on"}
	rapid.Check(t, func(rt *rapid.T) {
		cmd := rapid.SampledFrom([]string{"firm", "discard", "note", "rinse"}).Draw(rt, "command")
		letters := rapid.Permutation([]string{"a", "b", "c"}).Draw(rt, "letters")[:rapid.IntRange(2, 3).Draw(rt, "count")]
		line := cmd + " 1 " + letters[0]
		for _, l := range letters[1:] {
			line += rapid.SampledFrom(joints).Draw(rt, "joint")
			line += rapid.SampledFrom([]string{"", "1", "piece "}).Draw(rt, "form") + l
		}
		line += " " + rapid.SampledFrom(apart).Draw(rt, "apart")
		var b *bench
		if cmd == "rinse" {
			b = three(t, "firm")
		} else {
			b = three(t)
		}
		before := b.say("batch 1").Text()
		r := b.say(line).Text()
		first, _, _ := strings.Cut(r, "\n")
		if i := slices.Index(letters, "a"); i > 0 && !strings.Contains(first, "coffee; plain): ") && !slices.ContainsFunc(letters[i:], func(l string) bool { return strings.Contains(first, " "+l+" (") }) { // from "a" on taken for words
			return
		}
		if b.say("batch 1").Text() != before {
			rt.Fatalf("%q changed the batch:\n%s", line, r)
		}
	})
}
