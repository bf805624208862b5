package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

func wetCommands() []Command {
	return []Command{
		{Name: "brine", Also: []string{"immersion"}, Group: groupCure, Form: "brine 5 lb 1.5 in, 2 l water", Help: "work out an immersion brine, counted both ways", Example: "brine 5 lb 1.5 in, 2 l water", Sums: true, Run: func(t *Turn, args string) (reply.Reply, error) { return t.wet("brine " + args) }},
		{Name: "pump", Also: []string{"inject"}, Group: groupCure, Form: "pump 10% 5 lb 1.5 in / with 2 kg cover", Help: "work out a pickle to inject, with or without a cover brine", Example: "pump 10% 5 lb 1.5 in", Sums: true, Run: func(t *Turn, args string) (reply.Reply, error) { return t.wet("pump " + args) }},
		{Name: "box", Group: groupCure, Form: "box 5 lb 1.5 in, 3 rubs 4 days apart", Help: "work out a dry box cure rubbed on in several goes", Example: "box 5 lb 1.5 in, 3 rubs 4 days apart", Sums: true, Run: func(t *Turn, args string) (reply.Reply, error) { return t.wet("box " + args) }},
	}
}

// The rules of a wet cure a person adds to a cure line; what is left over is read
// as any other cure line.
var (
	waterOf = regexp.MustCompile(`(?i)(?:\bwith\s+|\bin\s+)?(` + amountSaid + `\s*(?:` + volumeUnits + `|kg|g|lbs?)\b\.?)\s+(?:of\s+)?(?:cold\s+)?water\b|\bwater\s+(` + amountSaid + `\s*(?:` + volumeUnits + `|kg|g|lbs?))\b`)
	// plainVolumeOf finds a volume that does not say of what, which then is water: meat
	// goes by weight.
	plainVolumeOf = regexp.MustCompile(`(?i)(?:\bwith\s+|\bin\s+)?(` + amountSaid + `\s*(?:` + volumeUnits + `))\.?\s*(?:[,;]|$)`)
	pickupOf      = regexp.MustCompile(`(?i)\bpick-?\s?up\s+(?:of\s+)?([\d.,]+)\s*%?`)
	coverOf       = regexp.MustCompile(`(?i)\b(?:with\s+)?(\d[\d.,/½¼¾]*\s*(?:l|litres?|liters?|ml|kg|g|lbs?))\s+(?:of\s+)?cover(?:\s+brine)?\b|\b(?:with\s+)?(?:an?\s+)?cover(?:\s+brine)?(?:\s+of)?\s+(\d[\d.,/½¼¾]*\s*(?:l|litres?|liters?|ml|kg|g|lbs?))\b(?:\s+(?:of\s+)?(?:water|brine))?`)
	coverSaid     = regexp.MustCompile(`(?i)\bcover(?:ed|s|ing)?\b`)
	pumpOf        = regexp.MustCompile(`(?i)^\s*(?:at\s+)?([\d.,]+)\s*%|\b(?:pump|pumped|at)\s+([\d.,]+)\s*%|([\d.,]+)\s*%\s+pump\b`)
	rubsOf        = regexp.MustCompile(`(?i)\b(\d+)\s+rubs?\b`)
	gapOf         = regexp.MustCompile(`(?i)\b(\d+)\s+days?\s+apart\b`)
	volumeOf      = regexp.MustCompile(`(?i)^([\d.,/½¼¾⅓⅔ ]+?)\s*(` + volumeUnits + `)\.?$`)
	halfOf        = regexp.MustCompile(`(?i)\b(?:(a|one|two|three|four|five)\s+and\s+)?(?:a\s+|one\s+)?half(?:\s+a|\s+of\s+a)?(?:\s+|-)(` + volumeUnits + `)\b`)
	oneOf         = regexp.MustCompile(`(?i)\b(an?|one|two|three|four|five|six)\s+(` + volumeUnits + `)\b`)
)

// take cuts what a pattern finds out of a text; found is the first group that
// matched.
func take(text string, pattern *regexp.Regexp) (rest, found string) {
	m := pattern.FindStringSubmatchIndex(text)
	if m == nil {
		return text, ""
	}
	for i := 2; i < len(m); i += 2 {
		if m[i] >= 0 {
			found = text[m[i]:m[i+1]]
		}
	}
	return strings.Trim(text[:m[0]]+" "+text[m[1]:], " ,;"), strings.TrimSpace(found)
}

// wetPiece reads the piece a wet cure is for. One piece at a time: what pieces in
// one tub take up depends on each other.
func (t *Turn) wetPiece(text, example string) (parse.CureLine, curemath.DryTargets, error) {
	text, aim := take(text, aimOf)
	line, err := wetSaid(text, t.Now)
	if err != nil {
		return line, curemath.DryTargets{}, err
	}
	if aim != "" {
		p, err := parse.PPM(aim + " ppm")
		if err != nil {
			return line, curemath.DryTargets{}, err
		}
		line.Nitrite = &p
	}
	if line.Bare != nil || len(line.Pieces) != 1 {
		return line, curemath.DryTargets{}, &Error{Kind: BadInput, Why: "I need one weight of meat, with its unit. For several pieces in one tub, take their weight together and the thickest one's thickness.", Example: example}
	}
	if _, err := meatOf(line); err != nil {
		return line, curemath.DryTargets{}, err
	}
	line.Method = ""
	targets, err := t.targets(line)
	targets.Green, targets.RindOn = line.Pieces[0].Weight, rindOn(line, line.Pieces[0])
	return line, targets, err
}

// wetSum is a wet or box cure worked out.
type wetSum struct {
	line    parse.CureLine
	targets curemath.DryTargets
	method  curemath.Method
	portion curemath.Portion // what is weighed out, all in
	step    curemath.Grams   // what the mix was rounded down to
	ingoing curemath.PPM
	water   curemath.Grams // of a brine
	trail   curemath.Trail
	rubs    []store.Rub
	minds   []curemath.Warning
	card    reply.Reply
}

// wet answers a line such as "brine 5 lb, 2 l water" and keeps it, so that why and
// open work it out anew.
func (t *Turn) wet(asked string) (reply.Reply, error) {
	s, err := t.solveWet(asked)
	if err != nil {
		return reply.Reply{}, err
	}
	t.sayShort(&s.card, needs(s.portion))
	t.sayWetEnd(&s, asked)
	return s.card, t.saveDraft(draft{Line: s.line, Asked: strings.TrimSpace(asked)})
}

func (t *Turn) solveWet(asked string) (wetSum, error) {
	word, rest := firstWord(asked)
	switch word {
	case "brine":
		return t.brine(rest)
	case "pump":
		return t.pump(rest)
	}
	return t.box(rest)
}

// wetAim is the nitrite aimed at in a wet cure: what was said, or the
// conversation's usual one where the method allows it.
func (t *Turn) wetAim(line parse.CureLine, d curemath.DryTargets, m curemath.Method) curemath.PPM {
	if line.Nitrite != nil {
		return d.Nitrite
	}
	return min(d.Nitrite, d.Rules.Aim(m))
}

// brine works out an immersion brine.
func (t *Turn) brine(args string) (s wetSum, err error) {
	rest, said := take(counted(args), waterOf)
	if said == "" {
		rest, said = take(rest, plainVolumeOf)
	}
	rest, pick := take(rest, pickupOf)
	line, d, err := t.wetPiece(rest, "brine 5 lb 1.5 in, 2 l water")
	if err != nil {
		return s, err
	}
	if said == "" {
		return s, &Error{Kind: BadInput, Why: "How much water? Enough to cover the meat; as much as the meat weighs is usual (common practice, no source).", Understood: t.units().meat(d.Green) + " of meat",
			Example: fmt.Sprintf("brine %s, %s water", t.units().meat(d.Green), t.units().meat(d.Green))}
	}
	b := curemath.BrineTargets{Green: d.Green, RindOn: d.RindOn, Nitrite: t.wetAim(line, d, curemath.Immersion), Salt: d.Salt, Sugar: d.Sugar, Ascorbate: d.Ascorbate, Mix: d.Mix, Rules: d.Rules}
	if b.Water, err = water(said); err != nil {
		return s, err
	}
	if b.Pickup, err = shareSaid(pick); err != nil {
		return s, err
	}
	c, err := curemath.SolveBrine(b)
	if err != nil {
		return s, err
	}
	s = wetSum{line: line, targets: d, method: curemath.Immersion, portion: c.Weigh.Portion, step: c.Step, ingoing: c.Held.Nitrite, trail: c.Trail, water: c.Weigh.Water, minds: c.Warnings}
	s.card.Say(reply.B("Brine for "+t.units().meatExact(d.Green)), t.flavoured(line.Pieces[0].Flavouring), rindText(d.RindOn), ":")
	s.card.Table(pickleRows(c.Weigh, d.Mix, c.Step))
	t.sayCheck(&s.card, c.Check)
	return s, nil
}

// shareSaid reads a percentage found by a pattern; nothing found is 0.
func shareSaid(said string) (curemath.Percent, error) {
	if said == "" {
		return 0, nil
	}
	return parse.Percent(said + "%")
}

// pump works out a pickle to inject.
func (t *Turn) pump(args string) (s wetSum, err error) {
	rest, share := take(args, pumpOf)
	rest, cover := take(rest, coverOf)
	if cover == "" && coverSaid.MatchString(rest) {
		return s, &Error{Kind: BadInput, Why: "How much cover brine? What the meat takes from it adds to what is injected, so I have to count it.", Example: "pump 10% 5 lb 1.5 in with 2 kg cover"}
	}
	rest, pick := take(rest, pickupOf)
	line, d, err := t.wetPiece(rest, "pump 10% 5 lb 1.5 in")
	if err != nil {
		return s, err
	}
	if share == "" {
		return s, &Error{Kind: BadInput, Why: "How much goes in, in percent of the meat? Ten is usual (common practice, no source).", Understood: t.units().meat(d.Green) + " of meat", Example: "pump 10% " + t.units().meat(d.Green)}
	}
	p := curemath.PumpTargets{Green: d.Green, RindOn: d.RindOn, Nitrite: t.wetAim(line, d, curemath.Injection), Salt: d.Salt, Sugar: d.Sugar, Ascorbate: d.Ascorbate, Mix: d.Mix, Rules: d.Rules}
	if p.Pump, err = shareSaid(share); err != nil {
		return s, err
	}
	if cover != "" {
		if p.Cover, err = water(cover); err != nil {
			return s, err
		}
	}
	if p.Pickup, err = shareSaid(pick); err != nil {
		return s, err
	}
	if line.Ascorbate == nil { // the rule for pumped bacon names it
		p.Ascorbate = d.Rules.BaconLimit(curemath.Injection, d.RindOn).Ascorbate
	}
	said := ""
	if p, said = t.pumpedSalt(p, line.Salt != nil); said != "" {
		d.Salt = p.Salt
	}
	c, err := curemath.SolvePump(p)
	if err != nil {
		return s, err
	}
	s = wetSum{line: line, targets: d, method: curemath.Injection, portion: c.Weigh.Portion, step: c.Step, ingoing: c.Held.Nitrite, trail: c.Trail, minds: c.Warnings}
	r := &s.card
	r.Say(reply.B("Pickle for "+t.units().meatExact(d.Green)), t.flavoured(line.Pieces[0].Flavouring), rindText(d.RindOn), ", pumped ", percent(p.Pump), ":")
	r.Table(pickleRows(c.Weigh, d.Mix, c.Step))
	r.Par("Inject ", grams(c.Inject, 0), " of it; the meat then weighs ", grams(c.Pumped, 0), ".")
	if p.Cover > 0 {
		r.Say("The rest is its cover brine.")
	}
	t.sayCheck(r, c.Check)
	if said != "" {
		r.Say("Mind: ", said)
	}
	return s, nil
}

// pumpedSalt takes the usual salt down to what dissolves in so little pickle, where
// the person named none, and says so, with the pump that would carry it. Salt that
// was asked for stays.
func (t *Turn) pumpedSalt(p curemath.PumpTargets, asked bool) (curemath.PumpTargets, string) {
	c, err := curemath.SolvePump(p)
	if err == nil && !slices.ContainsFunc(c.Warnings, func(w curemath.Warning) bool { return w.Kind == curemath.WarnBrineWontDissolve }) {
		return p, ""
	}
	more, most := "", ""
	if pump, ok := p.PumpThatDissolves(); ok && pump > p.Pump {
		more = fmt.Sprintf(" A pump of %s would carry %s.", percent(pump), percent(p.Salt))
	}
	salt, ok := p.SaltThatDissolves()
	if !ok || salt >= p.Salt {
		return p, strings.TrimSpace(more)
	}
	if asked {
		most = fmt.Sprintf("At this pump %s salt dissolves with ease (common practice, no source).", percent(salt))
		return p, most + more
	}
	said := fmt.Sprintf("Salt is down from %s to %s: so little pickle would not dissolve more, as cold water holds about 26 %% (from memory).%s", percent(p.Salt), percent(salt), more)
	p.Salt = salt
	return p, said
}

// mostGap is how many days rubs may lie apart: our own choice, common practice, no
// source.
const mostGap = 14

// box works out a dry box cure with overhauls.
func (t *Turn) box(args string) (s wetSum, err error) {
	const example = "box 5 lb 1.5 in, 3 rubs 4 days apart"
	rest, gap := take(args, gapOf)
	rest, rubs := take(rest, rubsOf)
	line, d, err := t.wetPiece(rest, example)
	if err != nil {
		return s, err
	}
	b := curemath.BoxTargets{DryTargets: d}
	if rubs != "" {
		if _, err := fmt.Sscan(rubs, &b.Rubs); err != nil || b.Rubs < 1 {
			return s, &Error{Kind: BadInput, Why: "That is not a number of rubs.", Example: example}
		}
	}
	if gap != "" {
		if _, err := fmt.Sscan(gap, &b.Gap); err != nil || b.Gap < 1 || b.Gap > mostGap {
			return s, &Error{Kind: BadInput, Why: fmt.Sprintf("Rubs come from 1 to %d days apart.", mostGap), Example: example}
		}
	}
	c, err := curemath.SolveBox(b)
	if err != nil {
		return s, err
	}
	s = wetSum{line: line, targets: d, method: curemath.DryBox, portion: c.Weigh, step: c.Step, ingoing: c.Ingoing, trail: c.Trail, minds: c.Warnings}
	r := &s.card
	r.Say(reply.B("Box cure for "+t.units().meatExact(d.Green)), t.flavoured(line.Pieces[0].Flavouring), rindText(d.RindOn), ":")
	rows := [][]string{{"", d.Mix.Name, "salt", "sugar"}}
	for i, rub := range c.Rubs {
		s.rubs = append(s.rubs, store.Rub{Day: rub.Day, Mix: rub.Portion.Mix, Salt: rub.Portion.Salt, Sugar: rub.Portion.Sugar})
		rows = append(rows, []string{fmt.Sprintf("rub %d, day %d", i+1, rub.Day), grams(rub.Portion.Mix, decimals(c.Step)), grams(rub.Portion.Salt, 0), grams(rub.Portion.Sugar, 0)})
	}
	rows = append(rows, []string{"in all", mixGrams(c.DryCure), saltGrams(c.Weigh.Salt, c.DryCure), saltGrams(c.Weigh.Sugar, c.DryCure)})
	r.Table(rows)
	r.Par(trim(float64(c.Ingoing), 1), " ppm nitrite goes in; the limit is ", c.Limit.Text(), " for ", c.Limit.What, " [", c.Limit.Source.String(), "].")
	for _, w := range c.Warnings {
		if w.Kind == curemath.WarnRoundedUnderFloor { // said at the end
			continue
		}
		r.Say("Mind: ", w.Text)
	}
	return s, nil
}
