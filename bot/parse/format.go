package parse

import (
	"strconv"
	"strings"

	"larderhand/curemath"
)

// plain writes a number without exponent and without noughts at its end.
func plain(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }

func rounded(f float64, places int) string {
	s := strconv.FormatFloat(f, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// FormatWeight writes a weight in grams or kilograms such that Weight reads it
// back to within a milligram.
func FormatWeight(g curemath.Grams) string {
	if g >= curemath.Kilogram {
		return rounded(g.Kilograms(), 6) + " kg"
	}
	s := rounded(float64(g), 3)
	if s == "0" {
		return plain(float64(g)*1000) + " mg"
	}
	if i := strings.IndexByte(s, '.'); i > 0 && len(s)-i-1 == 3 && s[0] != '0' {
		s += "0" // a point before exactly three digits could be thousands
	}
	return s + " g"
}

// FormatThickness writes a thickness in millimetres such that Thickness reads it
// back.
func FormatThickness(m curemath.Millimetres) string { return plain(float64(m)) + " mm" }
