package parse

import (
	"strings"

	"larderhand/curemath"
)

// key is a setting that a share is given for.
type key int

const (
	noKey key = iota
	saltKey
	sugarKey
	nitriteKey
	mixKey
	nitrateKey
	ascorbateKey
)

// name is the word a person uses for the setting.
func (k key) name() string {
	return [...]string{"", "salt", "sugar", "nitrite", "mix", "nitrate", "ascorbate"}[k]
}

// example is a line that sets it.
func (k key) example() string {
	return [...]string{cureExample, "salt 2.5 %", "sugar 1 %", "nitrite 120 ppm", "mix 6.25 %", "mix 6.25 % + 4 % nitrate", "ascorbate 500 ppm"}[k]
}

// byWeight says why a setting takes no weight.
func (k key) byWeight() string {
	switch k {
	case mixKey, nitrateKey:
		return "I work out the grams of mix; tell me what it holds"
	case nitriteKey, ascorbateKey:
		return "I work out the grams; tell me the ppm you aim for"
	}
	return k.name() + " goes by its share of the meat, not by weight"
}

// keyAt reads the word for a setting, with what describes it (brown sugar, sea
// salt, curing salt), and says how many tokens it takes.
func (l line) keyAt(i int) (key, int) {
	n := 0
	for n < 3 && describes(l.at(i+n).text) {
		n++
	}
	first := l.at(i + n).text
	switch first {
	case "salt":
		if n > 0 && curing(l.at(i+n-1).text) {
			return mixKey, n + 1
		}
		return saltKey, n + 1
	case "sugar":
		return sugarKey, n + 1
	case "mix":
		return mixKey, n + 1
	case "nitrite":
		switch l.at(i + n + 1).text {
		case "mix", "salt":
			return mixKey, n + 2
		case "target", "aim":
			return nitriteKey, n + 2
		}
		return nitriteKey, n + 1
	case "target", "aim": // of nitrite, in ppm
		if u, _, ok := l.unitAt(i + n + 2); l.at(i+n+1).kind == numeric && (!ok || u.dim == parts) {
			return nitriteKey, n + 1
		}
	case "nitrate":
		return nitrateKey, n + 1
	case "ascorbate", "erythorbate":
		return ascorbateKey, n + 1
	case "acid":
		if n > 0 && l.at(i+n-1).is("ascorbic") {
			return ascorbateKey, n + 1
		}
	}
	return noKey, 0
}

func curing(s string) bool { return s == "curing" || s == "cure" || s == "pink" || s == "nitrited" }

// describes knows the words that may stand before salt, sugar and the rest
// without changing what is set.
func describes(s string) bool {
	switch s {
	case "brown", "white", "cane", "maple", "raw", "dark", "light", "muscovado", "demerara", "sea", "kosher", "table",
		"rock", "pickling", "fine", "coarse", "total", "sodium", "potassium", "ascorbic", "pink", "curing", "cure", "nitrited":
		return true
	}
	return false
}

// soft words carry nothing by themselves and stay inside a flavouring.
func soft(s string) bool {
	switch s {
	case "of", "a", "an", "the", "with", "in", "for", "at", "to", "is", "are", "it", "it's", "its", "my", "our", "i", "we", "have",
		"got", "some", "about", "approx", "approximately", "roughly", "around", "ca", "this", "that", "on", "only", "use", "using", "want",
		"please", "me", "i've", "has", "just", "then", "there", "was", "set":
		return true
	}
	return false
}

// hard words carry nothing and never belong to a flavouring.
func hard(s string) bool {
	switch s {
	case "belly", "bellies", "pork", "meat", "bacon", "piece", "pieces", "slab", "slabs", "thick", "thickness", "weight", "weighs",
		"weighing", "weigh", "equilibrium", "cure", "curing", "cured", "open", "flavoured", "flavored", "flavour", "flavor", "flavouring", "seasoned",
		"seasoning", "rubbed", "bag", "bagged", "target", "aim", "aiming", "start", "new", "batch":
		return true
	}
	return false
}

// skippable says whether the token at i may stand before the first number.
func (l line) skippable(i int) bool {
	t := l.at(i)
	switch t.kind {
	case word:
		return soft(t.text) || hard(t.text)
	case mark:
		return t.text != "#" && t.text != "@" && t.text != "/" && t.text != "!"
	}
	return t.kind == newline
}

// nearlyMass says whether a word after a number was meant as a unit of weight:
// 5 lbb.
func nearlyMass(s string) bool {
	for _, start := range [...]string{"lb", "kg", "oz", "pou", "oun", "kil", "gra"} {
		if strings.HasPrefix(s, start) {
			return true
		}
	}
	return false
}

func notNumber(s string) bool {
	return s == "nan" || s == "inf" || s == "infinity" || s == "∞"
}

// ptr gives the address of a copy.
func ptr[T any](v T) *T { return &v }

// rindAt reads what is said about the rind.
func (l line) rindAt(i int) (on bool, n int, ok bool) {
	rind := func(k int) bool { return l.at(k).is("rind") || l.at(k).is("skin") }
	t := l.at(i)
	switch t.text {
	case "rind-on", "skin-on":
		return true, 1, true
	case "rind-off", "skin-off", "rindless", "skinless", "derinded", "skinned":
		return false, 1, true
	case "no", "without", "with":
		k := i + 1
		if l.at(k).is("the") || l.at(k).is("its") {
			k++
		}
		if rind(k) && !l.at(k+1).is("on") && !l.at(k+1).is("off") {
			return t.text == "with", k + 1 - i, true
		}
		return false, 0, false
	}
	if !rind(i) {
		return false, 0, false
	}
	k := i + 1
	for l.at(k).is(":") || l.at(k).is("=") || l.at(k).is("is") || l.at(k).is("still") || l.at(k).is("left") {
		k++
		if k > i+4 {
			break
		}
	}
	switch l.at(k).text {
	case "on", "yes":
		return true, k + 1 - i, true
	case "off", "no", "removed", "gone":
		return false, k + 1 - i, true
	}
	return false, 0, true
}

// methodAt reads how the cure is applied.
func (l line) methodAt(i int) (string, int) {
	t, next := l.at(i), l.at(i+1)
	switch t.text {
	case "dry":
		switch next.text {
		case "cure", "cured", "curing", "rub", "rubbed", "brine", "brined", "salted", "bag":
			return "dry", 2
		}
		if next.kind == 0 || next.kind == newline || next.is(",") || next.is(";") || l.at(i-1).is("method") {
			return "dry", 1
		}
	case "dry-cure", "dry-cured", "dry-rub", "dry-rubbed", "dry-brine", "dry-brined":
		return "dry", 1
	case "wet":
		switch next.text {
		case "cure", "cured", "curing", "brine", "brined":
			return "brine", 2
		}
	case "wet-cure", "wet-cured", "brine", "brined", "immersion", "immersed":
		if next.is("cure") || next.is("cured") || next.is("brine") {
			return "brine", 2
		}
		return "brine", 1
	case "pump", "pumped", "inject", "injected", "injection":
		return "pump", 1
	case "box", "box-cured", "salt-box":
		return "box", 1
	case "salt":
		if next.is("box") {
			return "box", 2
		}
	}
	return "", 0
}

// fridge makes the temperature of a fridge of a quantity that names its scale.
func (l line) fridge(q quantity) (curemath.Celsius, *Problem) {
	f, p := l.temperature(q, UnitUnknown)
	if p != nil {
		p.Example = "fridge 38 F"
		if p.Kind == NoUnit {
			p.Example = "fridge " + suggest(q.amount(), "F", 1000, "38 F")
		}
		return 0, p
	}
	if q.scale() == CelsiusUnit {
		return curemath.Celsius(q.amount()), nil
	}
	return f.Celsius(), nil
}
