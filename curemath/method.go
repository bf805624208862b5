package curemath

import "fmt"

// Method is how the cure gets into the meat. It decides which limit holds and
// which formula counts what went in. The zero value is no method.
type Method int

const (
	// DryRub: weighed cure on the meat or in its bag; all of it counts.
	DryRub Method = iota + 1
	// Immersion: the meat lies in a brine.
	Immersion
	// Injection: brine is pumped into the meat.
	Injection
	// DryBox: dry cure in a box, rubbed and restacked more than once; all of
	// every rub counts.
	DryBox
)

// Methods lists them in the order they are offered.
func Methods() []Method { return []Method{DryRub, Immersion, Injection, DryBox} }

// String gives the words of the trade.
func (m Method) String() string {
	switch m {
	case DryRub:
		return "dry rub"
	case Immersion:
		return "immersion"
	case Injection:
		return "injection"
	case DryBox:
		return "dry box"
	default:
		return "no method"
	}
}

// UnmarshalText reads the words String writes.
func (m *Method) UnmarshalText(text []byte) error {
	for _, c := range Methods() {
		if c.String() == string(text) {
			*m = c
			return nil
		}
	}
	return fmt.Errorf("method %q: want dry rub, immersion, injection or dry box", text)
}
