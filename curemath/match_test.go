package curemath

import "testing"

// Names as people write them, and what they are read as: a row of the table, a
// mix, meat, or nothing where reading on would drop or change something.
func TestNamesAreRead(t *testing.T) {
	p, err := LoadPantry()
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"salt":                           "salt",
		"Salt":                           "salt",
		"coarse kosher salt":             "kosher-salt",
		"our own brand kosher salt":      "kosher-salt",
		"fine sea salt, iodised":         "fine-salt",
		"packed dark brown sugar":        "brown-sugar-packed",
		"maple sugar":                    "maple-sugar",
		"grade A dark maple syrup":       "maple-syrup",
		"dark rum":                       "spirit",
		"Tobias's favourite rum":         "spirit",
		"rum or bourbon":                 "spirit",
		"salt or curing salt":            "",
		"freshly cracked black pepper":   "cracked-pepper",
		"black peppercorns, crushed":     "peppercorns",
		"black pepper to taste":          "ground-pepper",
		"juniper berries":                "whole-spice",
		"cloves garlic":                  "garlic-fresh",
		"cloves":                         "whole-spice",
		"bay leaves":                     "bay",
		"sprigs of thyme":                "fresh-herb",
		"cold water":                     "water",
		"water for the brine":            "water",
		"low sodium soy sauce":           "soy-sauce",
		"curing salt":                    "standard",
		"pink curing salt #1":            "standard",
		"Cure No. 1":                     "standard",
		"cure #2":                        "no2",
		"Pökelsalz":                      "nitrited-0.5",
		"pink salt":                      "pink-salt",
		"Himalayan pink salt":            "pink-table-salt",
		"pork belly":                     "meat",
		"whole boneless pork belly slab": "meat",
		"skinless bellies":               "meat",
		"salt and pepper":                "", // two things in one amount
		"salt substitute":                "",
		"salt-free seasoning":            "",
		"no salt":                        "",
		"unsalted butter":                "",
		"pepper sauce":                   "hot-sauce",
		"sugar snap peas":                "",
		"teriyaki sauce":                 "",
		"honey mustard":                  "",
		"moon dust":                      "",
		"":                               "",
		"#":                              "",
		"no":                             "",
	} {
		m := p.find(name)
		got := ""
		switch {
		case m.meat:
			got = "meat"
		case m.cure != nil:
			got = m.cure.ID
		case m.row != nil:
			got = m.row.ID
		}
		if got != want {
			t.Errorf("%q is read as %q, want %q", name, got, want)
		}
	}
}

func TestMayBeCure(t *testing.T) {
	for name, want := range map[string]bool{
		"moon curing powder": true, "secret rub": true, "saltwort": true, "nitrite thing": true, "dry mix": true,
		"curry paste": false, "moon dust": false, "ruby chocolate": false,
	} {
		if got := mayBeCure(name); got != want {
			t.Errorf("%q: %v", name, got)
		}
	}
}

// A mistake in a data file is found when it is read, not when somebody cures.
func TestBrokenDataIsRefused(t *testing.T) {
	for name, file := range map[string]string{
		"not json":         `{`,
		"unknown key":      `{"typo": 1}`,
		"no floor":         `{"rind": {"factor": 0.9, "source": {"status": "found"}}, "rule_sets": []}`,
		"no rind":          `{"floor": {"min": 100, "source": {"status": "found"}}, "rule_sets": []}`,
		"no us":            `{"floor": {"min": 100, "source": {"status": "found"}}, "rind": {"factor": 0.9, "source": {"status": "found"}}, "rule_sets": []}`,
		"row without unit": `{"floor": {"min": 100, "source": {"status": "found"}}, "rind": {"factor": 0.9, "source": {"status": "found"}}, "rule_sets": [{"id": "us", "limits": [{"product": "bacon", "methods": ["dry rub"], "max": 200, "what": "w", "source": {"document": "d", "status": "found"}}]}]}`,
		"row, no source":   `{"floor": {"min": 100, "source": {"status": "found"}}, "rind": {"factor": 0.9, "source": {"status": "found"}}, "rule_sets": [{"id": "us", "limits": [{"product": "bacon", "methods": ["dry rub"], "max": 200, "stated_as": "sodium nitrite", "what": "w"}]}]}`,
		"unknown method":   `{"rule_sets": [{"id": "us", "limits": [{"methods": ["wishing"]}]}]}`,
		"bad date":         `{"floor": {"min": 100, "source": {"status": "found"}}, "rind": {"factor": 0.9, "source": {"status": "found"}}, "rule_sets": [{"id": "us", "limits": [{"product": "bacon", "methods": ["dry rub"], "max": 200, "stated_as": "sodium nitrite", "what": "w", "from": "soon", "source": {"document": "d", "status": "found"}}]}]}`,
		"methods missing":  `{"floor": {"min": 100, "source": {"status": "found"}}, "rind": {"factor": 0.9, "source": {"status": "found"}}, "rule_sets": [{"id": "us", "limits": [{"product": "bacon", "methods": ["dry rub"], "max": 200, "stated_as": "sodium nitrite", "what": "w", "source": {"document": "d", "status": "found"}}]}]}`,
	} {
		if _, err := readRules([]byte(file)); err == nil {
			t.Errorf("rules, %s: read", name)
		}
	}
	mixes, err := LoadMixes()
	if err != nil {
		t.Fatal(err)
	}
	row := func(s string) string { return `{"ingredients": [` + s + `]}` }
	const sources = `"weight_source": {"status": "practice"}, "make_up_source": {"status": "practice"}`
	for name, file := range map[string]string{
		"not json":     `[`,
		"unknown key":  row(`{"colour": "pink"}`),
		"no source":    row(`{"id": "a", "name": "a", "kind": "salt", "tsp": [1, 2, 3]}`),
		"no measure":   row(`{"id": "a", "name": "a", "kind": "salt", ` + sources + `}`),
		"upside down":  row(`{"id": "a", "name": "a", "kind": "salt", "tsp": [3, 2, 1], ` + sources + `}`),
		"two figures":  row(`{"id": "a", "name": "a", "kind": "salt", "tsp": [1, 2], ` + sources + `}`),
		"over 100 %":   row(`{"id": "a", "name": "a", "kind": "salt", "tsp": [1, 2, 3], "make_up": {"salt": [80], "water": [40]}, ` + sources + `}`),
		"name of cure": row(`{"id": "a", "name": "curing salt", "kind": "salt", "tsp": [1, 2, 3], ` + sources + `}`),
		"same name":    row(`{"id": "a", "name": "a", "kind": "salt", "tsp": [1, 2, 3], ` + sources + `}, {"id": "b", "name": "A", "kind": "salt", "tsp": [1, 2, 3], ` + sources + `}`),
	} {
		if _, err := readPantry([]byte(file), mixes); err == nil {
			t.Errorf("ingredients, %s: read", name)
		}
	}
}
