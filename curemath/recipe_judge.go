package curemath

// NoteKind says what a person must be told about a recipe.
type NoteKind int

const (
	// NoteNoCure: nothing in it cures.
	NoteNoCure NoteKind = iota + 1
	// NoteSaltAsCure: so little salt that a dose of curing mix seems meant.
	NoteSaltAsCure
	// NoteCureAsSalt: so much curing mix that plain salt seems meant.
	NoteCureAsSalt
	// NoteWeakAsStrong: nitrited salt in the dose of a strong mix.
	NoteWeakAsStrong
	// NoteAmbiguousCure: the words fit a cure and fit something that is none.
	NoteAmbiguousCure
	// NoteNotACure: named like a cure, with no nitrite in it.
	NoteNotACure
	// NoteNitrate: saltpetre, or a mix with nitrate.
	NoteNitrate
	// NotePoison: pure nitrite.
	NotePoison
	// NoteAskStrength: the percent on the packet must be read.
	NoteAskStrength
	// NoteUnknown: an ingredient not known here, not counted.
	NoteUnknown
	// NoteUnmeasured: known, but with no amount that can be weighed.
	NoteUnmeasured
	// NoteReadAs: read as something with a different name.
	NoteReadAs
	// NoteRemark: something the ingredient table says about it.
	NoteRemark
	// NoteFreshGarlic: fresh garlic in a long cure without air.
	NoteFreshGarlic
	// NoteBySpoon: a cure measured by volume.
	NoteBySpoon
	// NoteBrine: read as a brine because of its water.
	NoteBrine
)

// Note is something said about a recipe. Line is the line it is about, or -1.
type Note struct {
	Kind   NoteKind
	Line   int
	Text   string
	Source Source
}

func (c *RecipeCheck) note(k NoteKind, at int, src Source, text *line) {
	c.Notes = append(c.Notes, Note{Kind: k, Line: at, Text: string(text.text), Source: src})
}

// judge gives the verdict and says everything a line needs said.
func (c *RecipeCheck) judge(q *RecipeQuestion) {
	w := doubts(q.Rules, c.Limit)
	cures, doubtful := c.judgeLines()
	switch n := c.Nitrite; {
	case n.Low > c.Limit.Max+roundingError:
		c.Verdict = VerdictOver
	case c.Nitrate.High > 0:
		c.Verdict = VerdictNitrate
	case doubtful:
		c.Verdict = VerdictCannotSay
	case cures == 0:
		c.Verdict = VerdictNoNitrite
	case n.High > c.Limit.Max+roundingError:
		c.Verdict = VerdictMayBeOver
	case n.High < c.Limit.Min-roundingError:
		c.Verdict = VerdictUnder
	case n.Low < c.Limit.Min-roundingError:
		c.Verdict = VerdictMayBeUnder
	default:
		c.Verdict = VerdictWithin
	}
	if cures == 0 && !doubtful {
		c.noCure()
	}
	c.wet(q, &w)
	w.salt(c.Salt.Typical)
	c.Warnings = w
}

// noCure is what is said when nothing in a recipe is known to cure.
func (c *RecipeCheck) noCure() {
	text := about("There is no curing mix in it")
	for _, l := range c.Lines {
		if l.Kind == LineUnknown && l.Amount.Kind != NoAmount && l.Name != "" {
			text.say(", unless “").say(l.Said).say("” is one: then call it a curing mix and say its percent, and leave it out of the version by weight")
			break
		}
	}
	text.say(". Smoking warm without nitrite is where botulism starts.")
	c.note(NoteNoCure, -1, Source{Document: "smoking between 40 and 140 °F", Status: FromMemory}, text)
	if c.Salt.High > 0 && c.Salt.Typical < 0.6 {
		for i, l := range c.Lines {
			if l.Kind == LineIngredient && l.Salt.Typical > 0 {
				c.note(NoteSaltAsCure, i, practice(), about("“").say(l.Said).say("” is little for salt and about right for a dose of curing mix. If a curing mix is meant, say so; table salt cures nothing in its place."))
				return
			}
		}
	}
}

// judgeLines notes what each line needs said, counts the cures and says whether
// anything that decides is not known.
func (c *RecipeCheck) judgeLines() (cures int, doubtful bool) {
	unknownCure := false
	for i := range c.Lines {
		l := &c.Lines[i]
		switch l.Kind {
		case LineUnknown:
			unknownCure = c.unknown(i) || unknownCure
		case LineUnmeasured:
			c.unmeasured(i)
			doubtful = doubtful || l.cure
		case LineCure:
			if c.judgeCure(i) {
				cures++
			} else if l.ambiguous {
				doubtful = true
				cures++
			}
		case LineIngredient:
			c.remarks(i)
		}
	}
	return cures, doubtful || unknownCure
}

// unknown notes a line that is not counted and says whether it might cure.
func (c *RecipeCheck) unknown(i int) bool {
	l := &c.Lines[i]
	text := about("“").say(l.Said).say("” ")
	if l.Fault != "" {
		text.say("has an amount I cannot use (").say(l.Fault).say(")")
	} else {
		text.say("is not known here")
	}
	text.say(" and is not counted.")
	switch {
	case hintsAtCure(l.Name):
		text = about("I don't know what “").say(l.Said).say("” holds, so it is not counted. If it is a curing mix, its packet says how much nitrite: write that beside it, such as “").
			say(l.Said).say(" 0.5%”. Until then use the one or the other, never it and a curing mix together.")
	case mayBeCure(l.Name) || l.Name == "":
		text.say(" If it salts or cures, the sums are wrong: say what is in it.")
	default:
		text.say(" Read its packet: if nitrite, nitrate or salt is on it, the sums are wrong.")
		c.note(NoteUnknown, i, Source{Status: Computed}, text)
		return false
	}
	c.note(NoteUnknown, i, Source{Status: Computed}, text)
	return true
}

// Uncounted lists the lines that may cure and are not counted, as written.
func (c *RecipeCheck) Uncounted() []string {
	var out []string
	for _, l := range c.Lines {
		if l.Kind == LineUnknown && mayBeCure(l.Name) || l.Kind == LineUnmeasured && l.cure {
			out = append(out, l.Said)
		}
	}
	return out
}

func (c *RecipeCheck) unmeasured(i int) {
	l := &c.Lines[i]
	text := about("“").say(l.Said).say("” has no amount that can be weighed")
	if l.Fault != "" {
		text.say(" (").say(l.Fault).say(")")
	}
	text.say(" and is not counted.")
	if l.cure {
		text.say(" A cure without a weight cannot be checked, nor used.")
	}
	c.note(NoteUnmeasured, i, Source{Status: Computed}, text)
}

// remarks notes what the table says about an ordinary ingredient.
func (c *RecipeCheck) remarks(i int) {
	l := &c.Lines[i]
	if l.remark != "" {
		c.note(NoteRemark, i, l.Source, about(l.remark))
	}
	if l.freshGarlic {
		c.note(NoteFreshGarlic, i, Source{Document: "health authorities on garlic under oil", Section: "refrigerated, no more than 7 days", Status: Found},
			about("Fresh garlic in a bag without air for days is a botulism risk of its own: use dry garlic in a long cure."))
	}
	if l.extra != "" {
		c.note(NoteReadAs, i, Source{Status: Computed}, about("“").say(l.Said).say("” is read as ").say(l.ReadAs).say("."))
	}
}

// judgeCure notes what a curing line needs said and says whether it holds
// nitrite for certain.
func (c *RecipeCheck) judgeCure(i int) bool {
	l := &c.Lines[i]
	k := l.known
	src := k.Mix.Source
	said := func() *line { return about("“").say(l.Said).say("”: ").say(k.Remark) }
	switch {
	case k.Kind == HoldsNone:
		c.note(NoteNotACure, i, src, said())
		return false
	case k.Kind == NitrateOnly:
		c.note(NoteNitrate, i, src, said().say(" Nitrate is not allowed in bacon by any method."))
		return false
	case k.Kind == Poison:
		c.note(NotePoison, i, src, said())
		l.ambiguous = true
		return false
	case l.misstated:
		c.note(NoteAskStrength, i, src, about("“").say(l.Said).say("”: a mix of that number is sold at ").share(k.Mix.Nitrite).say(" nitrite, not at ").
			share(l.Strength).say(". If the percent is its share of the meat, leave the weight out; if it is what the packet says, leave the number out."))
		l.ambiguous = true
		return false
	case k.Kind == Ambiguous && l.Strength == 0:
		c.note(NoteAmbiguousCure, i, src, said())
		l.ambiguous = true
		return false
	case k.Ask && l.Strength == 0:
		c.note(NoteAskStrength, i, src, said())
		l.ambiguous = true
		return false
	}
	if k.Mix.Nitrate > 0 {
		c.note(NoteNitrate, i, nitrateInBacon(), about("“").say(l.Said).say("” holds nitrate, which is not allowed in bacon by any method. Use a mix with nitrite only."))
	}
	if l.Amount.Kind == ByVolume {
		c.note(NoteBySpoon, i, l.measured, about("“").say(l.Said).say("” is ").grams(l.Mass.Low).say(" to ").grams(l.Mass.High).
			say(", as the spoon falls. Weigh the cure, never spoon it."))
	}
	c.wrongDose(i)
	return true
}

// wrongDose notes a mix taken in the dose of another.
func (c *RecipeCheck) wrongDose(i int) {
	l := &c.Lines[i]
	share := shareOn(l.Mass.Typical, c.Meat.Typical)
	strength := shareOn(l.Nitrite.Typical, l.Mass.Typical)
	switch {
	case c.Method == Immersion || c.Method == Injection || l.Mass.Typical == 0:
	case strength > 2 && share > 1:
		c.note(NoteCureAsSalt, i, computed(), about("“").say(l.Said).say("” is ").share(share).
			say(" of the meat: as much as one takes of plain salt, and dangerous as a dose of curing mix. If salt is meant, the recipe must say salt; if a nitrited salt of 0.4 to 0.6 % is meant, say its percent."))
	case strength < 2 && share < 0.8:
		c.note(NoteWeakAsStrong, i, computed(), about("“").say(l.Said).say("” is the dose of a strong mix, and this one holds only ").share(strength).
			say(" nitrite: it takes the place of all the salt, not of a pinch."))
	}
}
