package bot

import (
	"regexp"
	"strings"

	"larderhand/bot/course"
)

// articleBefore says which word makes an "a" before it a part of the sentence rather
// than a piece, or "".
func articleBefore(cmd string, s course.State, after string) string {
	if ends(after) || sign.MatchString(after) {
		return ""
	}
	if m := joined.FindStringSubmatch(after); m != nil {
		return ""
	}
	if m := bareLetter.FindStringSubmatch(after); m != nil && hasPiece(s, strings.ToLower(m[1])) {
		return ""
	}
	word, _ := firstWord(after)
	plain := bareWord(word)
	if isSmall(word) || !afterPiece.MatchString(plain) && !ownWord.MatchString(cmd+" "+plain) {
		return word
	}
	return ""
}

// smallAmount matches what an "a" before it makes an amount: "a bit salty".
const smallAmount = `bit|little|lot|touch|tad|few|hair|hint|shade`

var (
	bareLetter = regexp.MustCompile(`(?i)^\s+([a-z])(?:$|[\s,;:.&+/=)])`)
	small      = regexp.MustCompile(`^(?:` + smallAmount + `|while|slight|slightly|couple|half|full|quarter|quick|short|long|second|third|thin|thick|slice|good|proper|day|week|hour|minute|night|thorough|gentle|light|heavy)$`)
	// What a command reads after the piece.
	ownWord = regexp.MustCompile(`^(?:cooled cold|pack vacuum|weigh (?:green|fresh|cured|rubbed|smoked|dried)|label sheet)$`)
	// What follows a piece and hardly the article.
	afterPiece = regexp.MustCompile(`^(?:is|was|are|has|had|got|gets|needs?|nothing|none|plain|with|in|on|at|from|too|well|fine|ok|okay|done|early|only|all|not|no|tastes?|tasted|smells?|smelled|smelt|feels?|felt|looks?|looked|today|yesterday|now|again|very|still|also|same|like|because|firm|rinse|fry|dry|tacky|season|smoke|smoked|cooled|chilled|slice|pack|core|frozen|salty|soft|sour)$`)
)

func bareWord(word string) string { return strings.ToLower(strings.Trim(word, ",.;:!")) }

// isSmall says whether an "a" before a word makes it an amount or a kind: "a bit".
func isSmall(word string) bool { return small.MatchString(bareWord(word)) }

// freeText says whether what follows a command is a person's own words, in which an
// "a" is mostly the article.
func freeText(cmd string) bool {
	switch cmd {
	case string(course.Season), string(course.Smoking), "note", "taste", "discard", "close":
		return true
	}
	return false
}

// article says whether an "a" further on in a line is the word. For a cure check it is
// hardly ever taken for it: "fine but a gives".
func article(cmd string, s course.State, before, after string) bool {
	if cmd == string(course.Packed) && inA.MatchString(before) { // "in a vacuum bag"
		return true
	}
	word := articleBefore(cmd, s, after)
	return word != "" && (cmd != string(course.Firm) || isSmall(word))
}

var inA = regexp.MustCompile(`(?i)\b(?:in|into|with|on)\s+$`)
