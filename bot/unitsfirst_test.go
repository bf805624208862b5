package bot

import "testing"

func TestMetricFirst(t *testing.T) {
	for in, want := range map[string]string{
		"at 34 to 38 °F (1 to 3 °C), never over 40 °F (4 °C)": "at 1 to 3 °C (34 to 38 °F), never over 4 °C (40 °F)",
		"cold (34 to 38 °F, 1 to 3 °C)":                       "cold (1 to 3 °C, 34 to 38 °F)",
		"between 40 and 140 °F (4 and 60 °C)":                 "between 4 and 60 °C (40 and 140 °F)",
		"fridge at 38 °F, 3 °C in the cellar":                 "fridge at 38 °F, 3 °C in the cellar",
		"Frozen (0 °F, −18 °C)":                               "Frozen (−18 °C, 0 °F)",
		"as for 2 in (51 mm), turned":                         "as for 51 mm (2 in), turned",
		"core 150 °F, pit 12 °C colder":                       "core 150 °F, pit 12 °C colder", // two different things
		"80 °F to 45 °F within 10 hours":                      "80 °F to 45 °F within 10 hours",
	} {
		if got := metricFirst(in); got != want {
			t.Errorf("%q became %q, not %q", in, got, want)
		}
		if got := metricFirst(metricFirst(in)); got != want {
			t.Errorf("%q, turned twice, became %q", in, got)
		}
	}
}

// What a scale shows of curing mix says nothing of the units a person thinks in; meat does.
func TestUnitsAreThoseOfMeat(t *testing.T) {
	for line, want := range map[string]bool{
		"2 kg juniper": true, "900 g": true, "cure 1.5 kilos": true, "2268g belly": true,
		"i used 8 g of mix": false, "check 60 g salt, 5 g curing mix for 5 lb": false, "250 g": false, "12.500 grams of hope": false,
	} {
		if got := metricWeight.MatchString(line); got != want {
			t.Errorf("%q: %v", line, got)
		}
	}
}
