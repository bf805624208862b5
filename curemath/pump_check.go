package curemath

// Cover is a brine the pumped meat lies in.
type Cover struct {
	Pickle Pickle
	Mix    Mix
	// Pickup is percent of the green weight; zero assumes AssumedPickup.
	Pickup Percent
}

// PumpRecipe is an injection cure already written by weight.
type PumpRecipe struct {
	Green  Grams
	RindOn bool
	Pickle Pickle
	Mix    Mix
	Pump   Percent
	// Cover is nil when the meat lies in no brine afterwards.
	Cover *Cover
	Rules RuleSet
}

// CheckPump counts an injection cure, with what a cover brine adds (see
// SolvePump for the formulas and their source). Errors are *Refusal.
func CheckPump(r PumpRecipe) (Check, error) {
	limit, err := checkRecipe(r.Green, r.Pickle.parts(r.Pickle.Water), r.Mix, r.Rules, Injection, r.RindOn)
	if err != nil {
		return Check{}, err
	}
	if err := checkWeight("weight of the pickle", r.Pickle.Weight(), 1); err != nil {
		return Check{}, err
	}
	if err := checkShare(PumpOutOfRange, "pump", r.Pump, 0, maxPump); err != nil {
		return Check{}, err
	}
	assumed := false
	if r.Cover != nil {
		cover := *r.Cover
		if _, err := checkRecipe(r.Green, cover.Pickle.parts(cover.Pickle.Water), cover.Mix, r.Rules, Injection, r.RindOn); err != nil {
			return Check{}, err
		}
		if err := checkWeight("weight of the cover brine", cover.Pickle.Weight(), 1); err != nil {
			return Check{}, err
		}
		if assumed = cover.Pickup == 0; assumed {
			cover.Pickup = AssumedPickup
		}
		if err := checkShare(PumpOutOfRange, "pick-up", cover.Pickup, 0, maxPickup); err != nil {
			return Check{}, err
		}
		cover.Mix = cover.Mix.usedIn(cover.Pickle.Portion)
		r.Cover = &cover
	}
	parts := pumpParts{r.Pickle, r.Mix.usedIn(r.Pickle.Portion), r.Pump, r.Cover}
	c := countPump(parts, r.Green, limit)
	w := doubts(r.Rules, limit)
	w.pump(c, r.Pickle, parts.mix, assumed, c.Held.Ascorbate)
	w.salt(c.Held.Salt)
	c.Warnings = w
	l := newLedger(9)
	l.step("Weight base", handbook("ch. 3, introduction", Found)).grams(r.Green).say(" green weight")
	pumpSteps(&l, parts, r.Green, c)
	limitStep(&l, c.Held.Nitrite, limit)
	c.Trail = l.trail()
	return c, nil
}

// pumpParts is what a pump is counted from.
type pumpParts struct {
	pickle Pickle
	mix    Mix
	pump   Percent
	cover  *Cover
}

// countPump reads the pump and, if there is one, the cover, and sums the two.
// What a cover might draw out of the meat again is not taken off.
func countPump(p pumpParts, green Grams, limit Limit) Check {
	c := Check{Method: Injection, Limit: limit}
	injected := readPortion(Injected, p.pickle.Portion, p.mix, p.pump.Proportion(), p.pickle.Weight())
	c.Readings = []Reading{injected}
	c.Held = injected
	most := limit.MaxFor(p.mix)
	if p.cover != nil {
		covered := higher(pickupReading(p.cover.Pickle, p.cover.Mix, p.cover.Pickup, green), evenReading(p.cover.Pickle, p.cover.Mix, green))
		covered.Name = Covered + ", " + covered.Name
		c.Held = injected.Plus(covered, Together)
		c.Readings = append(c.Readings, covered, c.Held)
		most = min(most, limit.MaxFor(p.cover.Mix))
	}
	c.Verdict = judge(c.Held, limit, most)
	return c
}

func pumpSteps(l *ledger, p pumpParts, green Grams, c Check) {
	injected := c.Readings[0]
	l.step("Injected", handbook("ch. 3, p. 19", SecondHand)).
		grams(p.pickle.Mix).say(" × ").proportion(p.mix.SodiumNitrite()).say(" × ").proportion(p.pump).
		say(" × 1,000,000 ÷ ").grams(p.pickle.Weight()).say(" = ").ppm(injected.Nitrite)
	if p.cover != nil {
		k := *p.cover
		picked, even := pickupReading(k.Pickle, k.Mix, k.Pickup, green), evenReading(k.Pickle, k.Mix, green)
		brineSteps(l, k.Pickle, k.Mix, k.Pickup, green, picked, even)
		l.step("Summed, the higher way of the cover", handbook("ch. 3", SecondHand)).
			ppm(injected.Nitrite).say(" + ").ppm(c.Readings[1].Nitrite).say(" = ").ppm(c.Held.Nitrite)
	}
	nitrateStep(l, p.pickle.Mix, p.mix, p.pickle.Weight()/Grams(max(p.pump.Proportion(), 1e-9)), injected.Nitrate)
	l.step("Salt injected", computed()).
		say("(").grams(p.pickle.Salt).say(" + ").grams(p.mix.Salt().Of(p.pickle.Mix)).say(" from the mix) × ").
		proportion(p.pump).say(" ÷ ").grams(p.pickle.Weight()).say(" × 100 = ").share(injected.Salt)
}

func (c *PumpCure) trail(s *targets, uptake float64) Trail {
	l := newLedger(24)
	t := c.Targets
	batch := c.Exact.Weight()
	l.step("Weight base", handbook("ch. 3, introduction", Found)).grams(t.Green).say(" green weight")
	s.aimSteps(&l)
	l.step("To inject", handbook("ch. 3, p. 19", SecondHand)).
		grams(t.Green).say(" × ").proportion(t.Pump).say(" = ").grams(c.Inject)
	if t.Cover > 0 {
		even := float64(t.Cover / (t.Green + t.Cover))
		l.step("Taken up, pump and the higher way of the cover", handbook("ch. 3", SecondHand)).
			proportion(t.Pump).say(" + ").figure(max(taken(t.Pickup, t.Cover, t.Green), even), 6).say(" = ").figure(uptake, 6)
	}
	l.step("Curing mix in the pickle", handbook("ch. 3, p. 19", SecondHand)).
		grams(batch).say(" × ").figure(float64(s.aim), 2).say(" ÷ 1,000,000 ÷ ").proportion(s.mixNitrite).
		say(" ÷ ").figure(uptake, 6).say(" = ").grams(c.Exact.Mix)
	l.step("On the scale, rounded down", computed()).grams(c.Exact.Mix).say(" → ").grams(c.Weigh.Mix)
	base := batch / Grams(uptake) // the meat that so much pickle is for
	l.step("Meat that the pickle does for", computed()).grams(batch).say(" ÷ ").figure(uptake, 6).say(" = ").grams(base)
	s.saltSteps(&l, c.Weigh.Portion, base, c.Held.Salt)
	s.sugarSteps(&l, c.Weigh.Portion, base, c.Held.Sugar)
	l.step("Water, the rest", computed()).grams(c.Weigh.Water)
	pumpSteps(&l, pumpParts{c.Weigh, t.Mix, t.Pump, coverOf(t, c.Weigh)}, t.Green, c.Check)
	limitStep(&l, c.Held.Nitrite, c.Limit)
	return l.trail()
}

// roundedAway is how much of the ascorbate a rule asks for may be lost to
// rounding down before it is said to be missing.
const roundedAway = 0.98

// asks says what the rule wants beside the nitrite of pumped bacon.
func (w *warnings) asks(l Limit) {
	w.add(WarnAscorbateMissing, l.Source, about("The rule for pumped bacon asks for ").ppm(l.Ascorbate).
		say(" of sodium ascorbate or erythorbate with the nitrite, ").grams(l.Ascorbate.Of(Kilogram)).say(" a kilogram."))
}

func (w *warnings) pump(c Check, p Pickle, m Mix, assumed bool, ascorbate PPM) {
	if want := c.Limit.Ascorbate; want > 0 && ascorbate < want*roundedAway {
		w.asks(c.Limit)
	}
	w.pickup(assumed)
	if len(c.Readings) == 3 && c.Verdict == VerdictWithin && c.Readings[0].Nitrite < c.Limit.Min {
		w.add(WarnReadingsDiffer, handbook("ch. 3", SecondHand), about("The pump alone brings only ").ppm(c.Readings[0].Nitrite).
			say("; it is only a cure once the cover brine has done its part."))
	}
	w.dissolves(p, m)
}
