package curemath

// trail writes down what the recipe was read as and how the verdict came about.
func (c *RecipeCheck) trail(s *spread) Trail {
	l := newLedger(len(c.Lines) + 8)
	l.step("Weight base", handbook("ch. 3, introduction", Found)).band(c.Meat).say(" green weight")
	for i := range s.parts {
		p := &s.parts[i]
		line := &c.Lines[p.index]
		w := l.step(line.Said, line.Source).say("read as ").say(line.ReadAs).say(", ").band(line.Mass)
		if line.Nitrite.High > 0 {
			w.say(", nitrite ").band(line.Nitrite)
		}
		if line.Nitrate.High > 0 {
			w.say(", nitrate ").band(line.Nitrate)
		}
		if line.Salt.High > 0 {
			w.say(", salt ").band(line.Salt)
		}
		if line.Sugar.High > 0 {
			w.say(", sugar ").band(line.Sugar)
		}
		if line.Alcohol.High > 0 {
			w.say(", alcohol ").band(line.Alcohol)
		}
	}
	nitrite := Band[Grams]{}
	for i := range c.Lines {
		nitrite = nitrite.Plus(c.Lines[i].Nitrite)
	}
	switch c.Method {
	case Immersion:
		l.step("By pick-up", handbook("ch. 3, p. 21", SecondHand)).ppmBand(c.Readings[0].Nitrite)
		l.step("Once even", handbook("ch. 3, p. 22, method two", SecondHand)).ppmBand(c.Readings[1].Nitrite)
	case Injection:
		l.step("Injected", handbook("ch. 3, p. 19", SecondHand)).ppmBand(c.Readings[0].Nitrite)
		if c.Cover > 0 {
			l.step("From the cover brine, the higher way", handbook("ch. 3, pp. 21 and 22", SecondHand)).ppmBand(c.Readings[1].Nitrite)
			l.step("Summed", handbook("ch. 3", SecondHand)).ppmBand(c.Nitrite)
		}
	default:
		l.step("Nitrite, typical, all of it counted", handbook("ch. 3, dry products", SecondHand)).
			grams(nitrite.Typical).say(" × 1,000,000 ÷ ").grams(c.Meat.Typical).say(" = ").ppm(c.Nitrite.Typical)
		if !c.Nitrite.exact() {
			l.step("As little and as much as it may be", computed()).ppmBand(c.Nitrite)
		}
	}
	if c.NitriteBy.Text != "" {
		l.step("Mostly because of", computed()).say(c.NitriteBy.Text).say(": ").ppm(c.NitriteBy.Low).say(" to ").ppm(c.NitriteBy.High)
	}
	limitStep(&l, c.Nitrite.High, c.Limit)
	l.step("Salt in all", computed()).shareBand(c.Salt)
	if c.Sugar.High > 0 {
		l.step("Sugar in all", computed()).shareBand(c.Sugar)
	}
	return l.trail()
}

func (b Band[T]) exact() bool { return b.High-b.Low <= 1e-9*b.High }

func (l *line) band(b Band[Grams]) *line {
	if b.exact() {
		return l.grams(b.Typical)
	}
	return l.grams(b.Low).say(" to ").grams(b.High).say(", typically ").grams(b.Typical)
}

func (l *line) ppmBand(b Band[PPM]) *line {
	if b.exact() {
		return l.ppm(b.Typical)
	}
	return l.ppm(b.Low).say(" to ").ppm(b.High).say(", typically ").ppm(b.Typical)
}

func (l *line) shareBand(b Band[Percent]) *line {
	if b.exact() {
		return l.share(b.Typical)
	}
	return l.share(b.Low).say(" to ").share(b.High).say(", typically ").share(b.Typical)
}
