package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
)

// worry is what a person may say in their own words when something is wrong, and
// what they must hear then. It is an answer and nothing else: it records nothing.
type worry struct {
	said    *regexp.Regexp
	and     *regexp.Regexp // must be said too; nil: nothing
	unless  *regexp.Regexp // words that make it something else; nil: none
	first   bool           // comes before any command: a line that begins with a command's word may be meant
	numbers func(t *Turn, line string) []string
	lines   []string
	after   func(t *Turn, line string) []string // what to do of a batch, once the rest is heard
	topic   string                              // the caution that says more
}

// The words for curing mix, and for an amount of something.
const (
	saysMix = `(?:the |that |our |my |any |more |extra |your )*(?:cur(?:e|ing) (?:mix|salts?|powders?)|cure(?: ?(?:#|no\.? ?|number )\d)?|nitrites?|pink (?:curing |cure )?salt|pink stuff|prague powders?|mix)\b`
	saysLot = `(?:\d+(?:[.,]\d+)?(?:\s+\d/\d)?|\d/\d|[½¼¾⅓⅔]|\d\s*[½¼¾⅓⅔]|one|two|three|four|five|half an?|an?)`
	saysOf  = `(?:g|gr|grams?|oz|ounces?|tsps?|teaspoons?|teaspoonfuls?|tbsps?|tablespoons?|tablespoonfuls?|tbs|cups?)`
)

// Answers given to more than one worry.
const (
	notCured = "Without curing mix it is not cured: it must not be smoked warm, where botulism starts (from memory). Keep it under 40 °F (4 °C) and cook it as fresh pork within its days, to 145 °F (63 °C) and 3 minutes' rest (USDA)."
	putItOn  = "Forgotten just now and kept cold? Work the cure out and put it on."
	goneOff  = `\b(smell(s|ing)?|smelt|tast(es?|ed))( \w+){0,2} off\b|\b(meat|belly|bellies|bacon|pork|slabs?|pieces?|slices?|it|they|brine|[a-h])(('s|'re)| (is|has|are|have|was|were|seems?|looks?|might be|may be|gone|going|went|turned|a bit|bit|smells?|tastes?))+ off($|[^\w ]| (i|now|already|to me|or|is|should|can|what|do|in|and)\b)|^\W*off\W*$|\bits (gone )?off\W*$|\bis (it|this|that|the (meat|belly|bacon)) off\W*$`
	spoiled  = "Slime, a sour smell, green sheen or a blown bag: throw it away, do not taste. No cure and no cooking makes it good again."
)

func worries() []worry {
	w := worryOf
	first := func(w worry, unless string, numbers func(*Turn, string) []string) worry {
		w.first, w.numbers = true, numbers
		if unless != "" {
			w.unless = regexp.MustCompile(`(?i)` + unless)
		}
		return w
	}
	eaten := first(w("nitrite", `\b(ate|eaten|licked|swallowed|drank|chewed|tasted|got into|got at)\b.*\b`+saysMix,
		"Curing mix is poison in small amounts. For an animal call your vet or an animal poison line now, for a person your poison centre or emergency number; don't wait for signs.",
		"Have the packet at hand: they will ask for the percent of nitrite, how much it was and when."), `\bcured\b.*\bgood\b`, nil)
	return slices.Concat([]worry{eaten}, harms(), []worry{powerCut(), mouldy()}, smoking(), []worry{
		first(w("nitrite", `\b(table|himalaya\w*) salt\b.*\bpink\b|\bpink\b.*\btable salt\b|\bhimalaya\w*\b.*\b(salt|cure|pink)\b|\bpink salt\b.*\bhimalaya`,
			"Pink table salt cures nothing: its pink is iron, and there is no nitrite in it. What was salted with it alone is not cured and must not be smoked warm, where botulism starts (from memory).",
			"Only just put on and kept under 40 °F (4 °C)? Work the cure out and weigh the curing mix on too, with that much less salt. Else cook it as fresh pork, to 145 °F (63 °C) and 3 minutes' rest (USDA)."), "", nil),
		first(w("nitrite", `\bcelery (powder|juice|extract)\b|\bvegetable (nitrite|cure)\b`,
			"Celery powder and juice bring nitrate and nitrite of a strength the packet doesn't tell, so no sum of mine holds for them: too little is not cured, too much is poison. Weigh a curing mix whose percent of sodium nitrite is on its packet."), "", nil),
		first(w("nitrite", `\bsalt-?\s?pet(er|re)\b|\b(potassium|sodium) nitrate\b`,
			"Saltpetre is nitrate, and nitrate is not for bacon by any method (9 CFR 424.22(b), as a state extension bulletin repeats it): it turns to nitrite when it likes, and the heat of the pan makes harm of it. Weigh a curing mix with nitrite only."), `\bno (salt-?\s?pet|nitrate)`, nil),
		first(w("nitrite", `\b(us(e|ed|ing)|put|add(ed|ing)?|weighed|went|threw|poured|sprinkled|rubbed|instead|rather than|not|should|oops|accident\w*|mistake|wrong|too much|doubled?|twice|tripled?)\b`).also(amountOfMix),
			`\brecipe|\bcalls for\b|\bstock\b|\bused up\b|\bbought\b|\bfrom the (shop|store|butcher|market)\b|\bto weigh\b|\bneighbou?r|\btwice (a|per|each|every) (day|week)`, (*Turn).dosed),
		swapped(), spooned(), spilled(),
		w("nitrite", `\b(tbsp|tablespoons?|cups?|double|twice|too much|extra|spoons?)\b.*\b(cure|curing|mix|nitrite|pink)\b|\b(too much|double|twice)\b.*\b(nitrite|mix|cure)\b|\bover ?dos`, overdosed()...),
		first(w("nitrite", `\b(skip|omit|leav(e|ing) (out|off)|left (out|off)|forgot(ten)?|forget|without|zero|do(es)?n'?t (have|want|use|need|put|add)|did(n'?t| not) (have|use|put|add)( in| on)?|ran out of|avoid|instead of|replace) `+saysMix+
			`|\bno (any )?(cur(e|ing) (mix|salt)s?|pink salt|nitrites?|cure|prague powder)\b|\b(leave|left) `+saysMix+`.* (out|off)\b|\b(do|must|should) (i|we|you) (really )?(have to|need|need to|use|put)( use| add| put)? `+saysMix+`\??$|\b(just|only|use|using) (sea |kosher |table |plain |rock )?salt$|\bis `+saysMix+` (needed|necessary|optional|required)|\buncured\b`,
			notCured,
			putItOn), `\bcure (check|day)|\bmix\s*\d|\d\s*%|\bcheck(ed)?\b.*\bcure\b`, (*Turn).doseOwed),
		w("nitrite", `\bforgot\b.*\b(cure|curing|mix|nitrite)\b|\bwithout (any )?(cure|curing|nitrite)\b|\bno (cure|curing mix|nitrite)\b`,
			notCured,
			putItOn),
		first(w("storage", `\b(smells?|smelt|smelling)( really| a bit| a little| kind of| kinda| very| so| pretty)* (funny|weird|strange|odd|bad|off|wrong|sour|rotten|foul|rancid|like)\b`,
			spoiled), `\blike (smoke|juniper|bacon|pepper)`, nil),
		w("storage", `\bhow long\b.*\b(keep|keeps|last|lasts|good)\b`,
			"Bacon keeps 7 days at 40 °F (4 °C) and 1 month at 0 °F (−18 °C) for quality (US cold storage chart). Frozen it stays safe without limit, only less good.",
			"Slime, sour smell, green sheen or a blown bag: throw it away, do not taste."),
		w("storage", `\b(slim(e|y)|rope?y|sour|rotten|stinks?|smells? (bad|off|wrong)|green|swollen|blown|puffed|gassy)\b|`+goneOff,
			spoiled),
		w("cold", `\b(bags?|seals?|vacuum)\b.*\b(leak\w*|burst|torn|tore|split|ripped|holes?|came open)\b|\bleak\w*\b.*\bbags?\b`,
			"Bag it again with all the liquor that is left, wash the fridge where it ran, and throw away the ready food it dripped on. Add no curing mix by guess (common practice, no source).",
			"The liquor that ran out took salt and nitrite along: give it all its days and fry a slice before you smoke. Gone in the first days and much of it? Keep it under 40 °F (4 °C) and cook it as fresh pork, to 145 °F (63 °C) and 3 minutes' rest (USDA)."),
		w("cold", `\b(froze|frozen|freez(es|ing)|ice (crystals|in))\b`,
			"Frozen meat does not cure (home-preservation review, NCHFP 6.1.3). Thaw it in the fridge at 34 to 38 °F (1 to 3 °C), never on the counter, and give it the frozen days again: `longer` and how many (common practice, no source).",
			"Move it off the cold wall of the fridge and hang the thermometer by the meat.").butNot(`\b(pack(s|ed)?|slices?|sliced|keeps?|eat|bought|buy|smoked|bacon|thaw(ed|s)?|can i|freezer)\b`),
		first(w("cold", `\b(garage|basement|cellar|shed|porch|balcony|pantry|kitchen|room)\b.*\d\s*(°|degrees?|deg|[fc])\b`,
			"Cure at 34 to 38 °F (1 to 3 °C), never over 40 °F (4 °C): over it germs grow, cure or no cure. Out of the cold for more than 2 hours (1 above 90 °F, 32 °C) meat is thrown away (USDA; from memory)."), "", (*Turn).howCold),
		first(w("", `\b(forgot|forgotten|missed|skipped)\b.*\b(flip|flipping|turn|turning)\b`,
			"One missed day does no harm; two make the cure uneven. Flip it now, rub any dry spots, and say `flip`."), `\d`, nil),
		w("cold", `\b(fridge|refrigerator|cooler|power|outage|warm|thawed|left out|counter|room temp)\b`,
			warmMeat).with((*Turn).fridgeCold).butNot(`^((it|they|all|meat|belly|bellies|pieces|the|is|are|'s|'re|put|back|now|on a rack|on the rack|uncovered|straight)[ ,]*)*in(to)? (the|my) fridge( now| overnight| again)?[.! ]*$`),
		w("heat", `\b(fire|smoke|coals?)\b.*\b(went out|died|dead)\b|\bfire\b.*\bout\b|\b(out|died)\b.*\bfire\b|\bpit\b.*\b(cold|died|out)\b`,
			"Relight it, or take the meat out and into the fridge: a warm, dying pit is the worst place for it. Then tell me what pit and core read."),
		w("heat", `\bdanger zone\b`,
			"Between 40 and 140 °F (4 and 60 °C) germs grow and spores wake. I count those hours from the readings you tell me, and say so with each: type `batch` and its number."),
		w("heat", `\b(raw|safe|eat|cook(ed)?|ready|done)\b`,
			"Home-smoked bacon is raw unless its core readings say otherwise: cook before eating (FSIS). I can't see your meat; an estimate of mine never makes it safe."),
		w("nitrite", `\b(botulism|listeria|poison(ed|ing)?|sick|ill|die|dangerous|danger)\b`,
			"If someone is ill after eating it: call your poison centre or emergency number and keep the rest of the meat for them.",
			"Nitrite, cold and cooking are what keep cured meat from doing harm; salt at 2 to 3 % does not."),
	}, findings())
}

func worryOf(topic, pattern string, lines ...string) worry {
	return worry{said: regexp.MustCompile(`(?i)` + pattern), lines: lines, topic: topic}
}

// ahead puts a worry before any command.
func (w worry) ahead() worry {
	w.first = true
	return w
}

// with puts sentences before the lines that depend on what runs and on what was said.
func (w worry) with(numbers func(*Turn, string) []string) worry {
	w.numbers = numbers
	return w
}

// then puts behind the lines what can be done of a batch.
func (w worry) then(after func(*Turn, string) []string) worry {
	w.after = after
	return w
}

// also asks for more than the words of the worry.
func (w worry) also(and *regexp.Regexp) worry {
	w.and = and
	return w
}

// butNot leaves out what is said of something else.
func (w worry) butNot(pattern string) worry {
	w.unless = regexp.MustCompile(`(?i)` + pattern)
	return w
}

// fits says whether a line speaks of the worry.
func (w worry) fits(line string) bool {
	return w.said.MatchString(line) && (w.unless == nil || !w.unless.MatchString(line)) && (w.and == nil || w.and.MatchString(line))
}

// worried answers what sounds like a worry; ok is false if it does not.
func (t *Turn) worried(line string) (r reply.Reply, ok bool) {
	for _, w := range t.bot.cries {
		if w.fits(line) {
			return w.answer(t, line), true
		}
	}
	return r, false
}

// worriedOf is worried for what is said of a batch, or of a piece of it.
func (t *Turn) worriedOf(p pick, line string) (reply.Reply, bool) {
	for _, w := range t.bot.cries {
		if w.fits(line) {
			return w.answer(t, fmt.Sprintf("%s (batch %d%s)", line, p.State.Number, p.Letter)), true
		}
	}
	return reply.Reply{}, false
}

func (w worry) answer(t *Turn, line string) (r reply.Reply) {
	var numbers []string
	if w.numbers != nil {
		numbers = w.numbers(t, line)
	}
	numbers = append(numbers, w.lines...)
	if w.after != nil {
		numbers = append(numbers, w.after(t, line)...)
	}
	for _, l := range numbers {
		var spans []any
		for i, part := range strings.Split(l, "`") { // every second one is to be typed
			if i%2 == 1 {
				spans = append(spans, reply.Type(part))
			} else {
				spans = append(spans, part)
			}
		}
		r.Say(spans...)
	}
	if w.topic != "" {
		r.Say("More: ", reply.Type("caution "+w.topic), ".")
	}
	return r
}

// longestCry is how many words a worry said without a command may have: what is
// longer is a story or a recipe. Our own choice, no source.
const longestCry = 25

// cry finds the worry a line is plainly about although it may begin with the word of
// a command: "skip the pink salt" passes over no step. A line that names a batch
// after its command, and one whose command takes a person's own words, is that
// command.
func (b *Bot) cry(m Message, line string) (Command, bool) {
	if m.Press != nil || len(m.Files) > 0 || strings.Contains(line, "\n") || len(strings.Fields(line)) > longestCry {
		return Command{}, false
	}
	unread := false // "meat is sour": a reading that tells no number is none
	if cmd, args, found := b.find(line); found {
		unread = slices.Contains([]string{"pit", "core", "temp"}, cmd.Name) && args != "" && !strings.ContainsAny(args, "0123456789")
		_, _, named, err := parse.Batch(args)
		if ownWords(cmd, args) || cmd.Batch && (named || err != nil) {
			return Command{}, false
		}
	} else if _, rest, named, err := parse.Batch(line); named && err == nil {
		if cmd, _, found := b.find(rest); found && cmd.Batch { // "1 note smells of juniper"
			return Command{}, false
		}
	}
	for _, w := range b.cries {
		if (w.topic == "cold" || w.topic == "people") && (parse.LooksLikeCure(line) || parse.LooksLikeCure(afterWord(line))) { // the cure says how cold it is kept, and whom it is for
			continue
		}
		if (w.first || unread) && w.fits(line) {
			return Command{Name: "caution", Reads: true, Sums: true, Run: func(t *Turn, line string) (reply.Reply, error) { return w.answer(t, line), nil }}, true
		}
	}
	return Command{}, false
}

// ownWords says whether what follows a command is a person's own words.
func ownWords(cmd Command, args string) bool {
	if cmd.Name == "skip" { // after the step it passes over
		word, _ := firstWord(args)
		return slices.ContainsFunc(course.Steps(), func(i course.Info) bool {
			return slices.Contains(append(stepWords(i.Step), string(i.Step)), strings.ToLower(strings.Trim(word, ",;:")))
		})
	}
	return cmd.Own
}

// understand gives the command a line starts with and the rest of it; a plain worry
// comes before any, and an everyday saying stands for one.
func (b *Bot) understand(m Message, line string) (Command, string, bool) {
	if cmd, ok := b.cry(m, line); ok {
		return cmd, line, true
	}
	if m.Press == nil {
		if cmd, args, ok := b.saidPlainly(line); ok {
			return cmd, args, true
		}
	}
	return b.find(line)
}

func afterWord(line string) string {
	_, rest := firstWord(line)
	return rest
}
