package curemath

// fill puts the mass and the contents into each counted line, and sums up the
// water and the alcohol.
func (s *spread) fill(c *RecipeCheck) {
	for i := range s.parts {
		p := &s.parts[i]
		low := p.at(ends{0, 0, 0, 0}, s.meat.at(0))
		mid := p.at(ends{typical, typical, typical, typical}, s.meat.at(1))
		high := p.at(ends{2, 2, 2, 2}, s.meat.at(2))
		b := func(get func(contents) float64) Band[Grams] {
			a, m, z := get(low), get(mid), get(high)
			return Band[Grams]{Grams(min(a, m, z)), Grams(m), Grams(max(a, m, z))}
		}
		l := &c.Lines[p.index]
		l.Mass = b(func(x contents) float64 { return x.mass })
		l.Nitrite = b(func(x contents) float64 { return x.nitrite })
		l.Nitrate = b(func(x contents) float64 { return x.nitrate })
		l.Salt = b(func(x contents) float64 { return x.salt })
		l.Sugar = b(func(x contents) float64 { return x.sugar })
		l.Water = b(func(x contents) float64 { return x.water })
		l.Alcohol = b(func(x contents) float64 { return x.alcohol })
		c.Water = c.Water.Plus(l.Water)
		c.Alcohol = c.Alcohol.Plus(l.Alcohol)
	}
}

// bands puts the followed results into the check.
func (s *spread) bands(c *RecipeCheck) {
	x := s.extents()
	c.Nitrite = bandOf[PPM](x[outNitrite])
	c.Nitrate = bandOf[PPM](x[outNitrate])
	c.Salt = bandOf[Percent](x[outSalt])
	c.Sugar = bandOf[Percent](x[outSugar])
	c.NitriteBy = assume[PPM](s, x[outNitrite], c)
	c.SaltBy = assume[Percent](s, x[outSalt], c)
	c.SugarBy = assume[Percent](s, x[outSugar], c)
	switch s.method {
	case Immersion:
		c.Readings = []RecipeReading{{ByPickup, bandOf[PPM](x[outFirst])}, {OnceEven, bandOf[PPM](x[outSecond])}}
	case Injection:
		c.Readings = []RecipeReading{{Injected, bandOf[PPM](x[outFirst])}}
		if s.cover > 0 {
			c.Readings = append(c.Readings, RecipeReading{Covered, bandOf[PPM](x[outSecond])})
		}
	default:
		c.Readings = []RecipeReading{{"all of the cure", bandOf[PPM](x[outFirst])}}
	}
}

func bandOf[T ~float64](e extent) Band[T] { return Band[T]{T(e.low), T(e.typical), T(e.high)} }

// assume puts the doubt that moves a result most into words.
func assume[T ~float64](s *spread, e extent, c *RecipeCheck) Assumption[T] {
	if !e.has || e.byHigh == e.byLow {
		return Assumption[T]{}
	}
	a := Assumption[T]{Low: T(e.byLow), High: T(e.byHigh)}
	l := newLine()
	if e.by.part < 0 {
		l.say("how much the meat weighs, ").grams(s.meat.Low).say(" to ").grams(s.meat.High)
		a.Text = string(l.text)
		return a
	}
	p := &s.parts[e.by.part]
	switch e.by.end {
	case endMany:
		l.say("how much is meant by “").say(c.Lines[p.index].Said).say("”")
	case endEach:
		l.say("what a ").say(p.unit).say(" of ").say(p.name).say(" weighs, ").
			figure(float64(p.each.Low), 1).say(" to ").figure(float64(p.each.High), 1).say(" g")
	case endStrength:
		l.say("how strong the ").say(p.name).say(" is, ").share(p.nitrite.Low).say(" to ").share(p.nitrite.High).say(" nitrite")
	default:
		l.say("what is in the ").say(p.name)
	}
	a.Text = string(l.text)
	return a
}
