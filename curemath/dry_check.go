package curemath

// DryRecipe is a dry cure already written by weight.
type DryRecipe struct {
	Green   Grams
	RindOn  bool
	Portion Portion
	Mix     Mix
	Rules   RuleSet
}

// CheckDry says what a dry rub comes to: ppm = mix × fraction × 1,000,000 ÷
// green weight, all of the cure counted (FSIS Directive 7620.3, chapter 3, dry
// products: second-hand, not checked against the text). A recipe over the limit
// is no error: it is a verdict with its figures. Errors are *Refusal.
func CheckDry(r DryRecipe) (Check, error) {
	return checkDry(r, DryRub, "all of the cure")
}

func checkDry(r DryRecipe, m Method, name string) (Check, error) {
	limit, err := checkRecipe(r.Green, r.Portion.parts(0), r.Mix, r.Rules, m, r.RindOn)
	if err != nil {
		return Check{}, err
	}
	r.Mix = r.Mix.usedIn(r.Portion)
	held := readPortion(name, r.Portion, r.Mix, 1, r.Green)
	c := Check{
		Method: m, Readings: []Reading{held}, Held: held, Limit: limit,
		Verdict: judge(held, limit, limit.MaxFor(r.Mix)),
	}
	w := doubts(r.Rules, limit)
	w.salt(held.Salt)
	c.Warnings = w
	l := newLedger(6)
	l.step("Weight base", handbook("ch. 3, introduction", Found)).grams(r.Green).say(" green weight")
	l.step("Nitrite, all of it counted", handbook("ch. 3, dry products", SecondHand)).
		grams(r.Portion.Mix).say(" × ").proportion(r.Mix.SodiumNitrite()).say(" × 1,000,000 ÷ ").grams(r.Green).
		say(" = ").ppm(held.Nitrite)
	nitrateStep(&l, r.Portion.Mix, r.Mix, r.Green, held.Nitrate)
	limitStep(&l, held.Nitrite, limit)
	readSalt(&l, r.Portion, r.Mix, 1, r.Green, held.Salt)
	c.Trail = l.trail()
	return c, nil
}

func nitrateStep(l *ledger, mix Grams, m Mix, base Grams, nitrate PPM) {
	if nitrate == 0 {
		return
	}
	l.step("Nitrate", nitrateInBacon()).
		grams(mix).say(" × ").proportion(m.Nitrate).say(" × 1,000,000 ÷ ").grams(base).say(" = ").ppm(nitrate)
}

// limitStep writes which side of the limit a figure lies on.
func limitStep(l *ledger, p PPM, limit Limit) {
	s := l.step("Held against", limit.Source).ppm(p)
	if p > limit.Max+roundingError {
		s.say(" > ")
	} else {
		s.say(" ≤ ")
	}
	s.say(limit.Text()).say(", ").say(limit.What)
}

func readSalt(l *ledger, p Portion, m Mix, k float64, base Grams, salt Percent) {
	own := m.Salt().Of(p.Mix)
	s := l.step("Salt in all", computed()).say("(").grams(p.Salt).say(" + ").grams(own).say(" from the mix) ÷ ").grams(base)
	if k != 1 {
		s.say(" × ").figure(k, 4)
	}
	s.say(" × 100 = ").share(salt)
}
