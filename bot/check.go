package bot

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

func checkCommands() []Command {
	return []Command{{Name: "check", Also: []string{"recipe"}, Own: true, Group: groupCure, Form: "check <recipe> / … mine 5.2 lb", Help: "hold a recipe in spoons and cups to the limit, and write it by weight", Sums: true,
		Example: "check 80 g salt, 40 g brown sugar, 1 tsp curing mix for 5 lb belly", Run: (*Turn).check,
		Fields: []Field{{Name: "Recipe", Example: "1/3 cup salt, 2 tbsp brown sugar, 1 tsp curing mix for 5 lb belly", Long: true}, {Name: "Your piece", Example: "5.2 lb", Prefix: "mine", Optional: true}}}}
}

var (
	mineOf   = regexp.MustCompile(`(?i)[\s,;]*\b(?:mine|my (?:piece|belly|slab))(?:\s+(?:is|weighs))?\s+(\S.*?)\s*$`)
	pumpedBy = regexp.MustCompile(`(?i)\bpump(?:ed)?\s+(?:at\s+)?([\d.,]+)\s*%`)
	covers   = regexp.MustCompile(`(?i)\bcover(?:ing)?\s+(?:brine|pickle)\b|\b(?:under|in)\s+(?:the\s+)?(?:rest|remaining)\b`)
	rindOff  = regexp.MustCompile(`(?i)[\s,;]*\b(?:(?:with\s+)?(?:the\s+|its\s+)?(?:rind|skin)(?:\s+(?:is|was|cut|all))*[\s-]*(?:off|removed|taken\s+off|trimmed)|(?:no|without)\s+(?:the\s+)?(?:rind|skin)|rindless|skinless)\b`)
	rindIsOn = regexp.MustCompile(`(?i)[\s,;]*\b(?:with\s+(?:the\s+|its\s+)?(?:rind|skin)(?:\s+(?:still\s+)?on)?|(?:rind|skin)(?:\s*[-:=]\s*|\s+(?:(?:is|still|left)\s+)*)on)\b`)
)

// check says what a written recipe comes to, held to the rule set, with what is
// unsure about it, and the same recipe by weight for the person's piece.
func (t *Turn) check(args string) (reply.Reply, error) {
	var r reply.Reply
	c, slips, err := t.checked(args)
	if err != nil {
		return r, err
	}
	t.sayVerdict(&r, c)
	r.Table(lineRows(c))
	for _, s := range slips {
		r.Say("• ", s)
	}
	t.sayNotesOf(&r, c)
	t.sayRewrite(&r, c)
	return r, t.bearInMind(&r, args)
}

// bearInMind keeps a recipe that was checked, so that `why` can show its arithmetic.
func (t *Turn) bearInMind(r *reply.Reply, recipe string) error {
	if t.Tx == nil {
		return nil
	}
	s, err := t.slate()
	if err != nil {
		return err
	}
	s.Checked = recipe
	r.Press(reply.Button{Label: "Why these numbers", Line: "why"})
	return t.saveSlate(s)
}

// checked works a written recipe out as a person asked for it; slips are words it was
// read for.
func (t *Turn) checked(args string) (c curemath.RecipeCheck, slips []string, err error) {
	q := curemath.RecipeQuestion{Rules: t.rules()}
	off := rindOff.ReplaceAllString(args, "")
	text := rindIsOn.ReplaceAllString(off, "")
	q.RindOn = text != off
	text, mine := take(text, mineOf)
	if mine != "" {
		if q.Piece, err = parse.Weight(mine); err != nil {
			return c, nil, err
		}
	}
	text, pump := take(text, pumpedBy)
	if pump != "" {
		q.Method = curemath.Injection
		if q.Pump, err = shareSaid(pump); err != nil {
			return c, nil, err
		}
		if text, err = t.checkCover(&q, text); err != nil {
			return c, nil, err
		}
	}
	if q.Recipe, err = parse.Recipe(text); err != nil {
		var p *parse.Problem
		if errors.As(err, &p) {
			e := fromProblem(p)
			e.Example = "check " + p.Example
			return c, nil, e
		}
		return c, nil, err
	}
	if mix, err := curemath.MixOf(t.Conv.Settings.Mix); err == nil {
		q.Mix = mix
	}
	pantry, err := t.bot.pantry()
	if err != nil {
		return c, nil, err
	}
	slips = unslipped(pantry, &q.Recipe)
	c, err = pantry.Check(q)
	return c, slips, err
}

// checkCover takes the cover brine out of a pumped recipe: it adds to what was pumped.
func (t *Turn) checkCover(q *curemath.RecipeQuestion, text string) (rest string, err error) {
	rest, cover := take(text, coverOf)
	if cover == "" {
		if covers.MatchString(rest) {
			return rest, &Error{Kind: BadInput, Why: "How much of the pickle does the pumped meat lie in? That adds to what is injected, so it has to be counted.", Understood: "pumped " + percent(q.Pump),
				Example: "check 900 g water, 100 g salt, 9 g curing mix for 4 kg belly pump 12% with 2 kg cover"}
		}
		return rest, nil
	}
	if q.Cover, err = water(cover); err != nil {
		return rest, err
	}
	rest, pick := take(rest, pickupOf)
	q.Pickup, err = shareSaid(pick)
	return rest, err
}

// pasted checks a recipe sent without a command before it; ok is false where the
// text is none or it cannot be checked.
func (t *Turn) pasted(line string) (r reply.Reply, ok bool) {
	if !parse.LooksLikeRecipe(line) {
		return r, false
	}
	r, err := t.check(line)
	if err == nil {
		return r, true
	}
	var refused *curemath.Refusal
	if errors.As(err, &refused) && refused.Kind == curemath.NoMeat && parse.TellsRecipe(line) {
		r = reply.Reply{}
		r.Say("That reads like a recipe. How much meat is it for? Send it once more with the weight: ", reply.Type("check "+clip(strings.Join(strings.Fields(line), " "), 120)+", for 5 lb belly"))
		return r, true
	}
	return r, false
}

// sayVerdict says the numbers first: nitrite from as little to as much, the limit,
// salt and sugar, and what makes it unsure.
func (t *Turn) sayVerdict(r *reply.Reply, c curemath.RecipeCheck) {
	verdict := sentence(c.Verdict.String())
	switch {
	case c.Verdict == curemath.VerdictCannotSay:
		verdict = "Not to be used as it is: whether it is safe cannot be said."
	case !c.Verdict.Safe():
		verdict = "Not safe as it is: " + c.Verdict.String() + "."
	}
	r.Say(reply.B(verdict))
	goesIn := " nitrite goes in; the limit is "
	if left := c.Uncounted(); len(left) > 0 {
		goesIn = " nitrite is all I can count, without " + inQuotes(left) + "; the limit is "
	}
	r.Say(reply.B(bandPPM(c.Nitrite)), goesIn, c.Limit.Text(), " for ", c.Limit.What, " [", c.Limit.Source.String(), "].")
	for _, way := range c.Readings {
		if len(c.Readings) > 1 {
			r.Say("Counted ", way.Name, ": ", bandPPM(way.Nitrite), ".")
		}
	}
	if c.Nitrate.High > 0 {
		r.Say("Nitrate: ", bandPPM(c.Nitrate), "; none is allowed in bacon.")
	}
	if c.NitriteBy.Text != "" {
		r.Say("Most of that doubt: ", c.NitriteBy.Text, " (alone ", ppm(round1(c.NitriteBy.Low)), " to ", ppm(round1(c.NitriteBy.High)), ").")
	}
	r.Say("Salt ", bandPercent(c.Salt), because(c.SaltBy.Text), "; sugar ", bandPercent(c.Sugar), because(c.SugarBy.Text), ".")
	if c.Method != curemath.Injection && (c.Water.High > 0 || c.Alcohol.High > 0) {
		r.Say("It also brings ", bandGrams(c.Water), " of water and ", bandGrams(c.Alcohol), " of alcohol; neither changes the sum, both thin the liquor in the bag.")
	}
	r.Say("For ", bandGrams(c.Meat), " of meat, ", c.Method.String(), ".")
}

// inQuotes writes “one” and “another”, clipped.
func inQuotes(list []string) string {
	out := make([]string, 0, len(list))
	for _, s := range list {
		out = append(out, "“"+clip(s, 40)+"”")
	}
	return strings.Join(out, " and ")
}

func because(text string) string {
	if text == "" {
		return ""
	}
	return " (" + text + ")"
}

// lineRows lists every line of the recipe with what it was read as; nothing a
// person wrote is left out.
func lineRows(c curemath.RecipeCheck) [][]string {
	rows := [][]string{{"as written", "read as", "weighs"}}
	for _, l := range c.Lines {
		as, mass := l.ReadAs, bandGrams(l.Mass)
		switch l.Kind {
		case curemath.LineUnknown:
			as, mass = "not known, not counted", "?"
		case curemath.LineUnread:
			as, mass = "no ingredient", ""
		case curemath.LineUnmeasured:
			mass = "no amount"
		}
		rows = append(rows, []string{clip(l.Said, 40), clip(as, 36), mass})
	}
	return rows
}

func (t *Turn) sayNotesOf(r *reply.Reply, c curemath.RecipeCheck) {
	first := true
	say := func(text string, src curemath.Source) {
		line := text
		if s := src.String(); s != "" {
			line += " [" + s + "]"
		}
		if first {
			r.Par("• ", line)
			first = false
			return
		}
		r.Say("• ", line)
	}
	for _, n := range c.Notes {
		say(n.Text, n.Source)
	}
	for _, w := range c.Warnings {
		say(w.Text, w.Source)
	}
}

func (t *Turn) sayRewrite(r *reply.Reply, c curemath.RecipeCheck) {
	if c.Rewrite == nil {
		r.Par("I can't write it by weight before that is settled.")
		return
	}
	w := c.Rewrite
	r.Par(reply.B("By weight for "+t.units().meatExact(w.Piece)), ", with ", w.Mix.Name, ":")
	var rows [][]string
	for _, l := range w.Lines {
		amount := "as written"
		switch {
		case l.LeaveOut:
			amount = "leave out"
		case l.Cure:
			amount = grams(l.Weigh, weighedDecimals(l.Weigh))
		case l.Weigh >= 20:
			amount = grams(l.Weigh, 0)
		case l.Weigh > 0:
			amount = trim(float64(l.Weigh), 1) + " g"
		case l.Times > 0:
			amount = trim(l.Times, 2) + " × as written"
		}
		rows = append(rows, []string{clip(l.Name, 40), amount, clip(l.Note, 60)})
	}
	r.Table(rows)
	r.Par("That is ", ppm(round1(w.Nitrite)), " nitrite, ", percent(round2(w.Salt)), " salt and ", percent(round2(w.Sugar)), " sugar. Weigh the mix on a 0.1 g scale, never by the spoon.")
	if t.Tx != nil {
		t.pressRewrite(r, c)
	}
}

// pressRewrite offers the rewritten recipe as a cure line of its own method, with
// everything the sum needs said in it: what is settled in the conversation may
// differ from the recipe. It is written close, so that a button holds it.
func (t *Turn) pressRewrite(r *reply.Reply, c curemath.RecipeCheck) {
	w := c.Rewrite
	share := func(p curemath.Percent) string { return trim(float64(p), 2) + "%" }
	weight := func(g curemath.Grams) string {
		long, short := strings.ReplaceAll(parse.FormatWeight(roundGrams(g)), " ", ""), fmt.Sprintf("%dg", int(roundGrams(g)))
		if len(long) < len(short) {
			return long
		}
		return short
	}
	piece := weight(w.Piece)
	line, label := "cure "+piece, "Work this cure out"
	switch c.Method {
	case curemath.Immersion:
		line, label = "brine "+piece+" "+weight(w.Water)+" water", "Work this brine out"
	case curemath.Injection:
		line, label = "pump "+share(c.Pump)+" "+piece, "Work this pickle out"
		if w.Cover > 0 {
			line += " with " + weight(w.Cover) + " cover"
		}
	}
	if c.RindOn {
		line += " rind on"
	}
	line += " salt " + share(w.Salt) + " sugar " + share(w.Sugar) + " nitrite " + trim(float64(w.Aim), 1)
	if w.Mix.Nitrite != t.Conv.Settings.Mix {
		line += " mix " + share(w.Mix.Nitrite)
	}
	r.Press(reply.Button{Label: label, Line: line})
}

func roundGrams(g curemath.Grams) curemath.Grams { return curemath.Grams(int(g + 0.5)) }

func bandPPM(b curemath.Band[curemath.PPM]) string {
	return spread(float64(b.Low), float64(b.Typical), float64(b.High), 1, " ppm")
}

func bandPercent(b curemath.Band[curemath.Percent]) string {
	return spread(float64(b.Low), float64(b.Typical), float64(b.High), 1, " %")
}

func bandGrams(b curemath.Band[curemath.Grams]) string {
	decimals := 0
	if b.Typical < 20 {
		decimals = 1
	}
	return spread(float64(b.Low), float64(b.Typical), float64(b.High), decimals, " g")
}

// spread writes "164.8 ppm (137.5 to 192.5)", or the one figure where there is no
// spread.
func spread(low, typical, high float64, decimals int, unit string) string {
	a, b, c := trim(low, decimals), trim(typical, decimals), trim(high, decimals)
	if a == c {
		return b + unit
	}
	return strings.TrimSpace(fmt.Sprintf("%s%s (%s to %s)", b, unit, a, c))
}
