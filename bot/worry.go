package bot

import (
	"regexp"

	"larderhand/bot/reply"
)

// worry is what a person may say in their own words when something is wrong, and
// what they must hear then. The words are looked for only where a line is no
// command.
type worry struct {
	said  *regexp.Regexp
	lines []string
	topic string // the caution that says more
}

func worries() []worry {
	w := func(pattern, topic string, lines ...string) worry {
		return worry{regexp.MustCompile(`(?i)` + pattern), lines, topic}
	}
	return []worry{
		w(`\b(tbsp|tablespoons?|cups?|double|twice|too much|extra|spoons?)\b.*\b(cure|curing|mix|nitrite|pink)\b|\b(too much|double|twice)\b.*\b(nitrite|mix|cure)\b|\bover ?dos`, "nitrite",
			"If more curing mix went on than was weighed for it: don't eat it, don't taste it, throw it away where no child or animal gets at it.",
			"If someone has eaten it, or feels dizzy, short of breath or blue at the lips: call your poison centre or emergency number now."),
		w(`\bforgot\b.*\b(cure|curing|mix|nitrite)\b|\bwithout (any )?(cure|curing|nitrite)\b|\bno (cure|curing mix|nitrite)\b`, "nitrite",
			"Without curing mix it is not cured: it must not be smoked warm, where botulism starts (from memory). Keep it under 40 °F (4 °C) and cook it as fresh pork within its days, to 145 °F (63 °C) and 3 minutes' rest (USDA).",
			"Forgotten just now and kept cold? Work the cure out and put it on."),
		w(`\b(slim(e|y)|sour|rotten|off|stinks?|smells? (bad|off|wrong)|green|mou?ld|mou?ldy|swollen|blown|puffed|gassy)\b`, "storage",
			"Slime, a sour smell, green sheen or a blown bag: throw it away, do not taste. No cure and no cooking makes it good again."),
		w(`\b(fridge|refrigerator|cooler|power|outage|warm|thawed|left out|counter|room temp)\b`, "cold",
			"Over 40 °F (4 °C) germs grow, cure or no cure. Out of the cold for more than 2 hours (1 above 90 °F, 32 °C) meat is thrown away (USDA; from memory). Cured meat that stood at 41 to 45 °F for some hours: cool it, note it, cook it through; in doubt throw it away."),
		w(`\bfire\b.*\b(out|died|dead)\b|\b(out|died)\b.*\bfire\b|\bpit\b.*\b(cold|died|out)\b`, "heat",
			"Relight it, or take the meat out and into the fridge: a warm, dying pit is the worst place for it. Then tell me what pit and core read."),
		w(`\b(raw|safe|eat|cook(ed)?|ready|done)\b`, "heat",
			"Home-smoked bacon is raw unless its core readings say otherwise: cook before eating (FSIS). I can't see your meat; an estimate of mine never makes it safe."),
		w(`\b(botulism|listeria|poison(ed|ing)?|sick|ill|die|dangerous|danger)\b`, "nitrite",
			"If someone is ill after eating it: call your poison centre or emergency number and keep the rest of the meat for them.",
			"Nitrite, cold and cooking are what keep cured meat from doing harm; salt at 2 to 3 % does not."),
	}
}

// worried answers what sounds like a worry; ok is false if it does not.
func worried(line string) (r reply.Reply, ok bool) {
	for _, w := range worries() {
		if !w.said.MatchString(line) {
			continue
		}
		for _, l := range w.lines {
			r.Say(l)
		}
		r.Say("More: ", reply.Type("caution "+w.topic), ".")
		return r, true
	}
	return r, false
}
