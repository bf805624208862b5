package curemath

// part is a counted line while its doubts are followed: mass = many × each, or
// that many times the meat.
type part struct {
	index int
	// many is how often each goes in; each is what one weighs. unit names it.
	many Band[float64]
	each Band[Grams]
	unit string
	// perMeat: many is for each gram of meat.
	perMeat bool
	// what is in it, as a share of its mass
	nitrite, nitrate Band[Percent]
	makeUp           makeUp
	// salted: the nitrite and nitrate are in makeUp's salt and come off it.
	salted bool
	kind   IngredientKind
	cure   *KnownMix
	// stated: the nitrite in it was said beside its name.
	stated    bool
	dissolves bool
	name      string
}

// read finds out what a line is.
func (p Pantry) read(line RecipeLine) (CheckedLine, part) {
	out := CheckedLine{RecipeLine: line, Kind: LineUnknown}
	m := p.find(line.Name)
	if line.Fill == Packed && m.row != nil {
		if packed := p.find("packed " + line.Name); packed.row != nil && packed.extra == "" {
			m = packed
		}
	}
	measured := line.Amount.Kind != NoAmount && line.Fault == "" && line.Amount.ok()
	if !m.known() && measured && line.saysStrength() && hintsAtCure(line.Name) {
		m.cure = statedCure(line.Strength)
	}
	switch {
	case !m.known() && (measured || line.Fault != ""):
		return out, part{}
	case !m.known():
		out.Kind = LineUnread
		return out, part{}
	case m.meat && line.Amount.Kind == ByMass && measured:
		out.Kind, out.ReadAs, out.Mass = LineMeat, "meat", line.Amount.Mass
		return out, part{}
	case m.meat:
		out.Kind, out.ReadAs = LineUnread, "meat"
		return out, part{}
	case !measured && line.Fault == "" && m.extra != "":
		out.Kind = LineUnread
		return out, part{}
	}
	pt := part{name: line.Name}
	out.extra = m.extra
	if m.cure != nil {
		pt.ofCure(m.cure, line)
		out.ReadAs, out.Source = m.cure.Mix.Name, m.cure.Mix.Source
		out.known, out.cure = m.cure, m.cure.Kind != HoldsNone
		out.misstated = line.saysStrength() && besideItself(m.cure, line)
		if pt.stated {
			out.ReadAs, out.Source = pt.mix().Name, Source{Document: "the strength said beside it", Status: Computed}
		}
	} else {
		row := m.row.ofStrength(line.Strength)
		pt.ofRow(row)
		out.ReadAs, out.Source = row.Name, row.WeightSource
		out.remark, out.freshGarlic, out.flavours = row.Remark, row.Kind == KindFreshGarlic, !row.Kind.dissolves()
	}
	weights, liquid := p.mixes.spoon, false
	if m.row != nil {
		weights, liquid = m.row.measure, m.row.Liquid
	}
	out.measured = weights.source
	if !measured || !pt.weigh(line, weights, liquid) {
		out.Kind = LineUnmeasured
		return out, part{}
	}
	out.Kind = LineIngredient
	if m.cure != nil {
		out.Kind = LineCure
	}
	return out, pt
}

// ok says whether an amount is one: finite, not negative, not beyond reason.
func (a Amount) ok() bool {
	b := func(low, typical, high float64) bool {
		return finite(low) && finite(typical) && finite(high) && low >= 0 && low <= typical && typical <= high && high <= 1e9
	}
	return b(float64(a.Mass.Low), float64(a.Mass.Typical), float64(a.Mass.High)) &&
		b(float64(a.Volume.Low), float64(a.Volume.Typical), float64(a.Volume.High)) &&
		b(a.Count.Low, a.Count.Typical, a.Count.High) &&
		b(float64(a.Share.Low), float64(a.Share.Typical), float64(a.Share.High)) &&
		b(float64(a.Per.Low), float64(a.Per.Typical), float64(a.Per.High))
}

// ofCure sets what is in a curing mix. Words that fit a cure and fit none are
// followed from no nitrite at all to the standard mix.
func (pt *part) ofCure(k *KnownMix, line RecipeLine) {
	strength := line.Strength
	pt.cure, pt.salted, pt.dissolves, pt.kind = k, true, true, KindSalt
	pt.nitrate = Exactly(k.Mix.Nitrate)
	switch {
	case line.saysStrength() && besideItself(k, line):
		pt.nitrite = Between(min(strength, k.Low), max(strength, k.High))
		pt.nitrite.Typical = k.Mix.Nitrite
	case line.saysStrength():
		pt.nitrite, pt.stated = Exactly(strength), true
	case k.Kind == Ambiguous:
		pt.nitrite = Band[Percent]{0, StandardMix().Nitrite, StandardMix().Nitrite}
	case k.Kind == HoldsNitrite:
		pt.nitrite = Band[Percent]{k.Low, k.Mix.Nitrite, k.High}
	default:
		pt.nitrite = Exactly(k.Mix.Nitrite)
	}
	pt.makeUp.sugar = Exactly(k.Mix.Sugar)
	pt.makeUp.salt = Exactly(100 - k.Mix.Sugar - k.Mix.Other)
	if k.Mix.RestUnknown {
		pt.makeUp.salt = Band[Percent]{40, 99, 99}
	}
}

func (pt *part) ofRow(row Ingredient) {
	pt.makeUp, pt.kind, pt.dissolves = row.makeUp, row.Kind, row.Kind.dissolves()
}

// weigh turns the amount of a line into many times each.
func (pt *part) weigh(line RecipeLine, m measure, liquid bool) bool {
	a := line.Amount
	fill := line.Fill.spread()
	switch a.Kind {
	case ByMass:
		pt.many, pt.each, pt.unit = Band[float64]{float64(a.Mass.Low), float64(a.Mass.Typical), float64(a.Mass.High)}, Exactly(Grams(1)), "g"
		if a.Ounces && liquid {
			row, unit := m.per(Exactly(FluidOunce))
			fluid := row.Times(float64(FluidOunce / unit))
			pt.many = pt.many.Times(1 / float64(Ounce))
			pt.each = Band[Grams]{min(Ounce, fluid.Low), fluid.Typical, max(Ounce, fluid.High)}
			pt.unit = "ounce, by weight or by volume,"
		}
	case ByVolume:
		row, unit := m.per(a.Volume)
		if row.High == 0 {
			return false
		}
		pt.unit = "teaspoon"
		if unit == Cup {
			pt.unit = "cup"
		}
		k := 1 / float64(unit)
		pt.many = Band[float64]{float64(a.Volume.Low) * k, float64(a.Volume.Typical) * k, float64(a.Volume.High) * k}
		pt.each = Band[Grams]{row.Low * Grams(fill.Low), row.Typical * Grams(fill.Typical), row.High * Grams(fill.High)}
	case ByCount:
		if m.each.High == 0 {
			return false
		}
		pt.many, pt.each, pt.unit = a.Count, m.each, "piece"
	case ByShare:
		pt.perMeat, pt.each, pt.unit = true, Exactly(Grams(1)), "g"
		pt.many = Band[float64]{a.Share.Low.Proportion(), a.Share.Typical.Proportion(), a.Share.High.Proportion()}
	default:
		return false
	}
	if a.Per.Low > 0 && !pt.perMeat {
		pt.perMeat = true
		pt.many = Band[float64]{pt.many.Low / float64(a.Per.High), pt.many.Typical / float64(a.Per.Typical), pt.many.High / float64(a.Per.Low)}
	}
	return true
}
