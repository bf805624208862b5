package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

const (
	animals = `\b(?:dogs?|cats?|pets?|pupp(?:y|ies)|kittens?|animals?|rac+oons?|fox(?:es)?|mice|mouse|rats?)\b`
	eats    = `\b(?:ate|eats?|eaten|eating|licked|licking|stole|stolen|chew(?:ed|ing)?|swallowed|bit|had|got (?:at|to|into|hold of|one|it|some)|give|feed|nibbled|dragged)\b`
)

// harms are the worries about a person or an animal that has eaten of it, or shall.
func harms() []worry {
	return []worry{
		worryOf("nitrite", `\b(dizz(y|iness)|faint(ed|ing)|passed out|light-?headed|blue lips?|lips? ((are|is|went|go|turn\w*|going|look) )*blue|blue (at|round|around|in) the (lips|mouth|face)|short(ness)? of breath|can'?t breathe|breathless|trouble (breathing|swallowing|seeing|speaking)|(blurr\w*|double) vision|vomit\w*|threw up|throwing up|nause\w+|diarrh?o?ea|(stomach|tummy|belly) ?(ache|pains?|cramps?)|head ?aches?|food poisoning)\b`+
			`|\bfeel(s|ing)?( so| really| very| a bit| quite)? (sick|ill|unwell|poorly|faint)\b|\b(sick|ill|unwell)\b.*\b(after|from|since)\b|\b(i'?m|am|he'?s|she'?s|is|are|got|gets|getting|me|us|him|her|became)( so| really| very| all)? (sick|ill|unwell)\b`,
			"Stop eating it. Call your poison centre now; your emergency number at once for blue lips, short breath, fainting, or trouble to see, speak or swallow (from memory).",
			"Keep the rest of the meat and the packet of curing mix: they will ask for the percent of nitrite, how much of it was eaten and when.").ahead().butNot(`\bforgot|\bsick of\b`),
		worryOf("nitrite", animals+`.*`+eats+`|`+eats+`.*`+animals,
			"Raw cured meat and curing mix can poison an animal, by the salt and by the nitrite (from memory): call your vet or an animal poison line now, don't wait for signs.",
			"Say what the animal weighs, how much it ate and when, and have the packet of curing mix at hand.").ahead().then(gone("eaten by an animal")),
		worryOf("people", `\b(pregnan\w+|breast-?\s?feed\w*|g6pd|infants?|bab(y|ies)|newborns?|toddlers?)\b`+
			`|\b(child(ren)?|kids?|wife|sons?|daughters?|gran(s|ny|nies|d?mas?|d?pas?|dmothers?|dfathers?|dparents?|dads?|dson|ddaughter)?|elderly|old people|mother|mum|mom|father|dad)\b.*(\b(eat|have|give|safe|allowed|ok|okay|kidneys?|blood pressure|low salt|ill|frail)\b|\bis (over )?\d{2,3}\b)`+
			`|\b(can|may|should|give|feed|safe)\b.*\b(child(ren)?|kids?|gran(s|ny|d?mas?|d?pas?|dmother|dfather|dparents|dad)?|elderly|old people)\b|\b(low|no)[- ]salt diet\b|\b(ok|okay|safe|fine|good|bad) for (a |an |my |our |the |small |little )*(child(ren)?|kids?|sons?|daughters?|wife|gran(s|ny|d?mas?|d?pas?|dmother|dfather|dparents|dad)?|elderly|old people|\d+ (year|month)s?)|\b\d+[- ](year|month)s?[- ]old\b|\bkidneys?\b|\bblood pressure\b`,
			"Medical advice before cured meat: babies under 6 months, pregnant people, people with G6PD lack or told to limit salt (from memory).",
			"For them, for children, and for the old and the ill, never raw or half cooked: home-smoked meat to 160 °F (71 °C) at the core (NCHFP 6.1.3).").ahead().butNot(`\bbaby back\b|` + eats + `.*` + saysMix + `|\bgot into\b|\b(flip|turn|ping|says|said|told|thinks|asks|asked)`),
	}
}

var pieceSaid = regexp.MustCompile(`(?i)\b(?:piece|slab|bag)\s+([a-z])\b|\b(\d{1,5})([a-z])\b|\bbatch\s*#?\s*(\d{1,5})\b`)

// gone says how the piece a line is about is discarded: nothing is recorded before
// that is typed.
func gone(why string) func(*Turn, string) []string {
	return func(t *Turn, line string) []string {
		all := t.running()
		if m := pieceSaid.FindStringSubmatch(line); m != nil {
			letter, number := strings.ToLower(m[1]+m[3]), m[2]+m[4]
			all = slices.DeleteFunc(all, func(p dosedPiece) bool {
				return letter != "" && p.letter != letter || number != "" && fmt.Sprint(p.number) != number
			})
		}
		if len(all) == 0 {
			return nil
		}
		if len(all) > 3 {
			return []string{"Nothing is recorded by this. Which piece is it? `batches` shows them; then `discard`, its number and letter, and why."}
		}
		var list []string
		for _, p := range all {
			list = append(list, fmt.Sprintf("`discard %d%s %s`", p.number, p.letter, why))
		}
		return []string{"Nothing is recorded by this. Once you know which: " + strings.Join(list, ", ") + "."}
	}
}
