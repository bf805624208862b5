package parse

import (
	"time"

	"larderhand/curemath"
)

// dimension is what a unit measures.
type dimension int

const (
	noDimension dimension = iota
	mass
	volume
	length
	share // of the meat, in percent
	parts // per million
	heat
	span // of time
)

// unit is one unit: how much it is of the base of its dimension (gram,
// millimetre, percent, ppm, second). For heat, symbol is "F" or "C".
type unit struct {
	dim    dimension
	factor float64
	symbol string
}

func seconds(d time.Duration) float64 { return d.Seconds() }

// unitNamed knows the one-word units. Doubtful ones have factor 0: they are
// recognised so that they can be asked about.
func unitNamed(name string) (unit, bool) {
	switch name {
	case "g", "gram", "grams", "gramme", "grammes", "gm", "gms":
		return unit{mass, 1, "g"}, true
	case "kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes":
		return unit{mass, float64(curemath.Kilogram), "kg"}, true
	case "mg", "mgs", "milligram", "milligrams":
		return unit{mass, 0.001, "mg"}, true
	case "dag", "dkg", "deka":
		return unit{mass, 10, "dag"}, true
	case "lb", "lbs", "pound", "pounds":
		return unit{mass, float64(curemath.Pound), "lb"}, true
	case "oz", "ozs", "ounce", "ounces":
		return unit{mass, float64(curemath.Ounce), "oz"}, true
	case "t", "ton", "tons", "tonne", "tonnes":
		return unit{mass, 0, "t"}, true
	case "gr", "grain", "grains":
		return unit{mass, 0, "gr"}, true
	case "st", "stone", "stones":
		return unit{mass, 0, "st"}, true
	case "ml", "cl", "dl", "l", "litre", "litres", "liter", "liters", "millilitre", "millilitres", "milliliter",
		"milliliters", "cup", "cups", "tsp", "teaspoon", "teaspoons", "tbsp", "tablespoon", "tablespoons",
		"spoon", "spoons", "pint", "pints", "quart", "quarts", "gal", "gallon", "gallons", "floz":
		return unit{volume, 0, name}, true
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return unit{length, 1, "mm"}, true
	case "cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters":
		return unit{length, 10, "cm"}, true
	case "in", "inch", "inches", "ins":
		return unit{length, float64(curemath.Inch), "in"}, true
	case "percent", "pct", "pc":
		return unit{share, 1, "%"}, true
	case "ppm":
		return unit{parts, 1, "ppm"}, true
	case "f", "fahrenheit":
		return unit{heat, 1, "F"}, true
	case "c", "celsius", "centigrade":
		return unit{heat, 1, "C"}, true
	}
	return timeUnit(name)
}

func timeUnit(name string) (unit, bool) {
	switch name {
	case "s", "sec", "secs", "second", "seconds":
		return unit{span, seconds(time.Second), "s"}, true
	case "m", "min", "mins", "minute", "minutes":
		return unit{span, seconds(time.Minute), "min"}, true
	case "h", "hr", "hrs", "hour", "hours":
		return unit{span, seconds(time.Hour), "h"}, true
	case "d", "day", "days":
		return unit{span, seconds(24 * time.Hour), "d"}, true
	case "w", "wk", "wks", "week", "weeks":
		return unit{span, seconds(7 * 24 * time.Hour), "wk"}, true
	}
	return unit{}, false
}

// unitAt reads the unit at token i, which stands right after a number, and says
// how many tokens it takes.
func (l line) unitAt(i int) (unit, int, bool) {
	t := l.at(i)
	if t.is("-") && t.glued && l.at(i+1).kind == word { // 5-lb belly
		if u, n, ok := l.unitAt(i + 1); ok {
			return u, n + 1, true
		}
		return unit{}, 0, false
	}
	next := l.at(i + 1)
	switch t.kind {
	case mark:
		switch t.text {
		case "%":
			return unit{share, 1, "%"}, 1, true
		case `"`:
			return unit{length, float64(curemath.Inch), "in"}, 1, true
		case "'":
			if next.is("'") && next.glued {
				return unit{length, float64(curemath.Inch), "in"}, 2, true
			}
		case "#":
			if t.glued || next.kind != numeric {
				return unit{mass, float64(curemath.Pound), "lb"}, 1, true
			}
		case "°":
			if next.is("f") || next.is("c") {
				return unit{heat, 1, map[bool]string{true: "F", false: "C"}[next.is("f")]}, 2, true
			}
			return unit{heat, 1, ""}, 1, true
		}
		return unit{}, 0, false
	case word:
		return l.wordUnit(i)
	}
	return unit{}, 0, false
}

// wordUnit reads units of one or several words.
func (l line) wordUnit(i int) (unit, int, bool) {
	follow := func(words ...string) bool {
		for k, w := range words {
			if !l.at(i + k).is(w) {
				return false
			}
		}
		return true
	}
	switch {
	case follow("fl", ".", "oz"), follow("fl", ".", "ounces"), follow("fl", ".", "ounce"):
		return unit{volume, 0, "fl oz"}, 3, true
	case follow("fl", "oz"), follow("fluid", "ounce"), follow("fluid", "ounces"), follow("fluid", "oz"), follow("fl", "ounces"):
		return unit{volume, 0, "fl oz"}, 2, true
	case follow("mg", "/", "kg"):
		return unit{parts, 1, "ppm"}, 3, true
	case follow("parts", "per", "million"):
		return unit{parts, 1, "ppm"}, 3, true
	case follow("g", "/", "kg"):
		return unit{share, 0.1, "%"}, 3, true
	case follow("per", "cent"):
		return unit{share, 1, "%"}, 2, true
	case follow("deg"), follow("degs"), follow("degree"), follow("degrees"):
		if u, ok := unitNamed(l.at(i + 1).text); ok && u.dim == heat && l.at(i+1).kind == word {
			return u, 2, true
		}
		return unit{heat, 1, ""}, 1, true
	}
	u, ok := unitNamed(l.at(i).text)
	if !ok {
		return unit{}, 0, false
	}
	n := 1
	if dot := l.at(i + 1); u.dim != heat && dot.is(".") && dot.glued && abbreviated(u, l.at(i).text) {
		n++
	}
	return u, n, true
}

// abbreviated says whether a full stop after the unit belongs to it (lb. oz.
// in.) and does not end a sentence.
func abbreviated(u unit, text string) bool { return len(text) <= 4 && u.dim != noDimension }
