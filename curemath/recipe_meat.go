package curemath

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

// namelessMeat takes the one weight without a name for the meat where no other
// is named: "salt 2.5 %, cure 0.25 % 5 lb".
func (c *RecipeCheck) namelessMeat(q *RecipeQuestion) {
	if q.Recipe.Meat.High != 0 || c.Meat.High != 0 {
		return
	}
	at := -1
	for i, l := range c.Lines {
		if l.Name != "" || l.Kind != LineUnknown || l.Fault != "" || l.Amount.Kind != ByMass || l.Amount.Mass.Low < leastMeat {
			continue
		}
		if at >= 0 {
			return
		}
		at = i
	}
	if at >= 0 {
		l := &c.Lines[at]
		l.Kind, l.ReadAs, l.Mass = LineMeat, "meat", l.Amount.Mass
		c.Meat = l.Mass
	}
}

// leastMeat is the least a weight without a name must be to be taken for the
// meat (common practice, no source).
const leastMeat Grams = 200

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
