package bot

import (
	"fmt"
	"regexp"
	"strings"

	"larderhand/bot/parse"
	"larderhand/curemath"
)

var (
	// amountOfMix matches an amount of curing mix in a sentence: "8 grams of pink
	// salt", "cure 5 g", "twice the mix".
	amountOfMix = regexp.MustCompile(`(?i)` + beforeMix + `|` + behindMix + `|` + timesMix)
	mixAmount   = regexp.MustCompile(`(?i)` + beforeMix + `|` + behindMix)
	mixTimes    = regexp.MustCompile(`(?i)` + timesMix)
	withNitrate = regexp.MustCompile(`(?i)\b(?:cure|salt|powder|mix) ?(?:#|no\.? ?|number )?2\b`)
	insteadOf   = regexp.MustCompile(`(?i)\b(?:instead of|rather than|not|meant|should have been|should be)\s+(?:only\s+)?(\d+(?:[.,]\d+)?)\b`)
	onMeat      = regexp.MustCompile(`(?i)\b(?:on|for|onto|in|to|per)\s+(?:a |an |my |the |about )*(\d+(?:[.,]\d+)?\s*(?:kg|lbs?|pounds?|kilos?|kilograms?|g|grams?))\b`)
	addsMore    = regexp.MustCompile(`(?i)\b(more|extra|another|again|top(?:ped)? up)\b`)
	ofBatch     = regexp.MustCompile(`(?i)\bbatch\s*#?\s*(\d{1,5})\s*([a-z])?\b`)
)

const (
	filler    = `(?:(?:of|too|level|heaped|heaping|rounded|full|more|extra|that)\s+)*`
	beforeMix = `(` + saysLot + `)\s*(` + saysOf + `)\b\.?\s+` + filler + saysMix
	behindMix = `\b` + saysMix + `(?:\s*[:=,(]|\s+(?:was|is|about|at|of))*\s*(` + saysLot + `)\s*(` + saysOf + `)\b`
	manifold  = `(double|doubled|twice|two times|triple|tripled|three times)\b`
	timesMix  = `\b` + manifold + `.*\b` + saysMix + `|\b` + saysMix + `.*\b` + manifold

	mostHeld = 6 // pieces a dose is held against at once
)

func overdosed() []string {
	return []string{
		"If more curing mix went on than was weighed for it: don't eat it, don't taste it, throw it away where no child or animal gets at it.",
		"If someone has eaten it, or feels dizzy, short of breath or blue at the lips: call your poison centre or emergency number now.",
	}
}

// dosed holds the curing mix a line says went on against the limit: for the meat it
// names, else for what runs or was just worked out. Where neither is known it asks.
func (t *Turn) dosed(line string) []string {
	said, times := "", 0.0
	if m := mixAmount.FindStringSubmatch(line); m != nil {
		said = strings.TrimSpace(m[1] + " " + m[2])
		if m[1] == "" {
			said = strings.TrimSpace(m[3] + " " + m[4])
		}
	} else if m := mixTimes.FindStringSubmatch(line); m != nil {
		times = 2
		if how := strings.ToLower(m[1] + m[2]); strings.HasPrefix(how, "t") && !strings.HasPrefix(how, "tw") {
			times = 3
		}
	}
	var out []string
	over, under := false, false
	var gone []string
	for _, p := range t.dosedPieces(line) {
		text, verdict := t.holdDose(p, said, times, addsMore.MatchString(line), withNitrate.MatchString(line))
		if text == "" {
			continue
		}
		out = append(out, text)
		bad := verdict == curemath.VerdictOver || verdict == curemath.VerdictMayBeOver || verdict == curemath.VerdictNitrate
		over = over || bad
		if bad && p.number > 0 {
			gone = append(gone, fmt.Sprintf("`discard %d%s too much curing mix`", p.number, p.letter))
		}
		under = under || verdict == curemath.VerdictUnder || verdict == curemath.VerdictMayBeUnder
	}
	switch {
	case len(out) == 0:
		ask := "What does the meat weigh? Then I can say how much nitrite that is: `check 8 g curing mix for 5 lb belly`."
		if said != "" {
			ask = strings.Replace(ask, "8 g", said, 1)
		}
		return append(overdosed(), ask)
	case over:
		out = append(out, overdosed()...)
		if len(gone) > 0 {
			out = append(out, "Nothing is recorded by this. Where it went on: "+strings.Join(gone, ", ")+".")
		}
	case under:
		out = append(out, "Too little is not cured: it must not be smoked warm, where botulism starts (from memory). Only just put on and kept cold? Weigh what is missing and put it on; else keep it under 40 °F (4 °C) and cook it as fresh pork, to 145 °F (63 °C) and 3 minutes' rest (USDA).")
	}
	if !over {
		out = append(out, "Add no more by guess, and go by a 0.1 g scale, never a spoon.")
	}
	return out
}

// holdDose says what an amount of mix comes to on a piece.
func (t *Turn) holdDose(p dosedPiece, said string, times float64, more, nitrate bool) (string, curemath.Verdict) {
	share, called := " "+num(float64(p.mix))+"% curing mix", percent(p.mix)+" mix"
	if nitrate {
		share, called = " curing salt no 2", "a mix with nitrate"
	}
	weighed := num(float64(p.weighs)) + " g"
	var recipe []string
	switch {
	case p.wet || (more || times > 0) && p.weighs <= 0:
		return "", 0
	case times > 0:
		said = trim(float64(p.weighs)*times, 2) + " g"
		recipe = []string{said + share}
	case more:
		recipe = []string{weighed + share, said + share}
		said = weighed + " and " + said
	default:
		recipe = []string{said + share}
	}
	list, err := parse.Recipe(strings.Join(recipe, ", ") + " for " + trim(float64(p.green), 1) + " g belly")
	if err != nil {
		return "", 0
	}
	pantry, err := t.bot.pantry()
	if err != nil {
		return "", 0
	}
	c, err := pantry.Check(curemath.RecipeQuestion{Recipe: list, Rules: p.rules, Method: curemath.DryRub, RindOn: p.rind})
	if err != nil {
		return "", 0
	}
	verdict := c.Verdict
	if verdict == curemath.VerdictWithin && !curemath.Cured(c.Nitrite.Low) {
		verdict = curemath.VerdictUnder
	}
	say := strings.ToUpper(verdict.String()) + ": don't eat it."
	switch {
	case verdict == curemath.VerdictWithin:
		say = sentence(verdict.String())
	case verdict == curemath.VerdictUnder, verdict == curemath.VerdictMayBeUnder:
		say = strings.ToUpper(verdict.String()) + "."
	case more:
		say = strings.ToUpper(verdict.String()) + ": don't add it, and don't eat it if it is on."
	}
	was := ""
	if p.weighs > 0 {
		was = " (" + weighed + " was worked out)"
	}
	return fmt.Sprintf("%s of %s on %s, %s%s: %s nitrite; the limit is %s for %s [%s]. %s", said, called, p.who, t.units().meat(p.green), was, bandPPM(c.Nitrite),
		c.Limit.Text(), c.Limit.What, c.Limit.Source.String(), say), verdict
}

// doseOwed says what curing mix the meat that runs or was just worked out asks for.
func (t *Turn) doseOwed(line string) []string {
	_, rest := firstWord(line)
	if parse.LooksLikeCure(line) || parse.LooksLikeCure(rest) { // of meat still to be cured
		return []string{"Nothing was worked out or opened for that."}
	}
	var out []string
	for _, p := range t.dosedPieces(line) {
		if p.weighs > 0 && !p.wet {
			out = append(out, fmt.Sprintf("%s asks for %s of %s curing mix on %s. Nothing takes its place.", sentenceCase(p.who), grams(p.weighs, weighedDecimals(p.weighs)), percent(p.mix), t.units().meat(p.green)))
		}
	}
	return out
}

// howCold says how a temperature in a line lies to the cold meat is cured in.
func (t *Turn) howCold(line string) []string {
	m := saidHeat.FindString(line)
	at, err := parse.Temperature(m, t.tempUnit())
	if m == "" || err != nil {
		return nil
	}
	return t.howColdAt(at)
}

func (t *Turn) howColdAt(at curemath.Fahrenheit) []string {
	u := t.units()
	switch {
	case at > warmestFridge:
		return []string{u.temp(at) + " is too warm for meat in a cure."}
	case at > 38:
		return []string{u.temp(at) + " is at the edge: no higher than 40 °F (4 °C)."}
	case at < coldestFridge:
		return []string{u.temp(at) + " is too cold: frozen meat does not cure."}
	}
	return []string{u.temp(at) + " is cold enough, if it holds day and night and the thermometer hangs by the meat."}
}

var saidHeat = regexp.MustCompile(`(?i)\d+(?:[.,]\d+)?\s*(?:°\s*[fc]?|degrees?\s*[fc]?|deg\s*[fc]?|[fc])\b`)
