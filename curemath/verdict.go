package curemath

// Verdict is what a recipe comes to against a limit.
type Verdict int

const (
	// VerdictWithin: between the floor and the limit, every way it is read.
	VerdictWithin Verdict = iota + 1
	// VerdictOver: over the limit.
	VerdictOver
	// VerdictMayBeOver: within as typically measured, over if a spoon or a
	// weight falls the wrong way.
	VerdictMayBeOver
	// VerdictUnder: under the floor: not a cure.
	VerdictUnder
	// VerdictMayBeUnder: a cure as typically measured, none if it falls short.
	VerdictMayBeUnder
	// VerdictNoNitrite: nothing in it cures.
	VerdictNoNitrite
	// VerdictNitrate: it holds nitrate, which is not for bacon.
	VerdictNitrate
	// VerdictCannotSay: something in it that decides is not known.
	VerdictCannotSay
)

// String is the verdict in a few words.
func (v Verdict) String() string {
	switch v {
	case VerdictWithin:
		return "within the limit"
	case VerdictOver:
		return "over the limit"
	case VerdictMayBeOver:
		return "may be over the limit"
	case VerdictUnder:
		return "too little nitrite"
	case VerdictMayBeUnder:
		return "may be too little nitrite"
	case VerdictNoNitrite:
		return "no nitrite at all"
	case VerdictNitrate:
		return "nitrate, not for bacon"
	case VerdictCannotSay:
		return "cannot be said"
	default:
		return "no verdict"
	}
}

// Safe says whether nothing stands against curing with it as it is.
func (v Verdict) Safe() bool { return v == VerdictWithin }

// judge holds a reading to a limit: held to the higher reading for the limit
// and to the higher for the floor, since a brine only counts once it is even.
func judge(held Reading, limit Limit, most PPM) Verdict {
	switch {
	case held.Nitrite > most+roundingError:
		return VerdictOver
	case held.Nitrate > 0:
		return VerdictNitrate
	case held.Nitrite == 0:
		return VerdictNoNitrite
	case held.Nitrite < limit.Min-roundingError:
		return VerdictUnder
	default:
		return VerdictWithin
	}
}

// roundingError is what floating-point sums may be off by, in ppm.
const roundingError PPM = 1e-9
