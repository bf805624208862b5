package curemath

// BrineRecipe is an immersion brine already written by weight.
type BrineRecipe struct {
	Green  Grams
	RindOn bool
	Pickle Pickle
	Mix    Mix
	// Pickup is percent of Green; zero assumes it as in BrineTargets and says so.
	Pickup Percent
	Rules  RuleSet
}

// CheckBrine counts a brine both ways and holds the higher to the limit (see
// SolveBrine for the formulas and their source). Errors are *Refusal.
func CheckBrine(r BrineRecipe) (Check, error) {
	limit, err := checkRecipe(r.Green, r.Pickle.parts(r.Pickle.Water), r.Mix, r.Rules, Immersion, r.RindOn)
	if err != nil {
		return Check{}, err
	}
	if err := checkWeight("weight of the pickle", r.Pickle.Weight(), 1); err != nil {
		return Check{}, err
	}
	assumed := r.Pickup == 0
	if assumed {
		r.Pickup = assumedPickup(r.Pickle.Water, r.Green)
	} else if err := checkShare(PumpOutOfRange, "pick-up", r.Pickup, 0, maxPickup); err != nil {
		return Check{}, err
	}
	r.Mix = r.Mix.usedIn(r.Pickle.Portion)
	c := countBrine(r.Pickle, r.Mix, r.Pickup, r.Green, limit)
	picked, even := c.Readings[0], c.Readings[1]
	w := doubts(r.Rules, limit)
	w.brine(c, r.Pickle, r.Mix, assumed, r.Green)
	w.salt(even.Salt)
	c.Warnings = w
	l := newLedger(8)
	l.step("Weight base", handbook("ch. 3, introduction", Found)).grams(r.Green).say(" green weight")
	brineSteps(&l, r.Pickle, r.Mix, r.Pickup, r.Green, picked, even)
	limitStep(&l, c.Held.Nitrite, limit)
	readSalt(&l, r.Pickle.Portion, r.Mix, 1, r.Green+r.Pickle.Weight(), even.Salt)
	c.Trail = l.trail()
	return c, nil
}

// countBrine reads a brine both ways and holds the higher to the limit.
func countBrine(p Pickle, m Mix, pickup Percent, green Grams, limit Limit) Check {
	picked, even := pickupReading(p, m, pickup, green), evenReading(p, m, green)
	c := Check{Method: Immersion, Readings: []Reading{picked, even}, Held: higher(picked, even), Limit: limit}
	c.Verdict = judge(c.Held, limit, limit.MaxFor(m))
	return c
}

func higher(a, b Reading) Reading {
	if b.Nitrite >= a.Nitrite {
		return b
	}
	return a
}

func lower(a, b Reading) Reading {
	if b.Nitrite < a.Nitrite {
		return b
	}
	return a
}

func brineSteps(l *ledger, p Pickle, m Mix, pickup Percent, green Grams, picked, even Reading) {
	w := p.Weight()
	l.step("Pickle, all in", handbook("ch. 3", SecondHand)).
		grams(p.Water).say(" + ").grams(p.Mix).say(" + ").grams(p.Salt).say(" + ").grams(p.Sugar).
		say(" + ").grams(p.Ascorbate + p.Other).say(" = ").grams(w)
	l.step("By pick-up", handbook("ch. 3, p. 21", SecondHand)).
		grams(p.Mix).say(" × ").proportion(m.SodiumNitrite()).say(" × ").figure(taken(pickup, w, green), 6).
		say(" × 1,000,000 ÷ ").grams(w).say(" = ").ppm(picked.Nitrite)
	l.step("Once even", handbook("ch. 3, p. 22, method two", SecondHand)).
		grams(p.Mix).say(" × ").proportion(m.SodiumNitrite()).say(" × 1,000,000 ÷ (").grams(green).
		say(" + ").grams(w).say(") = ").ppm(even.Nitrite)
	nitrateStep(l, p.Mix, m, green+w, even.Nitrate)
}

// trail shows how the mix was found, then what the brine as weighed comes to.
func (c *BrineCure) trail(s *targets) Trail {
	l := newLedger(14)
	t := c.Targets
	w := c.Exact.Weight()
	l.step("Weight base", handbook("ch. 3, introduction", Found)).grams(t.Green).say(" green weight")
	s.aimSteps(&l)
	if c.Held.Name == OnceEven {
		l.step("Curing mix for the stricter way, once even", handbook("ch. 3, p. 22, method two", SecondHand)).
			say("(").grams(t.Green).say(" + ").grams(w).say(" pickle) × ").figure(float64(s.aim), 2).
			say(" ÷ 1,000,000 ÷ ").proportion(s.mixNitrite).say(" = ").grams(c.Exact.Mix)
	} else {
		l.step("Curing mix for the stricter way, by pick-up", handbook("ch. 3, p. 21", SecondHand)).
			grams(w).say(" pickle × ").figure(float64(s.aim), 2).say(" ÷ 1,000,000 ÷ ").proportion(s.mixNitrite).
			say(" ÷ ").figure(taken(t.Pickup, w, t.Green), 6).say(" = ").grams(c.Exact.Mix)
	}
	l.step("On the scale, rounded down", computed()).grams(c.Exact.Mix).say(" → ").grams(c.Weigh.Mix)
	brineSteps(&l, c.Weigh, t.Mix, t.Pickup, t.Green, c.Readings[0], c.Readings[1])
	limitStep(&l, c.Held.Nitrite, c.Limit)
	both := t.Green + c.Weigh.Weight()
	s.saltSteps(&l, c.Weigh.Portion, both, evenReading(c.Weigh, t.Mix, t.Green).Salt)
	s.sugarSteps(&l, c.Weigh.Portion, both, evenReading(c.Weigh, t.Mix, t.Green).Sugar)
	return l.trail()
}

// brine is what only a brine needs said.
func (w *warnings) brine(c Check, p Pickle, m Mix, assumed bool, green Grams) {
	if bag := wetBag(p.Water, green); assumed && bag {
		w.allTaken()
	} else {
		w.pickup(assumed)
	}
	if low := lower(c.Readings[0], c.Readings[1]); c.Verdict == VerdictWithin && low.Nitrite < c.Limit.Min {
		w.add(WarnReadingsDiffer, handbook("ch. 3", SecondHand), about("The two ways of counting differ: ").
			ppm(low.Nitrite).say(" ").say(low.Name).say(", ").ppm(c.Held.Nitrite).say(" ").say(c.Held.Name).
			say(". It is only a cure once it is even, so do not take the meat out early."))
	}
	w.dissolves(p, m)
}

func (w *warnings) pickup(assumed bool) {
	if !assumed {
		return
	}
	w.add(WarnPickupAssumed, practice(), about("The pick-up of ").share(AssumedPickup).say(" is assumed; at home it runs ").
		figure(float64(lowPickup), 0).say(" to ").share(AssumedPickup).say(". Weigh the meat before and after."))
}
