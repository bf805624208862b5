package curemath

// PumpTargets is what an injection cure aims at.
type PumpTargets struct {
	Green  Grams
	RindOn bool
	// Pump is the pickle to inject, percent of Green.
	Pump Percent
	// Cover is the weight of the same pickle the pumped meat then lies in; zero
	// for none.
	Cover Grams
	// Pickup is what the meat takes up from the cover, percent of Green; zero
	// assumes AssumedPickup. Not looked at without a cover.
	Pickup Percent
	// Nitrite, Salt, Sugar and Ascorbate are on the green weight, injected and
	// taken from the cover together.
	Nitrite     PPM
	Salt, Sugar Percent
	Ascorbate   PPM
	Mix         Mix
	Rules       RuleSet
}

// PumpCure is the pickle to make and how much of it to inject.
type PumpCure struct {
	Targets PumpTargets
	// Exact and Weigh are the whole pickle, to inject and to cover.
	Exact, Weigh Pickle
	Step         Grams
	// Inject is how much goes in; Pumped what the meat weighs then.
	Inject, Pumped Grams
	Check
}

// Injected, Covered and Together name what a pump is counted as.
const (
	Injected = "injected"
	Covered  = "from the cover brine"
	Together = "injected and covered together"
)

// habits of pumping (common practice, no source).
const (
	minPump Percent = 1
	maxPump Percent = 40
)

// PumpOf gives the pump from the weight before and after: (pumped − green) ÷
// green (calculations handbook, chapter 3, page 19: second-hand).
func PumpOf(green, pumped Grams) (Percent, error) {
	if err := checkWeight("green weight", green, MinWeight); err != nil {
		return 0, err
	}
	if err := checkWeight("pumped weight", pumped, MinWeight); err != nil {
		return 0, err
	}
	p := shareOn(pumped-green, green)
	return p, checkShare(PumpOutOfRange, "pump", p, 0, maxPump)
}

// SolvePump gives the pickle for an injection cure: ppm = nitrite × pump ×
// 1,000,000 ÷ pickle weight (FSIS Directive 7620.3, chapter 3, page 19:
// second-hand, not checked against the text). A cover brine adds what the meat
// takes from it, counted by pick-up and once even, the higher held; the two are
// summed. Errors are *Refusal.
func SolvePump(t PumpTargets) (PumpCure, error) {
	s := targets{
		method: Injection, green: t.Green, rindOn: t.RindOn, nitrite: t.Nitrite, salt: t.Salt, sugar: t.Sugar,
		ascorbate: t.Ascorbate, mix: t.Mix, rules: t.Rules,
	}
	if err := s.settle(); err != nil {
		return PumpCure{}, err
	}
	if err := checkShare(PumpOutOfRange, "pump", t.Pump, minPump, maxPump); err != nil {
		return PumpCure{}, err
	}
	if t.Cover != 0 {
		if err := checkWeight("weight of the cover brine", t.Cover, 1); err != nil {
			return PumpCure{}, err
		}
	}
	assumed := t.Cover > 0 && t.Pickup == 0
	if assumed {
		t.Pickup = AssumedPickup
	}
	if t.Cover > 0 {
		if err := checkShare(PumpOutOfRange, "pick-up", t.Pickup, 0.5, maxPickup); err != nil {
			return PumpCure{}, err
		}
	}
	inject := t.Pump.Of(t.Green)
	c := PumpCure{Targets: t, Inject: inject, Pumped: t.Green + inject}
	uptake := uptakeOf(t)
	// Shares of the meat divided by the uptake are shares of the pickle.
	batch := inject + t.Cover
	c.Exact.Portion = s.portionFor(batch / Grams(uptake))
	c.Exact.Water = batch - c.Exact.Weight()
	if c.Exact.Water <= 0 {
		return PumpCure{}, &Refusal{Kind: BrineImpossible, Weight: batch, Share: t.Salt, Mix: t.Mix,
			Hint: "Pump more pickle, aim at less salt, or use a mix with more nitrite in it."}
	}
	c.Weigh, c.Step = s.weighPickle(c.Exact, batch/Grams(uptake))
	c.Check = countPump(pumpParts{c.Weigh, t.Mix, t.Pump, coverOf(t, c.Weigh)}, t.Green, s.limit)
	if c.Held.Salt > MaxSalt {
		return PumpCure{}, s.tooSalty(c.Held.Salt)
	}
	w := warnings(s.warnings(c.Weigh.Portion, c.Step, c.Held.Nitrite, c.Held.Salt, c.Held.Sugar))
	w.pump(c.Check, c.Weigh, t.Mix, assumed, t.Ascorbate)
	c.Warnings = w
	c.Trail = c.trail(&s, uptake)
	return c, nil
}

// uptakeOf is how much of the pickle's strength ends in the meat: the pump, and
// from a cover the higher of the pick-up and the even share.
func uptakeOf(t PumpTargets) float64 {
	u := t.Pump.Proportion()
	if t.Cover > 0 {
		even := float64(t.Cover / (t.Green + t.Cover))
		u += max(taken(t.Pickup, t.Cover, t.Green), even)
	}
	return u
}

// coverOf is the part of a pickle that covers the meat.
func coverOf(t PumpTargets, p Pickle) *Cover {
	if t.Cover == 0 {
		return nil
	}
	return &Cover{Pickle: p.part(t.Cover / (t.Pump.Of(t.Green) + t.Cover)), Mix: t.Mix, Pickup: t.Pickup}
}

// part is that proportion of a pickle.
func (p Pickle) part(k Grams) Pickle {
	return Pickle{Water: p.Water * k, Portion: p.Portion.Times(float64(k)), Other: p.Other * k}
}

// weighPickle rounds a pickle of fixed weight: what rounding takes off or adds
// the water makes up, so the strength moves only with the rounded parts.
func (t *targets) weighPickle(exact Pickle, base Grams) (Pickle, Grams) {
	w := Pickle{}
	var step Grams
	w.Portion, step = t.weighable(exact.Portion, base)
	w.Water = exact.Weight() - w.Weight()
	return w, step
}
