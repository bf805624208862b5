package curemath

// BrineTargets is what an immersion cure aims at.
type BrineTargets struct {
	Green  Grams
	RindOn bool
	// Water in the brine.
	Water Grams
	// Pickup is what the meat takes up, percent of Green; zero assumes
	// AssumedPickup, or all of it where the water does not cover the meat, and
	// says so.
	Pickup Percent
	// Nitrite is held to the stricter of the two ways of counting. Salt and
	// Sugar are percent of meat and brine together: what both end at once even.
	Nitrite     PPM
	Salt, Sugar Percent
	Ascorbate   PPM
	Mix         Mix
	Rules       RuleSet
}

// BrineCure is a brine for one piece or one tub, and what it comes to.
type BrineCure struct {
	Targets BrineTargets
	Exact   Pickle
	Weigh   Pickle
	Step    Grams
	// Check is what the brine as weighed comes to, counted both ways.
	Check
}

// ByPickup and OnceEven are the names of the two ways a brine is counted.
const (
	ByPickup = "by pick-up"
	OnceEven = "once even"
)

// SolveBrine gives the grams for an immersion brine, counted both ways of the
// calculations handbook (FSIS Directive 7620.3, chapter 3, pages 21 and 22:
// second-hand, not checked against the text): by pick-up, ppm = nitrite ×
// pick-up × 1,000,000 ÷ pickle weight; and once even, ppm = nitrite × 1,000,000
// ÷ (green weight + pickle weight). The mix is the most that keeps both at or
// under the aim. Errors are *Refusal.
func SolveBrine(t BrineTargets) (BrineCure, error) {
	s := targets{
		method: Immersion, green: t.Green, rindOn: t.RindOn, nitrite: t.Nitrite, salt: t.Salt, sugar: t.Sugar,
		ascorbate: t.Ascorbate, mix: t.Mix, rules: t.Rules,
	}
	if err := s.settle(); err != nil {
		return BrineCure{}, err
	}
	if err := checkWeight("weight of water", t.Water, 1); err != nil {
		return BrineCure{}, err
	}
	assumed := t.Pickup == 0
	if assumed {
		t.Pickup = assumedPickup(t.Water, t.Green)
	} else if err := checkShare(PumpOutOfRange, "pick-up", t.Pickup, 0.5, maxPickup); err != nil {
		return BrineCure{}, err
	}
	c := BrineCure{Targets: t, Exact: s.brineFor(t.Water, t.Pickup)}
	c.Weigh, c.Step = s.weighBrine(c.Exact, t.Pickup)

	c.Check = countBrine(c.Weigh, t.Mix, t.Pickup, t.Green, s.limit)
	if c.Held.Salt > MaxSalt {
		return BrineCure{}, s.tooSalty(c.Held.Salt)
	}
	w := warnings(s.warnings(c.Weigh.Portion, c.Step, c.Held.Nitrite, c.Held.Salt, c.Held.Sugar))
	w.brine(c.Check, c.Weigh, t.Mix, assumed, t.Green)
	c.Warnings = w
	c.Trail = c.trail(&s)
	return c, nil
}

// brineFor finds the pickle whose weight, all in, is the weight its own shares
// were reckoned on. The solids are under half of what they are a share of, so
// the weight settles geometrically.
func (t *targets) brineFor(water Grams, pickup Percent) Pickle {
	p := Pickle{Water: water}
	for range 200 {
		weight := p.Weight()
		both := t.green + weight
		even := t.aim.Of(both)
		picked := t.aim.Of(weight) / Grams(taken(pickup, weight, t.green))
		q := t.portionFor(both)
		q.Mix = min(even, picked) / Grams(t.mixNitrite.Proportion())
		q.Salt = max(0, t.salt.Of(both)-t.mixSalt.Of(q.Mix))
		q.Sugar = max(0, t.sugar.Of(both)-t.mixSugar.Of(q.Mix))
		p.Portion = q
		if change := p.Weight() - weight; change < 1e-12*weight && change > -1e-12*weight {
			break
		}
	}
	return p
}

// weighBrine rounds a pickle to the scale. Salt rounded down makes a pickle a
// hair lighter and so stronger; the mix then gives up a step, so that what is
// weighed never passes the aim.
func (t *targets) weighBrine(exact Pickle, pickup Percent) (Pickle, Grams) {
	w := exact
	var step Grams
	w.Portion, step = t.weighable(exact.Portion, t.green+exact.Weight())
	for w.Mix > 0 && t.held(w, pickup) > t.aim+roundingError {
		w.Mix = roundDown(w.Mix-step, step)
	}
	return w, step
}

func (t *targets) held(p Pickle, pickup Percent) PPM {
	return max(pickupReading(p, t.mix, pickup, t.green).Nitrite, evenReading(p, t.mix, t.green).Nitrite)
}

func pickupReading(p Pickle, m Mix, pickup Percent, green Grams) Reading {
	w := p.Weight()
	return readPortion(ByPickup, p.Portion, m, taken(pickup, w, green), w)
}

func evenReading(p Pickle, m Mix, green Grams) Reading {
	return readPortion(OnceEven, p.Portion, m, 1, green+p.Weight())
}
