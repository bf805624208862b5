package curemath

import "math"

// Rewrite is a recipe by weight, for one piece, with the cure put right.
type Rewrite struct {
	Piece Grams
	Mix   Mix
	Lines []RewriteLine
	// Nitrite is what the rewritten recipe comes to, held to the limit; Salt
	// its salt.
	Nitrite PPM
	Salt    Percent
	// Aim is the nitrite it was worked out for, before the scale rounded it
	// down; Sugar its sugar and Water the water in it.
	Aim   PPM
	Sugar Percent
	Water Grams
	// Cover is how much of a pumped pickle the piece lies in.
	Cover Grams
}

// RewriteLine is one thing to weigh.
type RewriteLine struct {
	Name  string
	Weigh Grams
	// Was is the line it comes from, empty for a cure the recipe lacked.
	Was  string
	Cure bool
	// Times is set for a line nobody can weigh here: take that many times what
	// the recipe says. With neither Weigh nor Times it is as the recipe says.
	Times float64
	// LeaveOut: the cure of the rewritten recipe takes its place, or may; used
	// beside it, the meat would be dosed twice.
	LeaveOut bool
	// Note says why a line is not simply scaled; often empty.
	Note string

	salt bool
}

// rewrite puts the recipe into grams for the piece. The cure is worked out anew
// for the rule set's aim, and the salt lines give way so that the salt stays
// what the recipe typically has.
func (c *RecipeCheck) rewrite(q *RecipeQuestion, s *spread) {
	piece := q.Piece
	if piece == 0 {
		piece = c.Meat.Typical
	}
	t := targets{method: c.Method, green: piece, rindOn: q.RindOn, nitrite: q.Rules.Aim(c.Method), mix: s.mixFor(q), rules: q.Rules}
	if t.mix.check() != nil || t.mix.Nitrate > 0 || t.settleAim() != nil {
		return
	}
	t.mixNitrite, t.mixSalt, t.mixSugar = t.mix.SodiumNitrite(), t.mix.Salt(), t.mix.Sugar
	k := piece / c.Meat.Typical
	// What of the recipe is neither salt nor cure, per piece, and its salt.
	var rest, restSalt, restSugar, restWater, salt Grams
	for i := range s.parts {
		p := &s.parts[i]
		l := &c.Lines[p.index]
		switch {
		case p.cure != nil && p.cure.Kind != HoldsNone:
		case p.isSalt():
			salt += l.Mass.Typical * k
		default:
			restSalt += l.Salt.Typical * k
			restSugar += l.Sugar.Typical * k
			restWater += l.Water.Typical * k
			if p.dissolves {
				rest += l.Mass.Typical * k
			}
		}
	}
	mix, add := t.recipeDose(c, s, rest, restSalt)
	step := mixStep(mix, piece)
	r := &Rewrite{Piece: piece, Mix: t.mix, Aim: t.nitrite, Water: restWater, Cover: c.Cover * k}
	r.Lines = append(r.Lines, RewriteLine{Name: t.mix.Name, Weigh: roundDown(mix, step), Cure: true, Was: c.cureLine(s), Note: c.doseNote(&t, step)})
	giveWay := 1.0
	if salt > 0 {
		giveWay = float64(add / salt)
	}
	c.rewriteLines(r, s, float64(k), giveWay)
	if salt == 0 && add > 0.5 {
		r.Lines = append(r.Lines, RewriteLine{Name: "salt", Weigh: roundNear(add, coarseStep(piece)), salt: true, Note: "what the recipe's own cure brought"})
	}
	if c.missing > 0 {
		g := c.missing.Of((rest + mix + add) / Grams(s.uptake()))
		g = roundNear(g, mixStep(g, piece))
		r.Lines = append(r.Lines, RewriteLine{Name: "sodium ascorbate or erythorbate", Weigh: g, Note: "what the rule for pumped bacon asks for"})
	}
	c.leaveOut(r)
	c.count(r, &t, s, rest, restSalt, restSugar)
	c.Rewrite = r
}

// doseNote says what the cure aims at and what scale it takes.
func (c *RecipeCheck) doseNote(t *targets, step Grams) string {
	l := about("for ").ppm(t.nitrite)
	if t.rindOn {
		l.say(" less a tenth (rind)")
	}
	if c.Nitrite.Typical > 0 {
		l.say("; the recipe has about ").figure(float64(c.Nitrite.Typical), 0)
	}
	if step < tenth {
		l.say("; on a scale that reads 0.01 g")
	}
	return string(l.text)
}

func (p *part) isSalt() bool {
	return p.kind == KindSalt
}

// mixFor is the mix whose percent the recipe says, else the one the person has,
// the recipe's own, or the standard one.
func (s *spread) mixFor(q *RecipeQuestion) Mix {
	for i := range s.parts {
		if p := &s.parts[i]; p.stated && p.cure.Mix.Nitrate == 0 && p.cure.Kind != NitrateOnly && p.cure.Kind != HoldsNone && p.cure.Kind != Poison {
			return p.mix()
		}
	}
	if q.Mix.Nitrite > 0 {
		return q.Mix
	}
	for i := range s.parts {
		p := &s.parts[i]
		if p.cure != nil && p.cure.Kind == HoldsNitrite && p.cure.Mix.Nitrate == 0 && !p.cure.Ask {
			return p.cure.Mix
		}
	}
	return StandardMix()
}

func (c *RecipeCheck) cureLine(s *spread) string {
	for i := range s.parts {
		if p := &s.parts[i]; p.cure != nil && p.cure.Kind != HoldsNone {
			return c.Lines[p.index].Said
		}
	}
	return ""
}

// recipeDose gives the mix for the aim and the salt to add for the recipe's
// salt, by the formula of the method (see SolveDry, SolveBrine and SolvePump).
func (t *targets) recipeDose(c *RecipeCheck, s *spread, rest, restSalt Grams) (mix, add Grams) {
	f := Grams(t.mixNitrite.Proportion())
	salt := min(c.Salt.Typical, MaxSalt)
	for range 200 {
		was := mix
		pickle := rest + mix + add
		switch c.Method {
		case Immersion:
			even := t.aim.Of(t.green + pickle)
			picked := t.aim.Of(pickle) / Grams(taken(s.pickup, pickle, t.green))
			mix = min(even, picked) / f
			add = max(0, salt.Of(t.green+pickle)-t.mixSalt.Of(mix)-restSalt)
		case Injection:
			mix = t.aim.Of(pickle) / Grams(s.uptake()) / f
			add = max(0, salt.Of(pickle)/Grams(s.uptake())-t.mixSalt.Of(mix)-restSalt)
		default:
			mix = t.aim.Of(t.green) / f
			add = max(0, salt.Of(t.green)-t.mixSalt.Of(mix)-restSalt)
		}
		if !finite(float64(mix)) || mix > MaxWeight || math.Abs(float64(mix-was)) < 1e-9 {
			break
		}
	}
	return mix, add
}

// rewriteLines scales every other line.
func (c *RecipeCheck) rewriteLines(r *Rewrite, s *spread, k, giveWay float64) {
	next := 0
	for i := range c.Lines {
		l := &c.Lines[i]
		switch l.Kind {
		case LineIngredient, LineCure:
			p := &s.parts[next]
			next++
			if p.cure != nil && p.cure.Kind != HoldsNone {
				continue
			}
			g, note := l.Mass.Typical*Grams(k), ""
			if p.isSalt() {
				g *= Grams(giveWay)
				switch {
				case giveWay == 0:
					note = "none: the mix brings the salt"
				case giveWay < 0.98:
					note = "less, for the salt in the mix"
				}
			}
			r.Lines = append(r.Lines, RewriteLine{Name: l.Name, Weigh: roundNear(g, seasoningStep(g)), Was: l.Said, Note: note, salt: p.isSalt()})
		case LineUnknown, LineUnmeasured:
			if l.cure || l.Kind == LineUnknown && (mayBeCure(l.Name) || l.Name == "") {
				continue
			}
			line := RewriteLine{Name: l.Name, Was: l.Said, Times: k, Note: "not known here, only scaled: read its packet"}
			switch {
			case l.Amount.Kind == NoAmount:
				line.Times, line.Note = 0, "as the recipe says"
			case l.Amount.Kind == ByMass && l.Amount.Per.High == 0:
				g := l.Amount.Mass.Typical * Grams(k)
				line.Weigh, line.Times = roundNear(g, seasoningStep(g)), 0
			}
			r.Lines = append(r.Lines, line)
		}
	}
}

// seasoningStep is how finely flavouring is weighed.
func seasoningStep(g Grams) Grams {
	if g < 10 {
		return tenth
	}
	return wholeGram
}

// count says what the rewritten recipe comes to as weighed, and takes the mix
// down a step where rounding of the rest took it over the aim.
func (c *RecipeCheck) count(r *Rewrite, t *targets, s *spread, rest, restSalt, restSugar Grams) {
	p := Pickle{Water: rest}
	for _, l := range r.Lines {
		if l.salt {
			p.Salt += l.Weigh
		}
	}
	cure := &r.Lines[0]
	step := mixStep(cure.Weigh, r.Piece)
	for {
		p.Mix = cure.Weigh
		held, base := c.reckon(p, t, s)
		r.Nitrite, r.Salt = held.Nitrite, shareOn(p.Salt+t.mixSalt.Of(p.Mix)+restSalt, base)
		r.Sugar = shareOn(restSugar+t.mixSugar.Of(p.Mix), base)
		if held.Nitrite <= t.aim+roundingError || p.Mix <= step {
			return
		}
		cure.Weigh = roundDown(p.Mix-step, step)
	}
}

// reckon counts a rewritten recipe by its method, and names the weight its
// shares are of.
func (c *RecipeCheck) reckon(p Pickle, t *targets, s *spread) (held Reading, base Grams) {
	switch c.Method {
	case Immersion:
		return higher(pickupReading(p, t.mix, s.pickup, t.green), evenReading(p, t.mix, t.green)), t.green + p.Weight()
	case Injection:
		return readPortion(Injected, p.Portion, t.mix, s.uptake(), p.Weight()), p.Weight() / Grams(s.uptake())
	default:
		return readPortion("", p.Portion, t.mix, 1, t.green), t.green
	}
}
