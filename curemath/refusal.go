package curemath

import "fmt"

// RefusalKind says why a sum was not done.
type RefusalKind int

const (
	// NotANumber: Field was NaN or infinite.
	NotANumber RefusalKind = iota + 1
	// WeightNotPositive: Weight was zero or less.
	WeightNotPositive
	// WeightAbsurd: Weight was outside what a smokehouse cures at home.
	WeightAbsurd
	// OverLimit: Nitrite was over Limit.Max.
	OverLimit
	// UnderFloor: Nitrite was under Limit.Min: too little to be a cure.
	UnderFloor
	// NitrateInBacon: Mix holds nitrate, which no bacon method allows.
	NitrateInBacon
	// MixUnknown: Mix has no usable nitrite content.
	MixUnknown
	// MixHoldsNone: what was named is no curing mix at all (pink table salt).
	MixHoldsNone
	// SaltOutOfRange: Share is a salt target nobody cures at.
	SaltOutOfRange
	// SugarOutOfRange: Share is a sugar target nobody cures at.
	SugarOutOfRange
	// AscorbateOutOfRange: Nitrite carries the ascorbate asked for, in ppm.
	AscorbateOutOfRange
	// PumpOutOfRange: Share is a pump or pick-up nobody reaches.
	PumpOutOfRange
	// BrineImpossible: the targets do not fit in the water given.
	BrineImpossible
	// ThicknessOutOfRange: Thickness is no slab.
	ThicknessOutOfRange
	// RulesMissing: no rule set was given, so nothing can be held to a limit.
	RulesMissing
	// RubsOutOfRange: Count is not a number of rubs.
	RubsOutOfRange
	// NoMeat: a recipe without a weight of meat.
	NoMeat
	// NothingToCheck: a recipe with no ingredient in it.
	NothingToCheck
	// RecipeTooLong: Count lines are more than a recipe has.
	RecipeTooLong
)

// Refusal is why a sum was not done, with the values the sentence needs. It is
// returned as *Refusal; find it with errors.As.
type Refusal struct {
	Kind RefusalKind
	// Field names the quantity that was wrong ("green weight", "salt target").
	Field string
	// Said is what the person gave, in figures and unit: "500 ppm".
	Said string
	// Hint is a likely reading of what was meant, or empty.
	Hint string

	Weight    Grams
	Least     Grams // the least Weight could have been
	Nitrite   PPM
	Share     Percent
	Low, High Percent // the range Share had to be in
	Thickness Millimetres
	Count     int
	Mix       Mix
	Limit     Limit
}

// Error is one plain sentence for a person.
func (r *Refusal) Error() string {
	s := r.sentence()
	if r.Hint != "" {
		s += " " + r.Hint
	}
	return s
}

func (r *Refusal) sentence() string {
	switch r.Kind {
	case NotANumber:
		return fmt.Sprintf("The %s is not a number.", r.Field)
	case WeightNotPositive:
		return fmt.Sprintf("The %s must be more than nothing; %s is not.", r.Field, r.Said)
	case WeightAbsurd:
		return fmt.Sprintf("A %s of %s is outside what these sums are for (%s g to %s kg).",
			r.Field, r.Said, figure(float64(r.Least), 3), figure(MaxWeight.Kilograms(), 0))
	case OverLimit:
		return fmt.Sprintf("%s nitrite is over the limit of %s (%s). No amount is given for that.",
			r.Said, r.Limit.Text(), r.Limit.Source)
	case UnderFloor:
		return fmt.Sprintf("%s nitrite is too little: under %s ppm it cannot be counted on against botulism, and the meat is not cured (%s).",
			r.Said, figure(float64(r.Limit.Min), 2), r.Limit.MinSource)
	case NitrateInBacon:
		return fmt.Sprintf("%s holds nitrate, and nitrate is not allowed in bacon by any method: fried hot it makes nitrosamines (%s). Use a mix with nitrite only.",
			r.Mix.Name, nitrateInBacon())
	case MixUnknown:
		return fmt.Sprintf("A curing mix of %s nitrite cannot be worked with. Read the nitrite percent off the packet; the colour says nothing.", r.Said)
	case MixHoldsNone:
		return fmt.Sprintf("%s holds no nitrite and cures nothing. Use a curing mix with its nitrite percent on the packet.", r.Said)
	case SaltOutOfRange, SugarOutOfRange, PumpOutOfRange:
		return fmt.Sprintf("A %s of %s is outside %s to %s %%.",
			r.Field, r.Said, figure(float64(r.Low), 1), figure(float64(r.High), 1))
	case AscorbateOutOfRange:
		return fmt.Sprintf("%s ascorbate is outside 0 to %s ppm, the most any rule here names.", r.Said, figure(float64(MaxAscorbate), 0))
	case BrineImpossible:
		return "That much salt, sugar and mix does not fit into the water given."
	case ThicknessOutOfRange:
		return fmt.Sprintf("A slab %s thick is outside what the day rule is for.", r.Said)
	case RulesMissing:
		return "No rule set is chosen, so nothing can be held to a limit."
	case RubsOutOfRange:
		if r.Field != "" {
			return fmt.Sprintf("%d %s cannot be planned; 1 to %d can.", r.Count, r.Field, maxGap)
		}
		return fmt.Sprintf("%d rubs cannot be planned; 1 to %d can.", r.Count, MaxRubs)
	case NoMeat:
		return "The recipe does not say how much meat it is for."
	case NothingToCheck:
		return "There is no ingredient in that recipe."
	case RecipeTooLong:
		return fmt.Sprintf("A recipe of %d lines is too long; %d can be checked.", r.Count, MaxRecipeLines)
	default:
		return "That cannot be worked out."
	}
}

func nitrateInBacon() Source {
	return Source{Document: "Mississippi State extension P2648", Status: Found, Note: "repeats 9 CFR 424.22(b)"}
}
