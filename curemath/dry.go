package curemath

// DryTargets is what a dry cure on one piece aims at.
type DryTargets struct {
	// Green is the raw weight, rind and all if RindOn.
	Green  Grams
	RindOn bool
	// Nitrite is sodium nitrite on the meat without its rind: with the rind on
	// a tenth is taken off before it is reckoned on Green.
	Nitrite PPM
	// Salt and Sugar are percent of Green, with what the mix brings.
	Salt, Sugar Percent
	// Ascorbate is sodium ascorbate or erythorbate; zero for none.
	Ascorbate PPM
	Mix       Mix
	Rules     RuleSet
}

// DryCure is what to weigh for one piece and what that comes to.
type DryCure struct {
	Targets DryTargets
	// Exact is before rounding; Weigh is what the scale should show, the mix
	// rounded down in steps of Step.
	Exact, Weigh Portion
	Step         Grams
	// Ingoing is sodium nitrite on the green weight, from what is weighed.
	Ingoing PPM
	// TotalSalt and TotalSugar are percent of the green weight, from what is
	// weighed, the mix's own included.
	TotalSalt, TotalSugar Percent
	Limit                 Limit
	Warnings              []Warning
	Trail                 Trail
}

// SolveDry gives the grams for a dry rub or bag cure, where all of the cure
// counts: mix = green × ppm ÷ 1,000,000 ÷ fraction (inverse of the calculations
// handbook's formula for dry products, FSIS Directive 7620.3, chapter 3:
// second-hand, not checked against the text).
//
// Errors are *Refusal.
func SolveDry(t DryTargets) (DryCure, error) { return solveDry(t, DryRub) }

func solveDry(t DryTargets, m Method) (DryCure, error) {
	s := targets{
		method: m, green: t.Green, rindOn: t.RindOn, nitrite: t.Nitrite, salt: t.Salt, sugar: t.Sugar,
		ascorbate: t.Ascorbate, mix: t.Mix, rules: t.Rules,
	}
	if err := s.settle(); err != nil {
		return DryCure{}, err
	}
	c := DryCure{Targets: t, Limit: s.limit, Exact: s.portionFor(t.Green)}
	c.Weigh, c.Step = s.weighable(c.Exact, t.Green)
	c.Ingoing = nitriteOn(c.Weigh.Mix, s.mixNitrite, t.Green)
	c.TotalSalt = shareOn(c.Weigh.Salt+s.mixSalt.Of(c.Weigh.Mix), t.Green)
	c.TotalSugar = shareOn(c.Weigh.Sugar+s.mixSugar.Of(c.Weigh.Mix), t.Green)
	if c.TotalSalt > MaxSalt {
		return DryCure{}, s.tooSalty(c.TotalSalt)
	}
	c.Warnings = s.warnings(c.Weigh, c.Step, c.Ingoing, c.TotalSalt, c.TotalSugar)
	c.Trail = c.trail(&s)
	return c, nil
}

// trail writes the sum down as a person would do it on paper.
func (c *DryCure) trail(s *targets) Trail {
	l := newLedger(12)
	green := c.Targets.Green
	l.step("Weight base", handbook("ch. 3, introduction", Found)).grams(green).say(" green weight")
	s.aimSteps(&l)
	l.step("Curing mix", handbook("ch. 3, dry products", SecondHand)).
		grams(green).say(" × ").figure(float64(s.aim), 2).say(" ÷ 1,000,000 ÷ ").proportion(s.mixNitrite).
		say(" = ").grams(c.Exact.Mix)
	l.step("On the scale, rounded down", computed()).grams(c.Exact.Mix).say(" → ").grams(c.Weigh.Mix)
	l.step("Nitrite from what is weighed", handbook("ch. 3, dry products", SecondHand)).
		grams(c.Weigh.Mix).say(" × ").proportion(s.mixNitrite).say(" × 1,000,000 ÷ ").grams(green).
		say(" = ").ppm(c.Ingoing)
	l.step("Held against", c.Limit.Source).ppm(c.Ingoing).say(" ≤ ").say(c.Limit.Text()).say(", ").say(c.Limit.What)
	s.saltSteps(&l, c.Weigh, green, c.TotalSalt)
	s.sugarSteps(&l, c.Weigh, green, c.TotalSugar)
	return l.trail()
}
