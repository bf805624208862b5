package curemath

import "math"

// What is cured at when a person names nothing. 120 ppm meets the US bacon
// limits of every method, the US policy floor and the Canadian bacon limit;
// salt and sugar are taste (common practice, no source).
const (
	DefaultNitrite PPM     = 120
	DefaultSalt    Percent = 2.5
	DefaultSugar   Percent = 1
)

// Bounds on what a person may ask for. Weights and shares are sense, not law.
const (
	MinWeight Grams = 50
	MaxWeight Grams = 1000 * Kilogram

	MaxSalt  Percent = 15
	MaxSugar Percent = 20

	// MaxAscorbate is what the US rule adds to pumped bacon and the most any
	// rule here names (9 CFR 424.22(b)(1): second-hand, not checked against the
	// text).
	MaxAscorbate PPM = 550

	lowSalt  Percent = 1.5
	highSalt Percent = 4
)

// hair is how far over a limit an aim may be and still be taken down to it
// rather than refused: 120 ppm is 80.015 mg/kg as ion, and nobody who types it
// under a limit of 80 means to break the law.
const hair PPM = 0.05

// targets is what every method aims at on one piece.
type targets struct {
	method      Method
	green       Grams
	rindOn      bool
	nitrite     PPM
	salt, sugar Percent
	ascorbate   PPM
	mix         Mix
	rules       RuleSet

	// What settle works out.
	limit             Limit
	aim               PPM // on the green weight as weighed
	capped            bool
	mixNitrite        Percent // as sodium nitrite
	mixSalt, mixSugar Percent
	rindFactor        float64
}

// settle checks the targets and turns the aim into ppm on the green weight as
// weighed, with the rind if it is on. Nothing is computed past a refusal.
func (t *targets) settle() error {
	if err := checkWeight("green weight", t.green, MinWeight); err != nil {
		return err
	}
	if err := t.mix.check(); err != nil {
		return err
	}
	if t.mix.Nitrate > 0 {
		return &Refusal{Kind: NitrateInBacon, Mix: t.mix}
	}
	if err := checkShare(SaltOutOfRange, "salt target", t.salt, 0, MaxSalt); err != nil {
		return err
	}
	if err := checkShare(SugarOutOfRange, "sugar target", t.sugar, 0, MaxSugar); err != nil {
		return err
	}
	if err := checkAscorbate(t.ascorbate); err != nil {
		return err
	}
	t.mixNitrite, t.mixSalt, t.mixSugar = t.mix.SodiumNitrite(), t.mix.Salt(), t.mix.Sugar
	return t.settleAim()
}

func (t *targets) settleAim() error {
	if !finite(float64(t.nitrite)) {
		return &Refusal{Kind: NotANumber, Field: "nitrite target"}
	}
	t.limit = t.rules.BaconLimit(t.method, t.rindOn)
	if t.limit.Max == 0 {
		return &Refusal{Kind: RulesMissing}
	}
	t.rindFactor = 1
	if t.rindOn {
		t.rindFactor = t.rules.rind
	}
	t.aim = t.nitrite * PPM(t.rindFactor)
	most := t.limit.MaxFor(t.mix)
	if t.aim > most {
		if t.aim > most+hair {
			return t.refuse(OverLimit)
		}
		t.aim, t.capped = most, true
	}
	if t.aim < t.limit.Min {
		return t.refuse(UnderFloor)
	}
	return nil
}

// refuse names the aim as the person gave it, so the limit is shown on the same
// weight: without rind.
func (t *targets) refuse(kind RefusalKind) error {
	limit := t.limit
	if t.rindOn {
		limit = t.rules.BaconLimit(t.method, false)
	}
	return &Refusal{Kind: kind, Nitrite: t.nitrite, Said: figure(float64(t.nitrite), 2) + " ppm", Limit: limit, Mix: t.mix, Weight: t.green}
}

func checkWeight(field string, g, least Grams) error {
	switch {
	case !finite(float64(g)):
		return &Refusal{Kind: NotANumber, Field: field}
	case g <= 0:
		return &Refusal{Kind: WeightNotPositive, Field: field, Weight: g, Said: gramsSaid(g)}
	case g < least || g > MaxWeight:
		return &Refusal{Kind: WeightAbsurd, Field: field, Weight: g, Least: least, Said: gramsSaid(g)}
	}
	return nil
}

func checkShare(kind RefusalKind, field string, p, low, high Percent) error {
	if !finite(float64(p)) {
		return &Refusal{Kind: NotANumber, Field: field}
	}
	if p < low || p > high {
		return &Refusal{Kind: kind, Field: field, Share: p, Low: low, High: high, Said: figure(float64(p), 2) + " %"}
	}
	return nil
}

func checkAscorbate(p PPM) error {
	if !finite(float64(p)) {
		return &Refusal{Kind: NotANumber, Field: "ascorbate target"}
	}
	if p < 0 || p > MaxAscorbate {
		return &Refusal{Kind: AscorbateOutOfRange, Nitrite: p, Said: figure(float64(p), 1) + " ppm"}
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func gramsSaid(g Grams) string {
	if g >= Kilogram {
		return figure(g.Kilograms(), 3) + " kg"
	}
	return figure(float64(g), 2) + " g"
}
