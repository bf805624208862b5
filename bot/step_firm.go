package bot

import (
	"fmt"
	"regexp"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

var (
	soundsSoft = regexp.MustCompile(`(?i)\b(?:soft|softer|softish|mushy|spong(?:y|ey|e)|squishy|squidgy|squashy|jelly|wobbly|raw|gives|giving|almost|nearly|hardly|barely|maybe|perhaps|later|unsure|nope|nah|nowhere|not (?:yet|quite|really|sure|fully|completely|entirely|there|enough|everywhere|all)|(?:needs?|wants?) (?:more|another|longer|time|a few|a couple|a day|\d+)|more days?|longer|not (?:firm|through|ready|done|cured)|(?:isn|wasn|hasn|doesn)['’]?t)\b|^\W*(?:no|not|never|none|wait|but)\b|\b(?:no|not yet)\W*$`)
	// saysFirm is words that say yes to it, and a few that go with them.
	saysFirm = regexp.MustCompile(`(?i)^\W*(?:(?:yes|yep|yeah|fine|ok|okay|good|great|well|done|firm|firmer|solid|hard|dense|tight|springy|rubbery|perfect|cured|sure|all|both|through|throughout|the|way|in|at|on|to|of|everywhere|middle|centre|center|edges?|ends?|thick(?:est)?|thin|part|sides?|it|its|it['’]s|is|are|they|they['’]re|piece|belly|slab|i|think|checked|pressed|feels?|felt|looks?|seems?|like|a|my|an|heel|palm|hand|as|also|too|now|today|already|very|really|nice|nicely|and|with|so|bit|little|rough|dry|drier|outside|surface|skin|dark|darker|red|pink)\b\W*)+$`)
	notSoft  = regexp.MustCompile(`(?i)\b(?:not|no|nothing|nowhere|never|isn['’]?t|no longer)\s+(?:at all\s+|a bit\s+|too\s+|any\s+)?(?:soft|softer|mushy|spong(?:y|ey)|squishy|squidgy|raw|giv(?:es|ing))\b|\bno (?:soft \w+|give\b|doubt\b)`)
)

// notFirm refuses a cure check told in words that say the opposite, and asks where it
// does not know what they say: nothing is cured by a guess.
func notFirm(step course.Step, s course.State, of []string, text string) error {
	more := "longer " + checkTarget(s, join(of)) + " 2 days"
	if step != course.Firm || strings.TrimSpace(text) == "" || earlyWhy.MatchString(text) && !soundsSoft.MatchString(notSoft.ReplaceAllString(text, "")) {
		return nil
	}
	if !soundsSoft.MatchString(notSoft.ReplaceAllString(text, "")) {
		if notSoft.MatchString(text) || saysFirm.MatchString(text) {
			return nil
		}
		whole := fmt.Sprintf("%d%s", s.Number, join(of))
		return &Error{Kind: BadInput, Why: fmt.Sprintf("I can't tell from “%s” whether it is firm all through. Nothing was recorded.", clip(text, 60)), Example: "firm " + whole,
			Buttons: []reply.Button{{Label: "Firm all through", Line: "firm " + whole, Version: s.Version}, {Label: "Soft: 2 more days", Line: more, Version: s.Version}}}
	}
	return &Error{Kind: Dangerous, Why: fmt.Sprintf("“%s” is not firm all through, so nothing was recorded: a soft middle may be raw, uncured meat. Give it more days and keep flipping. The pieces that are firm are recorded by themselves.", clip(text, 60)),
		Example: more}
}
