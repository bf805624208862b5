package bot

import (
	"cmp"
	"strings"

	"larderhand/bot/parse"
	"larderhand/curemath"
)

// Amounts and volumes of water as written in a line.
const (
	amountSaid  = `[\d½¼¾⅓⅔][\d.,/½¼¾⅓⅔]*(?:\s+[\d/½¼¾]+)?`
	volumeUnits = `l|litres?|liters?|ml|gals?|gallons?|qts?|quarts?|pts?|pints?|cups?`
)

// counted writes out in figures a volume said in words: half a gallon, two quarts,
// one and a half litres.
func counted(text string) string {
	figure := func(w string) string {
		return map[string]string{"a": "1", "an": "1", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6"}[strings.ToLower(w)]
	}
	text = halfOf.ReplaceAllStringFunc(text, func(s string) string {
		m := halfOf.FindStringSubmatch(s)
		return cmp.Or(figure(m[1]), "0") + ".5 " + m[2]
	})
	return oneOf.ReplaceAllStringFunc(text, func(s string) string {
		m := oneOf.FindStringSubmatch(s)
		return figure(m[1]) + " " + m[2]
	})
}

// water reads an amount of water or brine by weight or by volume, a litre counted
// as a kilogram (8.33 lb a US gallon, rounded, says the same).
func water(text string) (curemath.Grams, error) {
	m := volumeOf.FindStringSubmatch(text)
	if m == nil {
		return parse.Weight(text)
	}
	litre := 1.0
	switch unit := strings.ToLower(m[2]); {
	case unit == "ml":
		litre = 0.001
	case strings.HasPrefix(unit, "gal"):
		litre = float64(curemath.USGallon / curemath.Litre)
	case strings.HasPrefix(unit, "q"):
		litre = float64(curemath.USGallon / curemath.Litre / 4)
	case strings.HasPrefix(unit, "p"):
		litre = float64(curemath.USGallon / curemath.Litre / 8)
	case strings.HasPrefix(unit, "c"):
		litre = float64(curemath.Cup / curemath.Litre)
	}
	w, err := parse.Weight(m[1] + " kg")
	return w * curemath.Grams(litre), err
}
