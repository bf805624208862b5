package curemath

func practice() Source { return Source{Status: Practice} }

// warnings collects what a person has to be told.
type warnings []Warning

func (w *warnings) add(kind WarningKind, source Source, text *line) {
	*w = append(*w, Warning{Kind: kind, Text: string(text.text), Source: source})
}

// about starts the text of a warning.
func about(s string) *line {
	l := newLine()
	return l.say(s)
}

func (t *targets) tooSalty(total Percent) error {
	return &Refusal{
		Kind: SaltOutOfRange, Field: "salt with what the mix brings", Share: total, Low: 0, High: MaxSalt,
		Said: figure(float64(total), 1) + " %", Mix: t.mix,
		Hint: "A mix of " + figure(float64(t.mix.Nitrite), 3) + " % nitrite is too weak for this method; use a stronger one.",
	}
}

// warnings is what a person has to be told beside the grams.
func (t *targets) warnings(w Portion, step Grams, ingoing PPM, salt, sugar Percent) []Warning {
	out := doubts(t.rules, t.limit)
	if t.capped {
		out.add(WarnCapped, t.limit.Source, about("").ppm(t.nitrite).
			say(" is a hair over the limit, so it is taken down to ").say(t.rules.BaconLimit(t.method, false).Text()).say("."))
	}
	if f := t.rules.PolicyFloor; f > 0 && t.nitrite < f && !t.capped {
		out.add(WarnPolicyFloor, t.rules.PolicyFloorSource, about("").ppm(t.nitrite).
			say(" is lawful but under the ").ppm(f).say(" that policy asks of cured goods kept in the fridge."))
	}
	out.scale(w.Mix, step)
	if ingoing < t.limit.Min-noise {
		out.add(WarnRoundedUnderFloor, t.limit.MinSource, about("Rounded down to the scale this is ").ppm(ingoing).
			say(", under the floor of ").ppm(t.limit.Min).say(". Aim a little higher."))
	}
	if t.mix.RestUnknown {
		out.add(WarnRestUnknown, t.mix.Source, about("What else is in ").say(t.mix.Name).
			say(" only its packet says, so all of it is counted as salt. The packet's own dose goes before this one, unless it holds more nitrite."))
	}
	if own := t.mixSalt.Of(w.Mix); w.Salt == 0 && salt > t.salt && own > 0 {
		out.add(WarnMixBringsSalt, computed(), about("This mix alone brings ").figure(float64(salt), 2).
			say(" % salt, more than the ").figure(float64(t.salt), 2).
			say(" % you asked for. Add no salt; for less salt use a mix with more nitrite in it."))
	}
	if w.Sugar == 0 && sugar > t.sugar {
		out.add(WarnMixBringsSugar, computed(), about("This mix alone brings ").figure(float64(sugar), 2).
			say(" % sugar, more than the ").figure(float64(t.sugar), 2).say(" % you asked for."))
	}
	out.salt(salt)
	return out
}

// doubts is what the rule set itself needs said.
func doubts(rules RuleSet, limit Limit) warnings {
	var out warnings
	if rules.Unknown {
		out.add(WarnRulesUnknown, limit.Source, about(rules.Remark))
	}
	if limit.Source.Status == FromMemory {
		out.add(WarnLimitDoubt, limit.Source, about("The limit of ").say(limit.Text()).
			say(" is from memory, not read in the law. Check your own food law."))
	}
	return out
}

func (w *warnings) scale(mix, step Grams) {
	switch {
	case step < tenth && step > mix*coarse:
		w.add(WarnScaleTooCoarse, computed(), about("").grams(mix).
			say(" of mix is so little that even a 0.01 g scale may be off by more than a twentieth. Cure a larger piece, or use a weaker mix."))
	case step < tenth:
		w.add(WarnFinerScale, computed(), about("This needs a scale that reads 0.01 g: a tenth of a gram is too coarse for ").grams(mix).say(" of mix."))
	}
}

func (w *warnings) salt(salt Percent) {
	usual := func(l *line) *line {
		return l.say(" (").figure(float64(lowSalt), 1).say(" to ").figure(float64(highSalt), 1).say(" % is usual).")
	}
	switch {
	case salt < lowSalt:
		w.add(WarnSaltLow, practice(), usual(about("").figure(float64(salt), 2).say(" % salt is bland for bacon")).
			say(" Nitrite, cold and cooking carry the safety, not the salt."))
	case salt > highSalt:
		w.add(WarnSaltHigh, practice(), usual(about("").figure(float64(salt), 2).say(" % salt is very salty for bacon")))
	}
}
