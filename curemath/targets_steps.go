package curemath

// aimSteps writes how the aim on the weighed meat came about.
func (t *targets) aimSteps(l *ledger) {
	if t.rindOn {
		l.step("Rind on, a tenth off", t.rules.rindSource).
			ppm(t.nitrite).say(" × ").figure(t.rindFactor, 2).say(" = ").ppm(t.nitrite * PPM(t.rindFactor))
	}
	if t.mix.Potassium {
		l.step("Potassium nitrite as sodium nitrite", computed()).
			share(t.mix.Nitrite).say(" ÷ ").figure(potassiumPerSodium, 5).say(" = ").share(t.mixNitrite)
	}
	if t.capped {
		l.step("Taken down to the limit", t.limit.Source).
			ppm(t.nitrite * PPM(t.rindFactor)).say(" → ").ppm(t.aim)
	}
}

func (t *targets) saltSteps(l *ledger, w Portion, base Grams, total Percent) {
	own := t.mixSalt.Of(w.Mix)
	l.step("Salt in the mix", computed()).
		grams(w.Mix).say(" × ").fine(t.mixSalt).say(" = ").term(own)
	l.step("Salt to add", computed()).
		grams(base).say(" × ").fine(t.salt).say(" − ").term(own).say(" = ").rest(t.salt.Of(base) - own).
		say(" → ").grams(w.Salt)
	l.step("Salt in all", computed()).
		say("(").grams(w.Salt).say(" + ").term(own).say(") ÷ ").grams(base).say(" × 100 = ").share(total)
}

func (t *targets) sugarSteps(l *ledger, w Portion, base Grams, total Percent) {
	if t.sugar == 0 && total == 0 && t.ascorbate == 0 {
		return
	}
	if t.sugar > 0 || total > 0 {
		own := t.mixSugar.Of(w.Mix)
		s := l.step("Sugar to add", computed()).grams(base).say(" × ").fine(t.sugar)
		if own > 0 {
			s.say(" − ").term(own)
		}
		s.say(" = ").rest(t.sugar.Of(base) - own).say(" → ").grams(w.Sugar)
	}
	if t.ascorbate > 0 {
		l.step("Ascorbate", computed()).
			grams(base).say(" × ").figure(float64(t.ascorbate), 3).say(" ÷ 1,000,000 = ").
			grams(t.ascorbate.Of(base)).say(" → ").grams(w.Ascorbate)
	}
}
