package bot

import (
	"strings"
	"testing"

	"larderhand/bot/exchange"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// soundRecipe is one that every rule set takes.
func soundRecipe() exchange.Recipe {
	core := curemath.Celsius(66)
	return exchange.Recipe{Name: "club juniper", Method: "dry rub", Nitrite: 115, Salt: 2.5, Sugar: 1, Mix: 6.25, Thickness: 38, Days: 9, SmokeHours: 6, Core: &core}
}

// answer is what is said to a file: why it is refused, or what is to be minded.
func answer(t *testing.T, turn *Turn, rd *exchange.Reader, file string) (refused, minds string) {
	t.Helper()
	rec, err := rd.Read([]byte(file))
	if err != nil {
		return err.Error(), ""
	}
	c, err := turn.checkRecipe(rec)
	if err != nil {
		return unsafe(rec.Name, err).Error(), ""
	}
	var r reply.Reply
	turn.sayMinds(&r, rec)
	sayExample(&r, rec.Example, c.weigh)
	return "", r.Text()
}

// One thing wrong with a sound recipe, by its file, under each rule set. The limits:
// 9 CFR 424.22(b) (second-hand, not checked against the text), Health Canada's list of
// permitted preservatives part 1 (second-hand, not checked against the text) and
// Regulation (EU) 2023/2108 (from memory); the floor of 100 ppm: CFIA's definition of
// curing (second-hand, not checked against the text).
func TestImportRefusesEachUnsafeWay(t *testing.T) {
	rules, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	rd, err := exchange.NewReader()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name   string
		change func(*exchange.Recipe)
		swap   [2]string         // in the file as written
		why    map[string]string // by rule set; "" stands for those not named. An empty reason: it is kept
		mind   string            // said where it is kept
	}{
		{name: "sound"},
		{name: "no nitrite", change: func(r *exchange.Recipe) { r.Nitrite = 0 }, why: map[string]string{"": "0 ppm nitrite is too little"}},
		{name: "10 ppm", change: func(r *exchange.Recipe) { r.Nitrite = 10 }, why: map[string]string{"": "10 ppm nitrite is too little"}},
		{name: "60 ppm", change: func(r *exchange.Recipe) { r.Nitrite = 60 }, why: map[string]string{"": "under 100 ppm it cannot be counted on against botulism"}},
		{name: "over the Canadian limit", change: func(r *exchange.Recipe) { r.Nitrite = 150 }, why: map[string]string{"ca": "150 ppm nitrite is over the limit of 120 ppm", "eu": "over the limit of 119.97 ppm", "us": ""}},
		{name: "900 ppm", change: func(r *exchange.Recipe) { r.Nitrite = 900 }, why: map[string]string{"us": "over the limit of 200 ppm", "ca": "over the limit of 120 ppm", "eu": "over the limit of 119.97 ppm"}},
		{name: "a mix with nitrate", change: func(r *exchange.Recipe) { r.MixNitrate = 4 }, why: map[string]string{"": "nitrate is not allowed in bacon"}},
		{name: "no salt", change: func(r *exchange.Recipe) { r.Salt = 0 }, mind: "0.17 % salt is bland"},
		{name: "40 % salt", change: func(r *exchange.Recipe) { r.Salt = 40 }, why: map[string]string{"": "40 % is outside 0 to 15 %"}},
		{name: "60 % sugar", change: func(r *exchange.Recipe) { r.Sugar = 60 }, why: map[string]string{"": "60 % is outside 0 to 20 %"}},
		{name: "a mix of 0.1 %", change: func(r *exchange.Recipe) { r.Mix = 0.1 }, why: map[string]string{"": "A curing mix of 0.1 % nitrite cannot be worked with"}},
		{name: "pure nitrite", change: func(r *exchange.Recipe) { r.Mix = 100 }, why: map[string]string{"": "does not belong in a kitchen"}},
		{name: "400 mm", change: func(r *exchange.Recipe) { r.Thickness = 400 }, why: map[string]string{"": "A slab 400 mm thick is outside"}},
		{name: "9000 ppm ascorbate", change: func(r *exchange.Recipe) { r.Ascorbate = 9000 }, why: map[string]string{"": "outside 0 to 550 ppm"}},
		{name: "brine without water", change: func(r *exchange.Recipe) { r.Method = "immersion" }, why: map[string]string{"": "how much water"}},
		{name: "pump without pickle", change: func(r *exchange.Recipe) { r.Method = "injection" }, why: map[string]string{"": "water or pickle"}},
		{name: "brine too strong", change: func(r *exchange.Recipe) { r.Method, r.Water, r.Nitrite = "immersion", 100, 180 }, why: map[string]string{"us": "over the limit of 120 ppm (9 CFR", "": "over the limit of 1"}},
		{name: "later format", swap: [2]string{`"format_version": 1`, `"format_version": 2`}, why: map[string]string{"": "not a recipe in the form I know"}},
		{name: "something unknown", swap: [2]string{`"sugar_percent`, `"extra_nitrite_g": 5, "sugar_percent`}, why: map[string]string{"": "extra_nitrite_g"}},
		{name: "days too few", change: func(r *exchange.Recipe) { r.Thickness, r.Days = 60, 1 }, mind: "1 day in the cure: too few at 2.36 in. The day rule asks for 14"},
		{name: "days too few, not measured", change: func(r *exchange.Recipe) { r.Thickness, r.Days = 0, 1 }, mind: "The day rule asks for 6"},
		{name: "days past all", change: func(r *exchange.Recipe) { r.Days = 200 }, mind: "200 days in the cure are past"},
		{name: "core raw", change: func(r *exchange.Recipe) { c := curemath.Celsius(40); r.Core = &c }, mind: "smoked to 104 °F at the core it is raw bacon"},
		{name: "900 h of smoke", change: func(r *exchange.Recipe) { r.SmokeHours = 900 }, mind: "900 h of smoke looks like a slip"},
		{name: "a wrong dose beside it", change: func(r *exchange.Recipe) { r.Example = &exchange.Example{Mix: 17, Salt: 23, Sugar: 10} }, mind: "The file says 17 g of curing mix"},
		{name: "no known method", swap: [2]string{`"dry rub"`, `"by hope"`}, why: map[string]string{"": "method: value must be one of"}},
	} {
		for _, id := range []string{"us", "ca", "eu"} {
			t.Run(c.name+"/"+id, func(t *testing.T) {
				rec := soundRecipe()
				if c.change != nil {
					c.change(&rec)
				}
				file, err := exchange.Write(rec)
				if err != nil {
					t.Fatal(err)
				}
				said := string(file)
				if c.swap[0] != "" {
					if said = strings.Replace(said, c.swap[0], c.swap[1], 1); said == string(file) {
						t.Fatalf("%s is not in the file", c.swap[0])
					}
				}
				refused, minds := answer(t, importer(t, rules, id), rd, said)
				why, named := c.why[id]
				if !named {
					why = c.why[""]
				}
				if (refused == "") != (why == "") || !strings.Contains(refused, why) {
					t.Errorf("refused with %q, want %q", refused, why)
				}
				if !strings.Contains(minds, c.mind) {
					t.Errorf("said %q, want %q", minds, c.mind)
				}
				if c.mind == "" && (strings.Contains(minds, "day") || strings.Contains(minds, "raw") || strings.Contains(minds, "slip") || strings.Contains(minds, "bland")) {
					t.Errorf("a sound recipe is doubted: %q", minds)
				}
			})
		}
	}
}
