package parse

import "larderhand/curemath"

// TempUnit is a temperature scale.
type TempUnit int

// The scales. UnitUnknown means that none is set or said.
const (
	UnitUnknown TempUnit = iota
	FahrenheitUnit
	CelsiusUnit
)

const temperatureExample = "150 F"

// The ends of what is taken as a temperature: absolute zero, and hotter than a
// charcoal fire (from memory; the upper end only stops nonsense).
const (
	coldest curemath.Fahrenheit = -459.67
	hottest curemath.Fahrenheit = 2000
)

// Temperature reads a text that is one temperature. A sign (F, °C, degrees
// Fahrenheit) wins over def; with neither it is a *Problem of kind NoUnit.
func Temperature(s string, def TempUnit) (curemath.Fahrenheit, error) {
	l, p := open(s, temperatureExample)
	if p != nil {
		return 0, p
	}
	q, ok := l.quantityAt(0)
	if !ok {
		return 0, &Problem{Kind: NotATemperature, Said: quote(s), Why: "I see no temperature there", Example: temperatureExample}
	}
	f, p := l.temperature(q, def)
	if p == nil && q.to < len(l.toks) {
		p = l.leftover(q.to, rounded(float64(f), 1)+" °F", temperatureExample)
	}
	if p != nil {
		return 0, p
	}
	return f, nil
}

// scale gives the scale that the quantity names itself.
func (q quantity) scale() TempUnit {
	switch {
	case q.unit.dim == heat && q.unit.symbol == "F":
		return FahrenheitUnit
	case q.unit.dim == heat && q.unit.symbol == "C":
		return CelsiusUnit
	}
	return UnitUnknown
}

// temperature makes a temperature of a quantity.
func (l line) temperature(q quantity, def TempUnit) (curemath.Fahrenheit, *Problem) {
	p := &Problem{Said: l.said(q.from, q.to), Example: temperatureExample}
	if bad := l.doubt(q, temperatureExample); bad != nil {
		return 0, bad
	}
	if q.unit.dim != heat && q.unit.dim != noDimension {
		p.Kind, p.Why = NotATemperature, "that is not a temperature"
		return 0, p
	}
	if s := q.scale(); s != UnitUnknown {
		def = s
	}
	v := q.amount()
	var f curemath.Fahrenheit
	switch def {
	case FahrenheitUnit:
		f = curemath.Fahrenheit(v)
	case CelsiusUnit:
		f = curemath.Celsius(v).Fahrenheit()
	default:
		p.Kind, p.Why, p.Example = NoUnit, "is that °F or °C?", suggest(v, "F", 1000, temperatureExample)
		return 0, p
	}
	if f < coldest || f > hottest {
		p.Kind, p.Why = ImpossibleTemperature, "no smokehouse or fridge has been there"
		return 0, p
	}
	return f, nil
}
