package curemath

import "fmt"

func practice() Source { return Source{Status: Practice} }

func (t *targets) tooSalty(total Percent) error {
	return &Refusal{
		Kind: SaltOutOfRange, Field: "salt with what the mix brings", Share: total, Low: 0, High: MaxSalt,
		Said: figure(float64(total), 1) + " %", Mix: t.mix,
		Hint: "A mix of " + figure(float64(t.mix.Nitrite), 3) + " % nitrite is too weak for this method; use a stronger one.",
	}
}

// warnings is what a person has to be told beside the grams. base is the weight
// the shares are percent of.
func (t *targets) warnings(w Portion, step Grams, ingoing PPM, salt, sugar Percent) []Warning {
	var out []Warning
	add := func(k WarningKind, src Source, format string, args ...any) {
		out = append(out, Warning{Kind: k, Source: src, Text: fmt.Sprintf(format, args...)})
	}
	if t.rules.Unknown {
		add(WarnRulesUnknown, t.limit.Source, "%s", t.rules.Remark)
	}
	if t.limit.Source.Status == FromMemory {
		add(WarnLimitDoubt, t.limit.Source, "The limit of %s is from memory, not read in the law; the lower reading is used. Check your own food law.", t.limit.Text())
	}
	if t.capped {
		add(WarnCapped, t.limit.Source, "%s ppm is a hair over the limit, so it is taken down to %s.", figure(float64(t.nitrite), 2), t.rules.BaconLimit(t.method, false).Text())
	}
	if f := t.rules.PolicyFloor; f > 0 && t.nitrite < f && !t.capped {
		add(WarnPolicyFloor, t.rules.PolicyFloorSource, "%s ppm is lawful but under the %s ppm that policy asks of cured goods kept in the fridge.", figure(float64(t.nitrite), 2), figure(float64(f), 0))
	}
	switch {
	case step < tenth && step > w.Mix*coarse:
		add(WarnScaleTooCoarse, computed(), "%s g of mix is so little that even a 0.01 g scale may be off by more than a twentieth. Cure a larger piece, or use a weaker mix.", figure(float64(w.Mix), 2))
	case step < tenth:
		add(WarnFinerScale, computed(), "This needs a scale that reads 0.01 g: a tenth of a gram is too coarse for %s g of mix.", figure(float64(w.Mix), 2))
	}
	if ingoing < t.limit.Min {
		add(WarnRoundedUnderFloor, t.limit.MinSource, "Rounded down to the scale this is %s ppm, under the floor of %s. Aim a little higher.", figure(float64(ingoing), 1), figure(float64(t.limit.Min), 1))
	}
	if own := t.mixSalt.Of(w.Mix); w.Salt == 0 && salt > t.salt && own > 0 {
		add(WarnMixBringsSalt, computed(), "This mix alone brings %s %% salt, more than the %s %% you asked for. Add no salt; for less salt use a mix with more nitrite in it.", figure(float64(salt), 2), figure(float64(t.salt), 2))
	}
	if w.Sugar == 0 && sugar > t.sugar {
		add(WarnMixBringsSugar, computed(), "This mix alone brings %s %% sugar, more than the %s %% you asked for.", figure(float64(sugar), 2), figure(float64(t.sugar), 2))
	}
	switch {
	case salt < lowSalt:
		add(WarnSaltLow, practice(), "%s %% salt is bland for bacon (%s to %s %% is usual). Nitrite, cold and cooking carry the safety, not the salt.", figure(float64(salt), 2), figure(float64(lowSalt), 1), figure(float64(highSalt), 1))
	case salt > highSalt:
		add(WarnSaltHigh, practice(), "%s %% salt is very salty for bacon (%s to %s %% is usual).", figure(float64(salt), 2), figure(float64(lowSalt), 1), figure(float64(highSalt), 1))
	}
	return out
}
