package curemath

import "math"

// spread follows every doubt of a recipe through to the results. A doubt is a
// factor with a low, a typical and a high end: how much meat it is, how much of
// an ingredient is asked for, what a measure of it weighs, how strong a mix is,
// what an ingredient is made of. Each factor moves a result one way or the
// other but never turns back on the way, so the extremes of a result lie where
// every factor is at the end that pushes it that way.
type spread struct {
	parts         []part
	meat          Band[Grams]
	method        Method
	pump, pickup  Percent
	cover         Grams
	assumedPickup bool
}

// ends says at which end each factor of a part is: 0 low, 1 typical, 2 high.
type ends struct{ many, each, strength, makeUp uint8 }

const typical uint8 = 1

// Results followed, in the order of outcome.
const (
	outNitrite = iota
	outNitrate
	outSalt
	outSugar
	outFirst  // the first reading
	outSecond // the second reading
	outcomes
)

type outcome [outcomes]float64

func newSpread(q *RecipeQuestion) *spread {
	return &spread{parts: make([]part, 0, len(q.Recipe.Lines)), pump: q.Pump, pickup: q.Pickup, cover: q.Cover}
}

// settle checks what the method needs besides the recipe.
func (s *spread) settle() error {
	if s.method == Injection {
		if err := checkShare(PumpOutOfRange, "pump", s.pump, minPump, maxPump); err != nil {
			return err
		}
		if s.cover != 0 {
			if err := checkWeight("weight of the cover brine", s.cover, 1); err != nil {
				return err
			}
		}
	}
	if s.method == Immersion || s.cover != 0 {
		if s.pickup == 0 {
			s.pickup, s.assumedPickup = AssumedPickup, true
			if s.method == Immersion && wetBag(s.water(), s.meat.Typical) {
				s.pickup = allTaken
				return nil
			}
		}
		return checkShare(PumpOutOfRange, "pick-up", s.pickup, 0.5, maxPickup)
	}
	return nil
}

// contents is the mass of a part and what is in it, with its factors at those
// ends.
type contents struct{ mass, nitrite, nitrate, salt, sugar, water, alcohol float64 }

func (p *part) at(e ends, meat float64) contents {
	m := p.many.at(int(e.many)) * p.each.at(int(e.each))
	if p.perMeat {
		m *= meat
	}
	n, na := p.nitrite.at(int(e.strength)), p.nitrate.at(int(e.strength))
	x := int(e.makeUp)
	c := contents{
		mass: m, nitrite: m * n / 100, nitrate: m * na / 100, salt: m * p.makeUp.salt.at(x) / 100, sugar: m * p.makeUp.sugar.at(x) / 100,
		water: m * p.makeUp.water.at(x) / 100, alcohol: m * p.makeUp.alcohol.at(x) / 100,
	}
	if p.salted {
		c.salt = math.Max(0, c.salt-c.nitrite-c.nitrate)
	}
	return c
}

// outcomeAt gives the results with the meat and every factor at those ends.
func (s *spread) outcomeAt(meatEnd uint8, at []ends) outcome {
	meat := s.meat.at(int(meatEnd))
	var all contents
	for i := range s.parts {
		c := s.parts[i].at(at[i], meat)
		all.nitrite += c.nitrite
		all.nitrate += c.nitrate
		all.salt += c.salt
		all.sugar += c.sugar
		if s.parts[i].dissolves {
			all.mass += c.mass
		}
	}
	switch s.method {
	case Immersion:
		even := 1 / (meat + all.mass)
		picked := 0.0
		if all.mass > 0 {
			picked = taken(s.pickup, Grams(all.mass), Grams(meat)) / all.mass
		}
		held := math.Max(even, picked)
		return outcome{all.nitrite * held * 1e6, all.nitrate * even * 1e6, all.salt * even * 100, all.sugar * even * 100, all.nitrite * picked * 1e6, all.nitrite * even * 1e6}
	case Injection:
		injected, covered := 0.0, 0.0
		if all.mass > 0 {
			injected, covered = s.pump.Proportion()/all.mass, s.covered(meat)/all.mass
		}
		k := injected + covered
		return outcome{all.nitrite * k * 1e6, all.nitrate * k * 1e6, all.salt * k * 100, all.sugar * k * 100, all.nitrite * injected * 1e6, all.nitrite * covered * 1e6}
	default:
		k := 1 / meat
		return outcome{all.nitrite * k * 1e6, all.nitrate * k * 1e6, all.salt * k * 100, all.sugar * k * 100, all.nitrite * k * 1e6, 0}
	}
}

// covered is how much of the pickle's strength meat takes from a cover brine of it: the
// higher of pick-up and even share, as in SolvePump.
func (s *spread) covered(meat float64) float64 {
	if s.cover == 0 {
		return 0
	}
	return max(taken(s.pickup, s.cover, Grams(meat)), float64(s.cover)/(meat+float64(s.cover)))
}

// uptake is what of a pumped pickle's strength ends in the meat.
func (s *spread) uptake() float64 { return s.pump.Proportion() + s.covered(float64(s.meat.Typical)) }

// factor is one doubt: the part it belongs to (-1 for the meat) and which of
// its ends it moves.
type factor struct {
	part int
	end  int
}

const (
	endMany = iota
	endEach
	endStrength
	endMakeUp
)

func (e *ends) set(which int, to uint8) {
	switch which {
	case endMany:
		e.many = to
	case endEach:
		e.each = to
	case endStrength:
		e.strength = to
	default:
		e.makeUp = to
	}
}

// factors lists the doubts there are.
func (s *spread) factors() []factor {
	out := make([]factor, 0, 2*len(s.parts)+1)
	if !s.meat.Exact() {
		out = append(out, factor{part: -1})
	}
	for i := range s.parts {
		p := &s.parts[i]
		if !p.many.Exact() {
			out = append(out, factor{i, endMany})
		}
		if !p.each.Exact() {
			out = append(out, factor{i, endEach})
		}
		if !p.nitrite.Exact() || !p.nitrate.Exact() {
			out = append(out, factor{i, endStrength})
		}
		if !p.makeUp.salt.Exact() || !p.makeUp.sugar.Exact() {
			out = append(out, factor{i, endMakeUp})
		}
	}
	return out
}

// alone is the results with one factor at an end and all others typical.
func (s *spread) alone(f factor, to uint8, scratch []ends) outcome {
	if f.part < 0 {
		return s.outcomeAt(to, scratch)
	}
	scratch[f.part].set(f.end, to)
	o := s.outcomeAt(typical, scratch)
	scratch[f.part].set(f.end, typical)
	return o
}

// extent is a result with the factor that moves it most.
type extent struct {
	low, typical, high float64
	by                 factor
	has                bool
	byLow, byHigh      float64
}

// extents follows every result.
func (s *spread) extents() [outcomes]extent {
	var out [outcomes]extent
	at := make([]ends, len(s.parts))
	for i := range at {
		at[i] = ends{typical, typical, typical, typical}
	}
	mid := s.outcomeAt(typical, at)
	factors := s.factors()
	up := make([]outcome, len(factors))
	down := make([]outcome, len(factors))
	for i, f := range factors {
		down[i], up[i] = s.alone(f, 0, at), s.alone(f, 2, at)
	}
	for o := range out {
		e := extent{typical: mid[o]}
		widest := 0.0
		for i, f := range factors {
			if w := math.Abs(up[i][o] - down[i][o]); w > widest*(1+1e-9) {
				widest = w
				e.by, e.has = f, true
				e.byLow, e.byHigh = math.Min(down[i][o], up[i][o]), math.Max(down[i][o], up[i][o])
			}
		}
		e.low, e.high = s.extreme(o, factors, down, up, at, false), s.extreme(o, factors, down, up, at, true)
		out[o] = e
	}
	return out
}

// pushedLike names the result whose factors tell which way o is pushed. What a
// brine gives by pick-up stands still where there is less brine than the meat
// would take up, so there the way is read off the even count, which every
// factor moves the same way and never stands still.
func (s *spread) pushedLike(o int) int {
	if s.method == Immersion && (o == outNitrite || o == outFirst) {
		return outSecond
	}
	return o
}

// extreme puts every factor at the end that pushes result o that way.
func (s *spread) extreme(o int, factors []factor, down, up []outcome, at []ends, high bool) float64 {
	by := s.pushedLike(o)
	meat := typical
	for i, f := range factors {
		to := uint8(0)
		if (up[i][by] > down[i][by]) == high {
			to = 2
		}
		if f.part < 0 {
			meat = to
			continue
		}
		at[f.part].set(f.end, to)
	}
	v := s.outcomeAt(meat, at)[o]
	for _, f := range factors {
		if f.part >= 0 {
			at[f.part].set(f.end, typical)
		}
	}
	return v
}
