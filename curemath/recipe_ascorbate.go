package curemath

// ascorbate says where a pumped recipe holds less ascorbate or erythorbate than its rule
// asks for, by the formula of SolvePump on what its amounts typically weigh.
func (s *spread) ascorbate(c *RecipeCheck) {
	want := c.Limit.Ascorbate
	if s.method != Injection || want == 0 {
		return
	}
	var held, pickle Grams
	for i := range s.parts {
		p := &s.parts[i]
		mass := c.Lines[p.index].Mass.Typical
		held += p.makeUp.ascorbate.Typical.Of(mass)
		if p.dissolves {
			pickle += mass
		}
	}
	has := PPM(0)
	if pickle > 0 {
		has = PPM(float64(held/pickle) * s.uptake() * 1e6)
	}
	if has >= want*roundedAway {
		return
	}
	c.missing = want - has
	w := warnings(c.Warnings)
	w.asks(c.Limit)
	c.Warnings = w
}
