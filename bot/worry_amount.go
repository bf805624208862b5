package bot

import (
	"regexp"
	"strings"
)

// Amounts of curing mix that are told without naming it.
var (
	bareGrams = regexp.MustCompile(`(?i)\b\d+(?:[.,]\d+)?\s*(?:g|gr|grams?)\b`)
	spoonful  = regexp.MustCompile(`(?i)\b` + saysLot + `\s*(?:(?:level|heaped|heaping|rounded|full|small|whole)\s+)*(?:tsps?|teaspoons?|teaspoonfuls?|tbsps?|tablespoons?|tablespoonfuls?|tbs)\b`)
)

const ifMix = "If that was curing mix:"

// swapped is one amount in the place of another, of nothing that is named.
func swapped() worry {
	return worryOf("nitrite", `\b(used|put|took|added|weighed|rubbed|was|went)\b.*\d\s*(g|gr|grams?)\b.*\b(instead of|rather than|not|should have been|should be)\s+(only\s+)?\d`).ahead().
		butNot(`\b(salt|sugar|honey|pepper|syrup|juniper|coffee|chilli|garlic|spices?|kg|lbs?|pounds?|belly|meat|weighs|ppm)\b|%`).with(func(t *Turn, line string) []string {
		return append([]string{ifMix}, t.dosed(ofMix(line, bareGrams))...)
	})
}

// spooned is mix measured by the spoon, or for want of a scale.
func spooned() worry {
	const spoons = `(tsps?|teaspoons?|teaspoonfuls?|tbsps?|tablespoons?|tablespoonfuls?|tbs|spoons?)`
	return worryOf("nitrite", `\b(no|without|don'?t (have|own)|haven'?t( got)?|lost) (a |any |my |the )?(digital |kitchen |pocket )?scales?\b|\bscales? (is |are |has |was )?(broken?|died|dead|empty|off|gone)\b|\b(use|used|using|put|took|add|added|measure|measured|weigh|with|by)( about| in| on| up| it| with| by| out| only| just| the)* (`+saysLot+`\s*)?(level |heaped |heaping |rounded |full )*`+spoons+`\W*$`,
		"Never by the spoon: a level teaspoon of curing mix is anything from 5 to 7 g, a spread of 40 %, and what is right on one belly is too much or too little on another. A pocket scale that shows 0.1 g is cheap.",
		"Not on the meat yet? Keep meat and mix apart and cold until you can weigh it.").ahead().with(func(t *Turn, line string) []string {
		if !spoonful.MatchString(line) {
			return nil
		}
		return append([]string{ifMix}, t.dosed(ofMix(line, spoonful))...)
	})
}

// ofMix names curing mix behind the first amount a pattern finds.
func ofMix(line string, amount *regexp.Regexp) string {
	at := amount.FindStringIndex(line)
	if at == nil {
		return line
	}
	return line[:at[1]] + " of curing mix" + strings.TrimRight(line[at[1]:], " .!")
}

// spilled is curing mix that did not get to the meat.
func spilled() worry {
	const lost = `(spil(led|t|ling|ls?)|fell (off|on|out|down|over|from)|knocked (over|off|down)|tipped over|blew away|washed off|(dropped|lost) (some|half|most|part|a bit|a little|all|much)|dropped|on the (floor|ground))\b`
	return worryOf("nitrite", `\b`+lost+`.*\b`+saysMix+`|\b`+saysMix+`.*\b`+lost,
		"Add no more by guess: too much is poison, too little is no cure. Not rubbed yet? Weigh what is left, and weigh on what is missing of the sum (common practice, no source).",
		"On the meat already, and nobody knows how much? Treat it as not cured: never into the smoke; keep it under 40 °F (4 °C) and cook it as fresh pork, to 145 °F (63 °C) and 3 minutes' rest (USDA).",
		"Sweep up what fell and throw it away where no child or animal gets at it.").ahead().butNot(`\bdropped (the |my )?` + saysMix + ` (to|by)\b`).with((*Turn).doseOwed)
}
