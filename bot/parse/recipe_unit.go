package parse

import "larderhand/curemath"

// measureUnit is a unit a recipe measures with. Volumes that differ between the
// US and Britain run from the one to the other.
type measureUnit struct {
	kind   curemath.AmountKind
	mass   curemath.Grams
	volume curemath.Band[curemath.Millilitres]
	symbol string
	none   string // why it is no measure, for words such as "handful"
}

func byMass(g curemath.Grams, symbol string) measureUnit {
	return measureUnit{kind: curemath.ByMass, mass: g, symbol: symbol}
}

func byVolume(v curemath.Millilitres, symbol string) measureUnit {
	return measureUnit{kind: curemath.ByVolume, volume: curemath.Exactly(v), symbol: symbol}
}

// Imperial measures, exact (1 imperial gallon = 4.54609 L).
const imperialPint curemath.Millilitres = 568.26125

func pints(n float64, symbol string) measureUnit {
	us := curemath.USGallon / 8
	return measureUnit{kind: curemath.ByVolume, symbol: symbol, volume: curemath.Band[curemath.Millilitres]{
		Low: us * curemath.Millilitres(n), Typical: us * curemath.Millilitres(n), High: imperialPint * curemath.Millilitres(n),
	}}
}

// measureNamed knows the one-word measures. Kitchen amounts without a standard
// (pinch, dash, drop) are common practice, no source.
func measureNamed(name string) (measureUnit, bool) {
	switch name {
	case "tsp", "tsps", "teaspoon", "teaspoons", "teaspoonful", "teaspoonfuls":
		return byVolume(curemath.Teaspoon, "tsp"), true
	case "tbsp", "tbsps", "tbs", "tblsp", "tablespoon", "tablespoons", "tablespoonful", "tablespoonfuls":
		return byVolume(curemath.Tablespoon, "tbsp"), true
	case "cup", "cups", "cupful", "cupfuls":
		return byVolume(curemath.Cup, "cup"), true
	case "floz":
		return byVolume(curemath.FluidOunce, "fl oz"), true
	case "ml", "mls", "millilitre", "millilitres", "milliliter", "milliliters", "cc":
		return byVolume(1, "ml"), true
	case "cl", "centilitre", "centilitres", "centiliter", "centiliters":
		return byVolume(10, "cl"), true
	case "dl", "decilitre", "decilitres", "deciliter", "deciliters":
		return byVolume(100, "dl"), true
	case "l", "litre", "litres", "liter", "liters":
		return byVolume(curemath.Litre, "l"), true
	case "pt", "pint", "pints":
		return pints(1, "pint"), true
	case "qt", "qts", "quart", "quarts":
		return pints(2, "quart"), true
	case "gal", "gals", "gallon", "gallons":
		return pints(8, "gallon"), true
	case "shot", "shots", "jigger", "jiggers":
		return byVolume(1.5*curemath.FluidOunce, "shot"), true
	case "pinch", "pinches":
		return measureUnit{kind: curemath.ByVolume, symbol: "pinch", volume: curemath.Band[curemath.Millilitres]{Low: 0.2, Typical: curemath.Teaspoon / 16, High: 0.6}}, true
	case "dash", "dashes":
		return measureUnit{kind: curemath.ByVolume, symbol: "dash", volume: curemath.Band[curemath.Millilitres]{Low: 0.3, Typical: curemath.Teaspoon / 8, High: 1}}, true
	case "drop", "drops":
		return byVolume(0.05, "drop"), true
	case "handful", "handfuls", "splash", "glug", "bunch", "bunches", "knob", "part", "parts", "packet", "packets", "pack",
		"packs", "pkg", "bag", "bags", "bottle", "bottles", "can", "cans", "jar", "jars", "scoop", "scoops", "spoon", "spoons":
		return measureUnit{none: name}, true
	}
	if u, ok := unitNamed(name); ok && u.dim == mass && u.factor > 0 {
		return byMass(curemath.Grams(u.factor), u.symbol), true
	}
	return measureUnit{}, false
}

// measureAt reads the measure at token i, right after a number, and says how
// many tokens it takes.
func (l line) measureAt(i int) (measureUnit, int, bool) {
	t := l.at(i)
	skip := 0
	if t.is("-") && t.glued && l.at(i+1).kind == word { // 5-lb belly
		skip, i = 1, i+1
		t = l.at(i)
	}
	switch {
	case t.is("%"), t.is("percent"), t.is("pct"):
		return measureUnit{kind: curemath.ByShare, symbol: "%"}, skip + 1, true
	case t.is("per") && l.at(i+1).is("cent"):
		return measureUnit{kind: curemath.ByShare, symbol: "%"}, skip + 2, true
	case t.is("#") && t.glued && l.at(i+1).kind != numeric:
		return byMass(curemath.Pound, "lb"), skip + 1, true
	case t.kind != word:
		return measureUnit{}, 0, false
	case t.is("g") && l.at(i+1).is("/") && l.at(i+2).is("kg"):
		return measureUnit{kind: curemath.ByShare, symbol: "g/kg"}, skip + 3, true
	case t.is("fl"), t.is("fluid"):
		n := 1
		if l.at(i + n).is(".") {
			n++
		}
		switch next := l.at(i + n); {
		case next.is("oz"), next.is("ounce"), next.is("ounces"), next.is("ozs"):
			return byVolume(curemath.FluidOunce, "fl oz"), skip + n + 1 + l.stop(i+n+1), true
		}
		return measureUnit{}, 0, false
	}
	// A capital T is a tablespoon where a small t is a teaspoon.
	switch l.src[t.start:t.end] {
	case "T":
		return byVolume(curemath.Tablespoon, "tbsp"), skip + 1 + l.stop(i+1), true
	case "t":
		return byVolume(curemath.Teaspoon, "tsp"), skip + 1 + l.stop(i+1), true
	}
	u, ok := measureNamed(t.text)
	if !ok {
		return measureUnit{}, 0, false
	}
	return u, skip + 1 + l.stop(i+1), true
}

// stop is 1 if a full stop hangs on the token before i (tsp. lb.) and goes on
// with a word or number.
func (l line) stop(i int) int {
	if t := l.at(i); t.is(".") && t.glued {
		return 1
	}
	return 0
}
