package curemath

// Portion is what goes on one piece, besides flavouring.
type Portion struct{ Mix, Salt, Sugar, Ascorbate Grams }

// Plus adds two portions (computed).
func (p Portion) Plus(q Portion) Portion {
	return Portion{p.Mix + q.Mix, p.Salt + q.Salt, p.Sugar + q.Sugar, p.Ascorbate + q.Ascorbate}
}

// Times scales a portion (computed).
func (p Portion) Times(k float64) Portion {
	f := Grams(k)
	return Portion{p.Mix * f, p.Salt * f, p.Sugar * f, p.Ascorbate * f}
}

// nitriteOn gives the ppm of sodium nitrite on that much meat when all of the
// mix counts: ppm = mix × fraction × 1,000,000 ÷ green weight (calculations
// handbook, chapter 3, dry products).
func nitriteOn(mix Grams, nitrite Percent, meat Grams) PPM {
	return PPM(float64(mix) * nitrite.Proportion() * 1e6 / float64(meat))
}

// shareOn gives a mass as percent of the meat.
func shareOn(g, meat Grams) Percent { return Percent(float64(g) / float64(meat) * 100) }

// portionFor turns targets on a base weight into exact grams: the inverse of
// the dry formula, mix = base × ppm ÷ 1,000,000 ÷ fraction, and salt to add =
// base × share − the salt already in the mix, never less than nothing.
func (t *targets) portionFor(base Grams) Portion {
	mix := t.aim.Of(base) / Grams(t.mixNitrite.Proportion())
	return Portion{
		Mix:       mix,
		Salt:      max(0, t.salt.Of(base)-t.mixSalt.Of(mix)),
		Sugar:     max(0, t.sugar.Of(base)-t.mixSugar.Of(mix)),
		Ascorbate: t.ascorbate.Of(base),
	}
}

// weighable rounds a portion to what a scale shows: the mix and the ascorbate
// down, salt and sugar to the nearest step. What rounding took off the mix is
// made up in its salt.
func (t *targets) weighable(exact Portion, base Grams) (Portion, Grams) {
	step := mixStep(exact.Mix, t.green)
	w := Portion{Mix: roundDown(exact.Mix, step)}
	w.Ascorbate = roundDown(exact.Ascorbate, mixStep(exact.Ascorbate, t.green))
	coarse := coarseStep(t.green)
	w.Salt = roundNear(max(0, t.salt.Of(base)-t.mixSalt.Of(w.Mix)), coarse)
	w.Sugar = roundNear(max(0, t.sugar.Of(base)-t.mixSugar.Of(w.Mix)), coarse)
	return w, step
}
