package bot

import (
	"math"
	"testing"
	"time"

	"larderhand/bot/exchange"
	"larderhand/curemath"
	"larderhand/store"
)

// importer is someone under a rule set, without a store: working a recipe out needs
// none.
func importer(t testing.TB, rules curemath.Rules, id string) *Turn {
	t.Helper()
	b := New(Config{Zone: time.UTC, Rules: rules})
	s := defaults(time.UTC)
	s.Rules = id
	return &Turn{bot: b, Conv: store.Conversation{Settings: s}, Loc: time.UTC, Now: time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)}
}

// Whatever file comes in: what is accepted, under any rule set, keeps to that set's
// limit and weighs something sensible.
func FuzzImportedRecipeIsWithinTheLimit(f *testing.F) {
	rules, err := curemath.LoadRules()
	if err != nil {
		f.Fatal(err)
	}
	rd, err := exchange.NewReader()
	if err != nil {
		f.Fatal(err)
	}
	core := curemath.Celsius(66)
	for _, rec := range []exchange.Recipe{
		{Name: "a", Method: "dry rub", Nitrite: 120, Salt: 2.5, Sugar: 1, Mix: 6.25, Core: &core, Thickness: 38, Flavouring: "juniper"},
		{Name: "b", Method: "dry rub", Nitrite: 220, Salt: 2.5, Mix: 6.25, RindOn: true},
		{Name: "c", Method: "immersion", Nitrite: 119, Salt: 3, Sugar: 1, Mix: 0.5, Water: 120, Pickup: 8, Flavouring: "nitrite 900 ppm"},
		{Name: "d", Method: "injection", Nitrite: 100, Salt: 2, Sugar: 1, Mix: 6.25, Pump: 10, Cover: 60, Ascorbate: 550},
		{Name: "e", Method: "dry box", Nitrite: 150, Salt: 3, Sugar: 2, Mix: 6.25, Rubs: 3, Gap: 4},
		{Name: "g", Method: "dry rub", Nitrite: 99.9, Salt: 2.5, Mix: 6.25},
		{Name: "h", Method: "dry rub", Nitrite: 10, Salt: 2.5, Mix: 0.6, RindOn: true},
		{Name: "i", Method: "immersion", Nitrite: 60, Salt: 3, Mix: 6.25, Water: 100},
		{Name: "j", Method: "injection", Nitrite: 40, Salt: 2, Mix: 6.25, Pump: 10, Cover: 60},
		{Name: "k", Method: "dry box", Salt: 3, Mix: 6.25, Rubs: 3, Gap: 4},
		{Name: "f", Method: "dry rub", Nitrite: 110, Salt: 2, Mix: 6.25, MixNitrate: 4},
	} {
		file, err := exchange.Write(rec)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(file)
	}
	f.Fuzz(func(t *testing.T, file []byte) {
		rec, err := rd.Read(file)
		if err != nil {
			return
		}
		var method curemath.Method
		if err := method.UnmarshalText([]byte(rec.Method)); err != nil {
			t.Fatalf("method %q got past the schema", rec.Method)
		}
		for _, set := range rules.All() {
			c, err := importer(t, rules, set.ID).checkRecipe(rec)
			if err != nil {
				continue
			}
			limit := set.BaconLimit(method, rec.RindOn)
			// What is weighed is rounded down, so it can only be less than aimed at.
			if !(c.ingoing > 0) || c.ingoing > limit.Max+0.05 || c.ingoing < limit.Min*0.9 || rec.Nitrite < limit.Min-0.05 {
				t.Errorf("%s: %v ppm taken where %v to %v are allowed: %s", set.ID, c.ingoing, limit.Min, limit.Max, file)
			}
			if c.ingoing > rec.Nitrite+0.05 {
				t.Errorf("%s: %v ppm where the file aims at %v", set.ID, c.ingoing, rec.Nitrite)
			}
			if rec.MixNitrate > 0 {
				t.Errorf("a mix with nitrate was taken: %s", file)
			}
			for _, g := range []curemath.Grams{c.weigh.Mix, c.weigh.Salt, c.weigh.Sugar} {
				if math.IsNaN(float64(g)) || g < 0 || g > 100*curemath.Kilogram {
					t.Errorf("%s: weighs %v: %s", set.ID, g, file)
				}
			}
		}
	})
}
