package bot

import (
	"regexp"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
)

const warmMeat = "Over 40 °F (4 °C) germs grow, cure or no cure. Out of the cold for more than 2 hours (1 above 90 °F, 32 °C) meat is thrown away (USDA; from memory). Cured meat that stood at 41 to 45 °F for some hours: cool it, note it, cook it through; in doubt throw it away (our own choice, no source)."

const coldBox = `\b(?:fridges?|refrigerators?|freezers?|coolers?|ice ?box)\b`

// powerCut is what to do when the cold failed.
func powerCut() worry {
	return worryOf("cold", `\b(?:black|brown)-?\s?outs?\b|\boutage\b|\b(?:left|stood|stayed|sat|was) (?:it |them |the meat |the belly |the bag )?(?:out|warm)\b.*\b(?:\d+|two|three|four|five|six|some|few|all|over) ?(?:h|hours?|hrs?|night|day|days)\b|\b(?:left|stood|sat) (?:it |them |the meat |the belly )?out overnight\b|\b(?:power|electric\w*|current|mains)\b.*\b(?:cut|cuts|out|off|outage|fail\w*|gone|down|loss|lost|back|tripped)\b|\b(?:no|lost|without) (?:power|electricity|current)\b|\bfuse\b.*\b(?:blew|blown|tripped)\b`+
		`|`+coldBox+`(?: door)?\W+(?:\w+\W+){0,3}?(?:off|failed|fails|died|dead|broken?|broke down|broke|stopped|quit|unplugged|defrosted|switched off|thawed|ajar|stood open|left open|was open|not (?:running|working|on|cold)|isn'?t (?:running|working|on|cold)|wasn'?t (?:running|working|on|cold))\b|\b(?:unplugged|switched off|turned off|left open)\b.*`+coldBox,
		"Meat that was over 40 °F (4 °C) for more than 2 hours is thrown away, cured or not (1 hour above 90 °F, 32 °C); don't taste it to find out (USDA; from memory).",
		"What does a thermometer in the middle of the meat read now? At 40 °F (4 °C) or under: keep it shut and cold, and cure on. Over it, and nobody knows since when: count it as too long.",
		"Kept shut, a fridge holds about 4 hours and a full freezer about 48; what still has ice crystals in it may be frozen again (USDA; from memory).").ahead()
}

var fridgeSaid = regexp.MustCompile(`(?i)` + coldBox + `\D{0,30}?(\d{1,3}(?:[.,]\d+)?)\s*(°\s*[fc]?|degrees?\s*[fc]?|deg\s*[fc]?|[fc])?(?:\s*([a-z%]+))?`)

// fridgeCold says how a temperature told of a fridge lies to what meat is cured in.
func (t *Turn) fridgeCold(line string) []string {
	if saidHeat.MatchString(line) {
		return t.howCold(line)
	}
	m := fridgeSaid.FindStringSubmatch(line)
	if m == nil || otherThanHeat.MatchString(m[3]) {
		return nil
	}
	at, err := parse.Temperature(m[1], t.tempUnit())
	if err != nil {
		return nil
	}
	return t.howColdAt(at)
}

var otherThanHeat = regexp.MustCompile(`(?i)^(?:h|hrs?|hours?|min|mins|minutes?|d|days?|weeks?|months?|times|lbs?|pounds?|kg|g|pieces?|bellies|bags?|%|am|pm)$`)

// fridgeTold answers a fridge too warm, told while meat is in its cure: of the meat
// first.
func (t *Turn) fridgeTold(line string) (r reply.Reply, ok bool) {
	open, err := t.openBatches()
	if err != nil || len(open) == 0 {
		return r, false
	}
	r, ok = t.worried(line)
	if ok {
		r.Say("The setting is for how cold it stands day by day, which my estimate of the cure goes by: ", reply.Type("set fridge 36 °F"), ". Nothing was recorded.")
	}
	return r, ok
}
