package curemath

// Reading is one way of counting what goes into the meat.
type Reading struct {
	// Name says which way: "all of the cure", "by pick-up", "once even".
	Name string
	// Nitrite (as sodium nitrite) and Nitrate are on the green weight, for a
	// brine once even on meat and brine together.
	Nitrite, Nitrate PPM
	Salt, Sugar      Percent
	Ascorbate        PPM
}

// Plus adds what two ways of bringing cure in come to, such as a pump and then
// a cover brine (computed).
func (r Reading) Plus(q Reading, name string) Reading {
	return Reading{name, r.Nitrite + q.Nitrite, r.Nitrate + q.Nitrate, r.Salt + q.Salt, r.Sugar + q.Sugar, r.Ascorbate + q.Ascorbate}
}

// Check is what a recipe already written comes to.
type Check struct {
	Method Method
	// Readings is every way it was counted; Held is the one the limit was held
	// against.
	Readings []Reading
	Held     Reading
	Limit    Limit
	Verdict  Verdict
	Warnings []Warning
	Trail    Trail
}

// readPortion counts a portion times k on a base weight.
func readPortion(name string, p Portion, m Mix, k float64, base Grams) Reading {
	q := p.Times(k)
	per := float64(base) / 1e6
	return Reading{
		Name:      name,
		Nitrite:   PPM(float64(q.Mix) * m.SodiumNitrite().Proportion() / per),
		Nitrate:   PPM(float64(q.Mix) * m.Nitrate.Proportion() / per),
		Salt:      shareOn(q.Salt+m.Salt().Of(q.Mix), base),
		Sugar:     shareOn(q.Sugar+m.Sugar.Of(q.Mix), base),
		Ascorbate: PPM(float64(q.Ascorbate) / per),
	}
}

// checkRecipe refuses a written recipe that is no recipe. A mix is only looked
// at when some of it is used.
func checkRecipe(green Grams, parts [5]Grams, mix Mix, rules RuleSet, m Method, rindOn bool) (Limit, error) {
	if err := checkWeight("green weight", green, MinWeight); err != nil {
		return Limit{}, err
	}
	names := [5]string{"weight of curing mix", "weight of salt", "weight of sugar", "weight of ascorbate", "weight of water"}
	for i, g := range parts {
		if g == 0 {
			continue
		}
		if err := checkWeight(names[i], g, 0); err != nil {
			return Limit{}, err
		}
	}
	if parts[0] > 0 {
		if err := mix.check(); err != nil {
			return Limit{}, err
		}
	}
	limit := rules.BaconLimit(m, rindOn)
	if limit.Max == 0 {
		return Limit{}, &Refusal{Kind: RulesMissing}
	}
	return limit, nil
}

// usedIn is the mix if any of it is used, else an empty one: what stands on a
// packet that stays shut does not count.
func (m Mix) usedIn(p Portion) Mix {
	if p.Mix == 0 {
		return Mix{Name: m.Name}
	}
	return m
}

func (p Portion) parts(water Grams) [5]Grams {
	return [5]Grams{p.Mix, p.Salt, p.Sugar, p.Ascorbate, water}
}
