package bot

import (
	"fmt"
	"regexp"
	"strings"

	"larderhand/scheduler/plan"
)

// findings are what the hand and the tongue find that is no danger yet, and questions
// about the work.
func findings() []worry {
	const unflipped = "One missed day does no harm; two make the cure uneven. Flip it now, rub any dry spots, and say `flip`."
	return []worry{
		worryOf("", `\b(?:missed|forgot|forgotten|skipped)\b.*\b(?:flips?|flipping|turn|turning|turns)\b.*\b\d+ (?:days?|times|flips)\b|\b(?:missed|forgot|skipped) (?:\d+|a|one|two|three|four|some|several|a few|the|my)(?: last)? (?:flips?|turns?)\b|\bflips? (?:was |were |got )?(?:missed|forgotten|skipped)\b|\b(?:not|never|didn'?t|haven'?t) (?:flip(?:ped)?|turn(?:ed)?) (?:it |them |the bag )?(?:for|since|in)\b`, unflipped).ahead(),
		worryOf("", `\b(?:soft|squishy|spongy|mushy|not firm|isn'?t firm|unfirm)\b`,
			"Soft in the middle is not cured through: it must not be smoked. Give it more days, `longer` and how many, keep flipping, and press it again (common practice, no source).").
			butNot(`\b(?:sugar|rind|brown|butter|water|fat|tender|cheese)\b|\b(?:not|isn'?t|no longer|nothing) soft\b`).then((*Turn).softNow),
		worryOf("", `\b(?:too|so|very|really|still|way too|bit) salty\b|\boversalted\b|\btoo much salt\b|^\W*salty\W*$`,
			"Soak it in cold water in the fridge for 30 minutes to 2 hours, change the water half-way, then fry another slice (common practice, no source). Still too salty after that: soak it again in fresh water.",
			"Say it of a batch: `fry 1 too salty`, then `soak 1 45 min`. The next one can start with less salt: `salt 2.25%`.").
			butNot(`\b(?:not|isn'?t|wasn'?t|never|too little) (?:too|so|very|really|that) salty\b`),
		worryOf("", `^\W*(?:so |and )?(?:what(?:'?s| is| are| does)? |whats )?(?:a |an |the )?ppm(?: mean| stand for| nitrite)?\W*$`,
			"ppm is parts per million: milligrams of sodium nitrite to each kilogram of raw meat, so 120 ppm are 0.12 g of nitrite, or 1.9 g of a 6.25 % mix, on 1 kg."),
		worryOf("", `\b(?:`+otherMeat+`)\b`,
			"I am made for pork belly. Other cuts of pork need other days and other care, since cure goes by thickness, fat and bone; other meat has other rules (poultry needs 165 °F, 74 °C, at the core: USDA), and I don't do it.",
			"A boneless cut of pork I work out by the bacon limits: `5 lb loin 2 in`. Go by its thickest part, and check the middle.").butNot(`\bsauce\b|^\W*(?:with|flavou?r\w*|make it)\b`),
	}
}

const otherMeat = `hams?|prosciutto|loins?|coppa|jowls?|shoulders?|pork butt|hocks?|venison|deer|boar|elk|moose|beef|brisket|pastrami|corned beef|jerky|lamb|mutton|goat|rabbit|chickens?|turkeys?|ducks?|goose|geese|poultry|fish|salmon|trout|sausages?|salami`

// softPiece is the letter a line about something soft begins with.
var softPiece = regexp.MustCompile(`(?i)^\W*(?:(?:my|the|and|piece|slab)\s+)*([a-z])\s+(?:is|was|feels|still|seems|stays)\b`)

// softNow says what gives each batch in its cure more days, or when its check is due.
func (t *Turn) softNow(line string) []string {
	open, err := t.openBatches()
	if err != nil {
		return nil
	}
	var out []string
	for _, s := range open {
		switch {
		case !inBag(s):
		case plan.DateOf(t.Now, t.Loc).Before(s.CheckDate(t.Loc)):
			out = append(out, fmt.Sprintf("%s has its check on %s and may be soft until then.", name(s), dateText(s.CheckDate(t.Loc))))
		default:
			letter := ""
			if m := softPiece.FindStringSubmatch(line); m != nil && len(s.Pieces) > 1 && hasPiece(s, strings.ToLower(m[1])) {
				letter = strings.ToLower(m[1])
			}
			out = append(out, fmt.Sprintf("%s: `longer %d%s 2 days`", name(s), s.Number, letter))
		}
	}
	return out[:min(len(out), 4)]
}
