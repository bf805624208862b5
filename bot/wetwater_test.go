package bot

import "testing"

// Water as people say it. A US gallon is 3.785411784 L, a quart a quarter of it
// (NIST Handbook 44, appendix C); a litre counts as a kilogram.
func TestWaterInWords(t *testing.T) {
	for said, want := range map[string]float64{
		"5 lb, 2 l water": 2000, "5 lb half gallon water": 1892.7, "5 lb half a gallon of water": 1892.7, "5 lb 2 quarts": 1892.7,
		"5 lb, a gallon of water": 3785.4, "5 lb a gallon": 3785.4, "5 lb one and a half gallons of water": 5678.1, "5 lb 1½ litres": 1500,
		"5 lb two qts of cold water": 1892.7, "5 lb with 2 kg water": 2000, "5 lb 1.5 in": 0, "5 lb": 0, "5 lb half an inch": 0,
	} {
		rest, found := take(counted(said), waterOf)
		if found == "" {
			_, found = take(rest, plainVolumeOf)
		}
		if found == "" {
			if want != 0 {
				t.Errorf("%q: no water", said)
			}
			continue
		}
		got, err := water(found)
		if d := float64(got) - want; err != nil || d > 0.06 || d < -0.06 {
			t.Errorf("%q: %v g, %v", said, got, err)
		}
	}
}
