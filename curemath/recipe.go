package curemath

// Recipe is a written recipe taken apart, before anything in it is understood
// as salt, cure or meat beyond its weight.
type Recipe struct {
	Lines []RecipeLine
	// Meat is the weight the recipe says it is for; zero if it names none other
	// than in a line of its own.
	Meat     Band[Grams]
	MeatSaid string
}

// RecipeLine is one ingredient as written.
type RecipeLine struct {
	// Said is the line as typed; Name the words of the ingredient, without the
	// amount; Note what was said beside it ("packed", "freshly cracked").
	Said, Name, Note string
	Amount           Amount
	// Strength is a percent said about the ingredient itself ("6.25 % curing
	// mix", "40 % rum", "5 % vinegar"); zero if none was.
	Strength Percent
	// Fill is how full the spoon or cup was said to be.
	Fill Fill
	// Fault says why the amount could not be read; empty if it could.
	Fault string
}

// AmountKind is how an amount was given.
type AmountKind int

const (
	// NoAmount: none was given ("pepper to taste").
	NoAmount AmountKind = iota
	// ByMass: Mass is set.
	ByMass
	// ByVolume: Volume is set.
	ByVolume
	// ByCount: Count is set ("3 bay leaves").
	ByCount
	// ByShare: Share is set, percent of the meat.
	ByShare
)

// Amount is how much of an ingredient a recipe asks for. A range ("1-2 tsp") is
// a band.
type Amount struct {
	Kind   AmountKind
	Mass   Band[Grams]
	Volume Band[Millilitres]
	Count  Band[float64]
	Share  Band[Percent]
	// Per is the meat the amount is for when it is a rate ("1 tsp per 5 lb",
	// "25 g/kg"); zero if it is for the whole recipe.
	Per Band[Grams]
	// Ounces: the amount was in plain ounces, which for a liquid may have meant
	// fluid ounces. Mass is set.
	Ounces bool
}

// Fill is how full a spoon or cup was said to be.
type Fill int

const (
	// Level: not said, or said level.
	Level Fill = iota
	// Packed, Heaped, Rounded and Scant are what they say.
	Packed
	Heaped
	Rounded
	Scant
)

// spread is what a fill does to the volume (common practice, no source).
func (f Fill) spread() Band[float64] {
	switch f {
	case Heaped:
		return Band[float64]{1.25, 1.6, 2.2}
	case Rounded:
		return Band[float64]{1.1, 1.3, 1.6}
	case Scant:
		return Band[float64]{0.7, 0.85, 1}
	default:
		return Exactly(1.0)
	}
}

// MaxRecipeLines is how many lines are looked at.
const MaxRecipeLines = 100
