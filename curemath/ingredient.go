package curemath

// IngredientKind is what an ingredient does in a cure.
type IngredientKind string

const (
	KindSalt        IngredientKind = "salt"
	KindSugar       IngredientKind = "sugar"
	KindSyrup       IngredientKind = "syrup"
	KindSpirit      IngredientKind = "spirit"
	KindLiquid      IngredientKind = "liquid"
	KindWater       IngredientKind = "water"
	KindAscorbate   IngredientKind = "ascorbate"
	KindAdditive    IngredientKind = "additive"
	KindSpice       IngredientKind = "spice"
	KindFreshGarlic IngredientKind = "fresh garlic"
	KindFruit       IngredientKind = "fruit"
	KindFat         IngredientKind = "fat"
)

// dissolves says whether an ingredient becomes part of a brine.
func (k IngredientKind) dissolves() bool {
	switch k {
	case KindSpice, KindFreshGarlic, KindFruit, KindFat:
		return false
	}
	return true
}

// measure is what a level measure weighs.
type measure struct {
	tsp, cup, each Band[Grams]
	source         Source
}

// per gives the row that fits a volume and the volume it is for: the cup row
// from a quarter cup up, the teaspoon row below, the other one where a row is
// missing. The band is empty if there is neither.
func (m measure) per(v Band[Millilitres]) (Band[Grams], Millilitres) {
	row, unit := m.tsp, Teaspoon
	if row.High == 0 || v.Typical > Cup*0.24 && m.cup.High > 0 {
		row, unit = m.cup, Cup
	}
	return row, unit
}

// makeUp is what an ingredient is made of, percent of its mass.
type makeUp struct {
	salt, sugar, water, alcohol, acid, ascorbate Band[Percent]
}

// Ingredient is one row of the table.
type Ingredient struct {
	ID, Name string
	Kind     IngredientKind
	Aliases  []string
	// Liquid: an ounce of it may be a fluid ounce.
	Liquid bool
	// Remark a person should read; often empty.
	Remark string
	// WeightSource and MakeUpSource say where the row comes from.
	WeightSource, MakeUpSource Source

	measure measure
	makeUp  makeUp
}

// Salt, Sugar, Water and Alcohol are what is in it, percent of its mass.
func (i Ingredient) Salt() Band[Percent]    { return i.makeUp.salt }
func (i Ingredient) Sugar() Band[Percent]   { return i.makeUp.sugar }
func (i Ingredient) Water() Band[Percent]   { return i.makeUp.water }
func (i Ingredient) Alcohol() Band[Percent] { return i.makeUp.alcohol }

// Teaspoon and Cup are what a level measure of it weighs; zero where the table
// has none.
func (i Ingredient) Teaspoon() Band[Grams] { return i.measure.tsp }
func (i Ingredient) Cup() Band[Grams]      { return i.measure.cup }

// ethanolDensity is grams in a millilitre at 20 °C (20 °C density table for
// ethanol and water: found), spiritDensity the line through water and the 0.948
// of that table at 40 % by volume.
const ethanolDensity = 0.78924

func spiritDensity(byVolume Percent) float64 { return 0.998 - 0.00125*float64(byVolume) }

// ofStrength is a spirit, wine or vinegar with the percent on its own label.
func (i Ingredient) ofStrength(p Percent) Ingredient {
	switch {
	case p <= 0 || p > 96:
	case i.makeUp.alcohol.High > 0:
		share := Percent(p.Proportion() * ethanolDensity / spiritDensity(p) * 100)
		i.makeUp.water = Exactly(max(0, i.makeUp.water.Typical+i.makeUp.alcohol.Typical-share))
		i.makeUp.alcohol = Exactly(share)
	case i.makeUp.acid.High > 0 && i.makeUp.salt.High == 0 && p <= 30:
		i.makeUp.acid = Exactly(p)
	}
	return i
}
