package bot_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"larderhand/store"
)

var (
	checkCame = regexp.MustCompile(`That is ([\d.]+) ppm nitrite, ([\d.]+) % salt and ([\d.]+) % sugar`)
	drySalt   = regexp.MustCompile(`\(([\d.]+) % with the mix's own\)`)
	drySugar  = regexp.MustCompile(`(?m)^sugar .*\(([\d.]+) %\)`)
	dryPPM    = regexp.MustCompile(`([\d.]+) ppm nitrite goes in`)
	wetRow    = regexp.MustCompile(`(?m)^(?:once even|injected) +([\d.]+) ppm +([\d.]+) % +([\d.]+) %`)
)

func number(t *testing.T, m []string, i int) float64 {
	t.Helper()
	if len(m) <= i {
		t.Fatalf("not found: %q", m)
	}
	x, err := strconv.ParseFloat(m[i], 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// The button under a checked recipe works out the very cure the check wrote by
// weight, by the recipe's own method: its nitrite, salt and sugar, within what a
// scale rounds off.
func TestTheButtonAfterCheckCarriesTheRecipe(t *testing.T) {
	for _, c := range []struct{ recipe, starts string }{
		{"60 g salt, 50 g brown sugar, 5 g curing mix for 2.268 kg belly", "cure "},
		{"106 g salt, 50 g sugar, 1 tsp prague powder #1, 5 lb belly", "cure "},
		{"salt 2.2%, sugar 1.7%, cure #1 0.25% 5lb", "cure "},
		{"50 g soy sauce, 40 g salt, 30 g honey, 4 g curing mix for 2 kg", "cure "},
		{"57 g curing salt 0.6%, 20 g sugar for 2.4 kg belly", "cure "},
		{"40 g kosher salt, 1/4 cup tangy quick for 1.8 kg belly", "cure "},
		{"250 g salt, 2 l water, 25 g curing salt 0.6%, 2 kg belly", "brine "},
		{"2 l water, 120 g salt, 60 g sugar, 9 g curing mix for 2.2 kg belly", "brine "},
		{"1 gallon water, 300 g salt, 100 g honey, 20 g curing mix for 4 kg belly", "brine "},
		{"1 kg water, 150 g salt, 60 g sugar, 20 g curing mix for 4 kg belly pump 12%", "pump "},
	} {
		for _, mix := range []string{"", "0.5", "5.88"} {
			b := newBench(t, store.Memory)
			if mix != "" {
				b.say("set mix " + mix + "%")
			}
			r := b.say("check " + c.recipe)
			said := checkCame.FindStringSubmatch(r.Text())
			if len(r.Buttons) == 0 {
				t.Errorf("%s, mix %s: no button under\n%s", c.recipe, mix, r.Text())
				continue
			}
			line := r.Buttons[0][0].Line
			if !strings.HasPrefix(line, c.starts) {
				t.Errorf("%s: the button says %s", c.recipe, line)
			}
			text := b.say(line).Text()
			var got [3]float64
			if c.starts == "cure " {
				got = [3]float64{number(t, dryPPM.FindStringSubmatch(text), 1), number(t, drySalt.FindStringSubmatch(text), 1), 0}
				if number(t, said, 3) > 0 {
					got[2] = number(t, drySugar.FindStringSubmatch(text), 1)
				}
			} else {
				m := wetRow.FindStringSubmatch(text)
				got = [3]float64{number(t, m, 1), number(t, m, 2), number(t, m, 3)}
			}
			for i, within := range [3]float64{1.5, 0.05, 0.05} {
				if want := number(t, said, i+1); math.Abs(got[i]-want) > within {
					t.Errorf("%s, mix %s: figure %d is %v, the check said %v\n%s\n%s", c.recipe, mix, i, got[i], want, line, text)
				}
			}
		}
	}
}

// A recipe pasted as people paste it is checked without a command before it.
func TestAPastedRecipeIsChecked(t *testing.T) {
	for text, want := range map[string]string{
		"Here is a recipe I found: 1/2 cup salt, 1/4 cup brown sugar, 2 tsp pink salt, 5 lb belly":  "read the packet",
		"Here is a recipe I found:\n\n1/2 cup salt\n1/4 cup brown sugar\n1 tsp cure #1\n5 lb belly": "For 2268 g of meat, dry rub.",
		"my grandma's rub: 3T kosher, 2T brwn sugr, 1t cure#1, 5 lb belly":                          "“2T brwn sugr” is read as “brown sugar”.",
		"my grandma's rub: 3T kosher, 2T sugar, 1t cure#1":                                          "How much meat is it for?",
		"3T kosher, 2T sugar, 1t prague powder #1, 5 lb belly":                                      "Within the limit.",
		"I put 3 tablespoons of pink salt on it instead of 1 teaspoon":                              "throw it away",
	} {
		if got := newBench(t, store.Memory).say(text).Text(); !strings.Contains(got, want) {
			t.Errorf("%q is answered\n%s", text, got)
		}
	}
}
