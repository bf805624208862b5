package bot

import (
	"regexp"
	"strings"

	"larderhand/bot/course"
)

var (
	// "a and c": what follows is mostly said of both. "a, c" and "a; c" may begin anew.
	andJoint = regexp.MustCompile(`(?i)^\s*(?:&|\+|/|and\b)\s*$`)
	// What sets a piece apart from those before it.
	apart = regexp.MustCompile(`(?i)^(?:is|isn|isnt|was|wasn|wasnt|has|hasn|hasnt|had|hadn|looks|look|seems|smells|tastes|feels|needs|need|wants|want|gets|gives|leaks|stays|remains|goes|does|doesn|doesnt|did|didn|will|won|wont|would|can|can['’]?t|cannot|could|should|must|may|might|waits?|waiting|to|later|tomorrow|tonight|next|after|another|more|longer|not|no|nope|never|none|nothing|yet|still|but|only|unless|except|maybe|perhaps|probably|almost|nearly|hardly|barely|instead|though|however|unsure|under|over|too|a|one)\b|^\?`)
	// Words that say yes to a step, and nothing else.
	plainYes  = regexp.MustCompile(`(?i)^(?:(?:yes|yep|fine|ok|okay|good|great|well|done|firm|rinsed|dry|tacky|cooled|chilled|cold|all|both|through|throughout|the|way|in|at|everywhere|middle|centre|center|ends?|as|also|now|very|nice|nicely|and)\b[\s,.!]*)+$`)
	earlyWhy  = regexp.MustCompile(`(?i)^early\s*(?:$|[,:;.–—-])`)
	kept      = regexp.MustCompile(`(?i)^(?:fine|ok|okay|good|right|great|well|firm|kept?|keeps|sound)\b`)
	markFirst = regexp.MustCompile(`^(?:\s*[:=,;.)–—]|\s*-\s)+`)
	timeFirst = regexp.MustCompile(`(?i)^(?:at\s+\d|today\b|yesterday\b|\d)`)
)

// sharesWords says whether the words after one more letter are plainly said of it as
// of the letters before it: "a and c fine", "a, c". In "a, c needs more days" they may
// leave it out.
func sharesWords(cmd string, s course.State, joint, after string) bool {
	text := strings.TrimSpace(after)
	if text == "" || listGoesOn(cmd, s, after) {
		return true
	}
	words := strings.TrimSpace(markFirst.ReplaceAllString(after, ""))
	step, freely := course.Step(cmd), freeText(cmd) || cmd == "skip"
	switch {
	case words == "" || timeFirst.MatchString(words):
		return true
	case step == course.Season && strings.EqualFold(words, "nothing"):
		return true
	case apart.MatchString(words) || cmd == "discard" && kept.MatchString(words):
		return false
	case !freely && (plainYes.MatchString(words) || earlyWhy.MatchString(words)):
		return true
	case words != text: // "a, c: honey"
		return step != course.Firm
	}
	return andJoint.MatchString(joint) && step != course.Firm
}

// listGoesOn says whether one more letter follows, with or without its number.
func listGoesOn(cmd string, s course.State, after string) bool {
	m := nextInList.FindStringSubmatchIndex(after)
	if m == nil {
		return false
	}
	letter := strings.ToLower(after[m[2]:m[3]])
	return hasPiece(s, letter) && (letter != "a" && letter != "i" || articleBefore(cmd, s, after[m[3]:]) == "")
}

var nextInList = regexp.MustCompile(`(?i)^\s*(?:(?:[,;&+/]|and\b)\s*)*(?:pieces?\s+)?(?:\d+)?([a-z])(?:$|[\s,;:.&+/=)])`)
