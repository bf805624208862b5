package parse

import (
	"slices"
	"strings"
)

// headingWords takes a heading apart: "Core_A (°F)" is core, a, f.
func headingWords(name string) []string {
	return strings.FieldsFunc(foldText(name), func(r rune) bool { return !letter(r) })
}

// roleNamed reads a heading.
func roleNamed(name string) (Role, string) {
	words := headingWords(name)
	has := func(options ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(options, w) })
	}
	hangs := func(p place) bool {
		return slices.ContainsFunc(words, func(w string) bool { return placeNamed(w) == p && w != "probe" })
	}
	switch {
	case has("elapsed", "seconds", "minutes"):
		return TimeColumn, ""
	case aside(words):
		return Unused, ""
	case has("time", "timestamp", "datetime", "clock", "zeit", "uhrzeit"):
		return TimeColumn, ""
	case has("date", "day", "datum"):
		return DateColumn, ""
	case hangs(pit), has("grill", "box"):
		return PitColumn, ""
	case hangs(core), has("food"):
		return CoreColumn, pieceNamed(name, words)
	}
	return Unused, ""
}

// aside says whether a heading tells that a column is no temperature measured in
// pit or core.
func aside(words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool {
		switch w {
		case "set", "setpoint", "target", "goal", "alarm", "fan", "battery", "humidity", "signal", "min", "max", "high", "low",
			"id", "no", "number", "index", "row":
			return true
		}
		return false
	})
}

// pieceNamed finds the letter of a piece in a heading. f and c are scales unless
// they stand right after the word for a core.
func pieceNamed(name string, words []string) string {
	for i, w := range words {
		switch {
		case len(w) != 1 || w < "a" || w > "z" || w == "t":
		case w != "f" && w != "c":
			return w
		case i > 0 && placeNamed(words[i-1]) == core && unitInHeading(name) == UnitUnknown:
			return w
		}
	}
	return ""
}
