package curemath

// RecipeQuestion is a recipe to check and what to check it for.
type RecipeQuestion struct {
	Recipe Recipe
	Rules  RuleSet
	// Method; zero reads it off the recipe: a brine if there is much water in
	// it, else a dry rub.
	Method Method
	// Pump is needed for Injection; Pickup is for Immersion and may be zero.
	Pump, Pickup Percent
	RindOn       bool
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

	known                        *KnownMix
	extra, remark                string
	cure, ambiguous, freshGarlic bool
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
}

// much is how much water, as a share of the meat, makes a recipe a brine: no
// syrup or spirit brings so much (common practice, no source).
const much = 0.2

// Check says what a recipe comes to, from as little to as much as its spoons,
// crystals and ranges leave open. Ingredients are counted by what is in them:
// the salt of a curing mix and of soy sauce is salt, the water of a syrup is
// water. Spoon and cup weights and make-up are the ingredient table's, with its
// sources; the sums are those of CheckDry, CheckBrine and CheckPump.
//
// Errors are *Refusal: no weight of meat, no ingredient, or a weight that is
// none.
func (p Pantry) Check(q RecipeQuestion) (RecipeCheck, error) {
	c := RecipeCheck{Method: q.Method}
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
	if err := c.settleMeat(&q); err != nil {
		return RecipeCheck{}, err
	}
	if len(s.parts) == 0 && !c.anyUnknown() {
		return RecipeCheck{}, &Refusal{Kind: NothingToCheck}
	}
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
	c.rewrite(&q, s)
	c.Trail = c.trail(s)
	return c, nil
}

// settleMeat finds the meat and refuses what is none.
func (c *RecipeCheck) settleMeat(q *RecipeQuestion) error {
	switch {
	case q.Recipe.Meat.High != 0:
		c.Meat = q.Recipe.Meat
	case c.Meat.High != 0:
	case c.rateMeat() > 0:
		c.Meat = Exactly(c.rateMeat())
	case c.allShares() && q.Piece > 0:
		c.Meat = Exactly(q.Piece)
	case c.allShares():
		// Shares come to the same on any weight.
		c.Meat = Exactly(Kilogram)
	default:
		return &Refusal{Kind: NoMeat}
	}
	for _, g := range [...]Grams{c.Meat.Low, c.Meat.Typical, c.Meat.High} {
		if err := checkWeight("weight of meat", g, MinWeight); err != nil {
			return err
		}
	}
	if q.Piece != 0 {
		return checkWeight("weight of the piece", q.Piece, MinWeight)
	}
	return nil
}

// rateMeat is the meat of the one rate a recipe gives amounts at ("1 tsp per
// 5 lb"), or zero if it gives none or several.
func (c *RecipeCheck) rateMeat() Grams {
	var meat Grams
	for _, l := range c.Lines {
		switch per := l.Amount.Per.Typical; {
		case per == 0 || l.Amount.Kind == ByShare || l.Kind != LineIngredient && l.Kind != LineCure:
		case meat != 0 && meat != per:
			return 0
		default:
			meat = per
		}
	}
	return meat
}

// allShares says whether all that salts, sweetens or cures scales with the meat
// by itself.
func (c *RecipeCheck) allShares() bool {
	n := 0
	for _, l := range c.Lines {
		if l.Kind != LineIngredient && l.Kind != LineCure || l.flavours {
			continue
		}
		if l.Amount.Kind != ByShare && l.Amount.Per.High == 0 {
			return false
		}
		n++
	}
	return n > 0
}

func (c *RecipeCheck) anyUnknown() bool {
	for _, l := range c.Lines {
		if l.Kind == LineUnknown || l.Kind == LineUnmeasured {
			return true
		}
	}
	return false
}
