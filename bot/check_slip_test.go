package bot

import (
	"testing"

	"larderhand/curemath"
)

// Slips of one letter are put right where only one thing can be meant; what may
// be a cure never becomes anything that is none.
func TestUnslip(t *testing.T) {
	p, err := curemath.LoadPantry()
	if err != nil {
		t.Fatal(err)
	}
	for said, want := range map[string]string{
		"brwn sugr":            "brown sugar",
		"browm sugar":          "brown sugar",
		"maple syrip":          "maple syrup",
		"slt":                  "salt",
		"curng salt":           "curing salt",
		"prage powder #1":      "prague powder no 1",
		"nitritd salt":         "nitrite salt",
		"jumiper berries":      "juniper berries",
		"brown sugar":          "", // right as it is
		"our own brand salt":   "",
		"moon dust":            "",
		"Tobias's rum":         "",
		"nevercure":            "",
		"tangy quick":          "",
		"xyz":                  "",
		"":                     "",
		"qqqq wwww eeee rrrrr": "",
	} {
		got, ok := unslip(p, p.Words(), said)
		if got == "" == ok || ok && got != want || !ok && want != "" {
			t.Errorf("%q is read as %q (%v), want %q", said, got, ok, want)
		}
	}
}
