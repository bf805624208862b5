package curemath

// RecipeQuestion is a recipe to check and what to check it for.
type RecipeQuestion struct {
	Recipe Recipe
	Rules  RuleSet
	// Method; zero reads it off the recipe: a brine if there is much water in
	// it, else a dry rub.
	Method Method
	// Pump is needed for Injection; Pickup is for Immersion and a Cover, and may be zero.
	Pump, Pickup Percent
	// Cover is how much of the same pickle the pumped meat lies in; zero for none.
	Cover  Grams
	RindOn bool
	// Piece is the green weight to rewrite the recipe for; zero takes the
	// recipe's own.
	Piece Grams
	// Mix is what the person will cure with, for the rewriting; zero takes the
	// recipe's, or StandardMix.
	Mix Mix
}

// LineKind is what became of a recipe line.
type LineKind int

const (
	// LineIngredient: counted.
	LineIngredient LineKind = iota + 1
	// LineCure: counted, and it cures or claims to.
	LineCure
	// LineMeat: the meat.
	LineMeat
	// LineUnmeasured: known, but no amount that can be weighed.
	LineUnmeasured
	// LineUnknown: an amount of something not known here. Not counted.
	LineUnknown
	// LineUnread: words without an amount, most likely an instruction.
	LineUnread
)

// CheckedLine is a recipe line with what it was read as.
type CheckedLine struct {
	RecipeLine
	Kind LineKind
	// ReadAs is the row of the table, empty for an unknown line.
	ReadAs string
	Mass   Band[Grams]
	// What is in it.
	Nitrite, Nitrate, Salt, Sugar, Water, Alcohol Band[Grams]
	// Source is where the weight of its measure, or its strength, comes from.
	Source Source

	// measured is where the weight of a spoon of it comes from.
	measured Source

	known                        *KnownMix
	extra, remark                string
	cure, ambiguous, freshGarlic bool
	// misstated: the strength said beside a numbered mix is not its own.
	misstated bool
	// flavours: it neither salts, sweetens nor cures.
	flavours bool
}

// Assumption is the one doubt that moves a result most: what it is, and where
// the result would lie if nothing else moved.
type Assumption[T ~float64] struct {
	Text      string
	Low, High T
}

// RecipeReading is one way of counting the nitrite of a recipe.
type RecipeReading struct {
	Name    string
	Nitrite Band[PPM]
}

// RecipeCheck is what a written recipe comes to.
type RecipeCheck struct {
	Method Method
	// Pump and Cover are what was asked with, for Injection.
	Pump   Percent
	Cover  Grams
	RindOn bool
	Meat   Band[Grams]
	Lines  []CheckedLine
	// Nitrite is held against the limit; Readings is every way it was counted.
	Nitrite     Band[PPM]
	Readings    []RecipeReading
	Nitrate     Band[PPM]
	Salt, Sugar Band[Percent]
	// Water and Alcohol are what the recipe brings, in grams.
	Water, Alcohol Band[Grams]
	// NitriteBy, SaltBy and SugarBy are what the width of each band mostly
	// comes from; an empty Text means the band has no width.
	NitriteBy       Assumption[PPM]
	SaltBy, SugarBy Assumption[Percent]
	Limit           Limit
	Verdict         Verdict
	Notes           []Note
	Warnings        []Warning
	// Rewrite is the recipe by weight for the piece; nil if it cannot be cured
	// with.
	Rewrite *Rewrite
	Trail   Trail
	// missing is the ascorbate a pumped recipe has to be given.
	missing PPM
}

// much is how much water, as a share of the meat, makes a recipe a brine: no
// syrup or spirit brings so much (common practice, no source).
const much = 0.2

// Check says what a recipe comes to, from as little to as much as its spoons,
// crystals and ranges leave open. Ingredients are counted by what is in them:
// the salt of a curing mix and of soy sauce is salt, the water of a syrup is
// water. Spoon and cup weights and make-up are the ingredient table's, with its
// sources; the sums, and their source, are those of CheckDry, CheckBrine and CheckPump.
//
// Errors are *Refusal: no weight of meat, no ingredient, or a weight that is
// none.
func (p Pantry) Check(q RecipeQuestion) (RecipeCheck, error) {
	c := RecipeCheck{Method: q.Method, Pump: q.Pump, Cover: q.Cover, RindOn: q.RindOn}
	if len(q.Recipe.Lines) > MaxRecipeLines {
		return c, &Refusal{Kind: RecipeTooLong, Count: len(q.Recipe.Lines)}
	}
	s := newSpread(&q)
	c.Lines = make([]CheckedLine, 0, len(q.Recipe.Lines))
	for i, line := range q.Recipe.Lines {
		read, part := p.read(line)
		if read.Kind == LineMeat && q.Recipe.Meat.High == 0 {
			c.Meat = c.Meat.Plus(read.Mass)
		}
		part.index = i
		c.Lines = append(c.Lines, read)
		if read.Kind == LineIngredient || read.Kind == LineCure {
			s.parts = append(s.parts, part)
		}
	}
	c.namelessMeat(&q)
	if err := c.settleMeat(&q); err != nil {
		return RecipeCheck{}, err
	}
	if len(s.parts) == 0 && !c.anyUnknown() {
		return RecipeCheck{}, &Refusal{Kind: NothingToCheck}
	}
	c.sharesSaidTwice(p, s)
	s.meat = c.Meat
	s.fill(&c)
	if c.Method == 0 {
		c.Method = DryRub
		if c.Water.Typical > much*c.Meat.Typical {
			c.Method = Immersion
		}
	}
	s.method = c.Method
	c.Limit = q.Rules.BaconLimit(c.Method, q.RindOn)
	if c.Limit.Max == 0 {
		return RecipeCheck{}, &Refusal{Kind: RulesMissing}
	}
	if err := s.settle(); err != nil {
		return RecipeCheck{}, err
	}
	s.bands(&c)
	c.judge(&q)
	s.ascorbate(&c)
	c.rewrite(&q, s)
	c.Trail = c.trail(s)
	return c, nil
}

func (c *RecipeCheck) anyUnknown() bool {
	for _, l := range c.Lines {
		if l.Kind == LineUnknown || l.Kind == LineUnmeasured {
			return true
		}
	}
	return false
}
