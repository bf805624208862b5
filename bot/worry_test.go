package bot_test

import (
	"strings"
	"testing"

	"larderhand/bot/reply"
	"larderhand/store"
)

// with two batches of a known weight: 5 lb 2 oz is 2324.7 g (NIST Handbook 44,
// appendix C), so that 8 g of a 6.25 % mix are 215.1 ppm by mix × fraction ×
// 1,000,000 ÷ green weight (FSIS Directive 7620.3, chapter 3, dry products:
// second-hand, not checked against the text), and 200 ppm are the limit for dry-cured
// bacon (9 CFR 424.22(b): second-hand, not checked against the text).
func worryBench(tb testing.TB) *bench {
	b := newBench(tb, store.Memory)
	b.say("open 5 lb 2 oz juniper 1.5 in")
	b.say("yes")
	return b
}

func stands(b *bench) string { return b.say("batch 1").Text() + b.say("batches").Text() }

// What is plainly a worry gets the caution, with numbers where they are known, also
// where it begins with the word of a command; and nothing is recorded.
func TestWorriesComeBeforeCommands(t *testing.T) {
	const (
		botulism = "botulism"
		eaten    = "poison centre"
		away     = "throw it away"
		cold     = "over 40 °F (4 °C) for more than 2 hours is thrown away"
		over     = "OVER THE LIMIT"
	)
	for _, c := range []struct{ line, wants string }{
		{"i used 8 grams of pink salt instead of 4.4", "215.1 ppm"},
		{"i used 8 grams of pink salt instead of 4.4", over + ": don't eat it"},
		{"I put in 8g cure, oh no", over},
		{"I put in 5 g of cure not 4.4, is that bad?", "134.4 ppm nitrite; the limit is 200 ppm for US dry-cured bacon [9 CFR 424.22(b) (second-hand, not checked against the text)]. Within the limit"},
		{"i used 2 g of cure only", "TOO LITTLE NITRITE"},
		{"used 1/2 oz of pink salt by mistake", over},
		{"add 1 tsp cure more?", over + ": don't add it"},
		{"I put 3 tablespoons of pink salt on it instead of 1 teaspoon", over},
		{"i doubled the cure by accident", "236.6 ppm"},
		{"oops, curing mix was 9 g", over},
		{"i doubled the pink salt", "236.6 ppm"},
		{"i used 8 g of pink salt on 10 lb", "110.2 ppm"},
		{"i used 4 g of cure #2 instead of cure #1", "NITRATE, NOT FOR BACON"},
		{"i forgot the pink salt!", botulism},
		{"i forgot the pink salt!", "asks for 4.4 g"},
		{"can I skip the pink salt and just use sea salt", botulism},
		{"skip the pink salt", botulism},
		{"no pink salt", botulism},
		{"no cure", botulism},
		{"can i leave out the nitrite?", botulism},
		{"do i really need the curing salt?", botulism},
		{"what if i leave the cure out", botulism},
		{"open 5 lb no cure just salt 1 in", botulism},
		{"I used table salt that was pink", "no nitrite"},
		{"is himalayan pink salt ok", "no nitrite"},
		{"5 lb celery powder instead of pink salt", "strength"},
		{"can i use celery juice", "strength"},
		{"open 3 lb saltpeter 1 in", "not for bacon"},
		{"i have saltpetre", "not for bacon"},
		{"my dog ate some of the cure", "vet"},
		{"help my kid swallowed pink salt", eaten},
		{"it smells funny", away},
		{"meat smells weird", away},
		{"my garage is 50F is that ok for curing", "too warm"},
		{"my garage is 35 F, ok?", "cold enough"},
		{"the cellar is 12 °C", "too warm"},
		{"my garage is 30 F, ok?", "too cold"}, // as set fridge has it
		{"my garage is 31 F, ok?", "cold enough"},
		{"how long does it keep in the fridge", "7 days"},
		{"power cut in the night, fridge was off 9 hours", cold},
		{"electricity went off", cold},
		{"blackout", cold},
		{"freezer failed", cold},
		{"fridge 46", "46 °F is too warm"},
		{"my fridge is at 46", "46 °F is too warm"},
		{"the meat is off", away},
		{"i feel dizzy", eaten},
		{"headache and blue lips", eaten},
		{"can my pregnant wife eat it", "Medical advice"},
		{"my gran is 85", "Medical advice"},
		{"dog ate it", "vet"},
		{"i left it out for 5 hours", cold},
		{"we had an outage", cold},
		{"is it ok for kids", "Medical advice"},
		{"is it ok for my 2 year old", "Medical advice"},
		{"temp is too high", "never over 170 °F"},
		{"temp stuck", "A stall"},
		{"the smoke went out", "Relight it"},
		{"meat is too salty", "Soak it"},
		{"meat is slimy", away},
		{"pit died", "Relight it"},
		{"pit got to 220 for an hour", "220 °F is too hot a pit"},
		{"the pit is at 220", "220 °F is too hot a pit"},
		{"the pit is too hot", "never over 170 °F"},
		{"stalled", "A stall"},
		{"it is stuck at 130", "A stall"},
		{"its soft in the middle", "longer"},
		{"still too salty after the soak", "soak it again"},
		{"missed two flips", "One missed day"},
		{"i forgot to flip for 2 days", "One missed day"},
		{"flip missed", "One missed day"},
		{"what is ppm", "parts per million"},
		{"can i cure a ham", "pork belly"},
		{"venison", "pork belly"},
		{"cost 1", "Nothing was noted"},
		{"I put the cure in twice", over},
		{"i used 8 g instead of 4.4", "215.1 ppm"},
		{"we have no scale, used a teaspoon", "134.4 to 188.2"}, // 5 to 7 g a level teaspoon, by the same sum
		{"mix spilled", "asks for 4.4 g"},
		{"half the cure fell on the floor", "Add no more by guess"},
		{"white fuzz", "Mould"},
		{"mold", "Mould"},
		{"black spots", "Mould"},
		{"the cat got at it", "discard 1a"},
	} {
		b := worryBench(t)
		before := stands(b)
		if r := b.say(c.line).Text(); !strings.Contains(r, c.wants) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.wants, r)
		}
		if after := stands(b); after != before {
			t.Errorf("%q changed something:\n%s", c.line, after)
		}
	}
}

// Where nothing is known about the meat, it asks; a piece of several is found by what
// should have gone on it.
func TestWorriesFindTheirMeat(t *testing.T) {
	b := newBench(t, store.Memory)
	if r := b.say("i used 8 grams of pink salt instead of 4").Text(); !strings.Contains(r, "check 8 grams curing mix for 5 lb belly") {
		t.Errorf("it does not ask what the meat weighs:\n%s", r)
	}
	b.say("5 lb 2 oz juniper 1.5 in") // worked out, not opened
	if r := b.say("i used 8 grams of pink salt").Text(); !strings.Contains(r, "215.1 ppm") {
		t.Errorf("it does not hold the cure just worked out to the limit:\n%s", r)
	}
	b = newBench(t, store.Memory)
	b.say("open 5 lb 2 oz juniper 1.5 in, 9 lb coffee 1.5 in")
	b.say("yes")
	if r := b.say("i used 8 grams of pink salt").Text(); !strings.Contains(r, "215.1 ppm") || !strings.Contains(r, "122.5 ppm") {
		t.Errorf("it does not name both pieces:\n%s", r)
	}
	if r := b.say("i used 8 grams of pink salt instead of 4.4").Text(); !strings.Contains(r, "215.1 ppm") || strings.Contains(r, "122.5 ppm") {
		t.Errorf("it does not find the piece that 4.4 g were for:\n%s", r)
	}
}

// What is a command stays one, whatever words are in it.
func TestCommandsAreNoWorries(t *testing.T) {
	for _, c := range []struct{ line, wants string }{
		{"note 1 smells funny", "Noted with"},
		{"note 1 forgot the pink salt", "Noted with"},
		{"check 80 g salt, 1 tsp curing mix for 5 lb belly", "nitrite goes in"},
		{"stock mix 500 g", "500"},
		{"nitrite 110 ppm", "no cure worked out yet"},
		{"skip 1 firm, no pink salt crust", "No cure is through in so short a time"},
		{"discard 1 smells sour", "is discarded"},
		{"no", "nothing I asked"},
		{"5 lb just salt and pepper", "salt and pepper"},
		{"2 bellies 5 lb and 6 lb", "b plain"},
		{"5 lb maple for the kids", "maple for the kids"},
		{"open 5 lb maple for my baby brother", "Batch 2 (maple for my baby brother)"},
		{"is the cure check due", "curing, day 0 of 8"},
		{"flip", "flipped"},
		{"how much curing salt for 8 pounds", "6.9 g"}, // 3,628.7 g at 120 ppm of a 6.25 % mix are 6.967 g
		{"dry cure 5 lb", "4.3 g"},
		{"cure 3 bellies 5 lb 4 lb 6 lb", "c plain"},
		{"cost 2", "cost 2.00 noted"},
	} {
		b := worryBench(t)
		if r := b.say(c.line).Text(); !strings.Contains(r, c.wants) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.wants, r)
		}
	}
}

// However an amount is written, a worry about it records nothing and is answered.
func FuzzWorry(f *testing.F) {
	for _, s := range []string{"8", "8.5", "1/2", "½", "-8", "1e9", "0", "1,000", "x", "99999999999999999999", "\x00", "8 g g"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		b := worryBench(t)
		before := stands(b)
		r := b.say("i used " + s + " g of pink salt instead of 4.4")
		if strings.ContainsAny(s, "\n") || len(strings.Fields(s)) > 10 {
			return // a story, and no cry
		}
		if r.Empty() || !hasCaution(r) && strings.Trim(s, "0123456789") == "" && s != "" {
			t.Errorf("%q got no caution:\n%s", s, r.Text())
		}
		if stands(b) != before {
			t.Errorf("%q changed something", s)
		}
	})
}

func hasCaution(r reply.Reply) bool { return strings.Contains(r.Text(), "caution nitrite") }

// What is offered for a word that is no command never records or ends anything that
// was not said: a step is offered for one slip of a letter, and no sentence is.
func TestNothingIsOfferedForASentence(t *testing.T) {
	for _, c := range []struct{ line, offered string }{
		{"dog", ""}, {"one", ""}, {"dine", "done"}, {"fliped 1", "flip"}, {"smokr it all day", ""}, {"flup it over", ""}, {"dicard 1", "discard"}, {"clothe 1", ""},
	} {
		b := worryBench(t)
		before := stands(b)
		r := b.say(c.line).Text()
		if got := strings.Contains(r, "Did you mean"); got != (c.offered != "") || !strings.Contains(r, "Did you mean “"+c.offered) && got {
			t.Errorf("%q, for which %q is to be offered:\n%s", c.line, c.offered, r)
		}
		if stands(b) != before {
			t.Errorf("%q changed something", c.line)
		}
	}
}
