package curemath

import "slices"

// Limit is one row of a rule set: what the nitrite that goes in may come to.
type Limit struct {
	// Max and Min are ppm of sodium nitrite on the green weight as weighed,
	// whatever the document counts in. Max is rounded down to 0.01 ppm.
	Max, Min PPM
	// AsIon: the document counts nitrite ion, and Published is in it.
	AsIon     bool
	Published PPM
	// Potassium is the document's own figure for potassium nitrite; zero if it
	// has none.
	Potassium PPM
	// Residual: the document limits what is left, not what goes in. Max holds
	// it against what goes in, which is the cautious reading.
	Residual bool
	// RindOn: a tenth has been taken off Max for the rind.
	RindOn bool
	// Ascorbate the rule asks for with this method; zero if it asks for none.
	Ascorbate PPM
	// What is limited, in a few words: "US dry-cured bacon".
	What      string
	Source    Source
	MinSource Source

	// Product the row is for: "bacon", "other cut" or "comminuted".
	Product string
	Methods []Method
	// From and Until are dates (2006-01-02) or empty.
	From, Until string
	// SetAside says why the row is listed but not used; empty if it is used.
	SetAside string
}

// Text is the limit in figures: "200 ppm", "119.97 ppm (80 mg/kg as ion)",
// "108 ppm (120 less a tenth for the rind)".
func (l Limit) Text() string {
	s := figure(float64(l.Max), 2) + " ppm"
	switch {
	case l.AsIon && l.RindOn:
		return s + " (" + figure(float64(l.Published), 2) + " mg/kg as ion, less a tenth for the rind)"
	case l.AsIon:
		return s + " (" + figure(float64(l.Published), 2) + " mg/kg as ion)"
	case l.RindOn:
		return s + " (" + figure(float64(l.Published), 2) + " less a tenth for the rind)"
	default:
		return s
	}
}

// MaxFor is Max held also to the document's own figure for potassium nitrite, such as
// that beside 9 CFR 424.22(b) (from memory), when the mix is made with that. It is in ppm of sodium
// nitrite.
func (l Limit) MaxFor(m Mix) PPM {
	if !m.Potassium || l.Potassium == 0 {
		return l.Max
	}
	k := FromPotassiumNitrite(l.Potassium)
	if l.RindOn {
		k *= l.Max / l.Published
	}
	return min(l.Max, k)
}

func (l Limit) covers(m Method) bool { return slices.Contains(l.Methods, m) }
func (l Limit) used() bool           { return l.SetAside == "" }
