package bot

import (
	"fmt"

	"larderhand/bot/course"
)

// hot says whether readings of a batch mean something: any piece of it is in the smoke
// or out of it and not packed, wherever the others are.
func hot(s course.State) bool { return s.AnyIn(course.InSmoke) || s.AnyIn(course.Cooling) }

// onlyHot is the one piece that went into the smoke where others have not yet: a core
// told without a letter is its own.
func onlyHot(s course.State) string {
	letter, n := "", 0
	for _, p := range s.Pieces {
		if p.Has(course.Smoking) {
			letter, n = p.Letter, n+1
		}
	}
	if n != 1 || len(s.Pieces) == 1 {
		return ""
	}
	return letter
}

// warmSmoke is what is wrong with hours in the smoke without a cure, and warmUncured
// why meat is not warm before its own is through.
const (
	warmSmoke   = "Hours between 40 and 140 °F (4 and 60 °C) in smoke are where botulism starts (from memory)"
	warmUncured = warmSmoke + "; the cure has to be through first."
)

// notHot refuses a reading of what is not in the smoke. Of meat still in its cure it
// is a warning: if the reading is right, it is warm too soon.
func (t *Turn) notHot(s course.State, letter, why string) error {
	who, example := t.pieceOrBatch(s, letter), fmt.Sprintf("smoke %d%s", s.Number, letterOnly(s, letter))
	for _, p := range s.Pieces {
		if letter != "" && p.Letter != letter || p.Has(course.Firm) {
			continue
		}
		return &Error{Kind: Dangerous, Why: fmt.Sprintf("%s is still in its cure (%s), with no cure check; nothing was noted. %s If it is warm, put it back in the cold at once; if it has been for hours, or nobody knows, throw it away.", who, dayOf(s, p.Letter, t.Now, t.Loc), warmUncured),
			Example: fmt.Sprintf("batch %d", s.Number)}
	}
	if s.Stage() == course.Done {
		example = fmt.Sprintf("batch %d", s.Number)
	}
	stands := t.standing(s)
	if p, ok := s.Find(letter); ok && len(s.Pieces) > 1 {
		if next, ok := p.Next(); ok {
			stands = "next: " + next.Ask
		}
	}
	return &Error{Kind: NotNow, Why: fmt.Sprintf("%s is not in the smoke (%s)%s.", who, stands, why), Example: example}
}
