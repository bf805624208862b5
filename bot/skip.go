package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// skip passes over a step with a reason.
func (t *Turn) skip(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.pieces("skip", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if old, done, err := t.changing(s); done || err != nil {
		return old, err
	}
	info, why, err := t.stepNamed(s, p.Rest)
	if err != nil {
		return r, err
	}
	if why == "" {
		return r, &Error{Kind: BadInput, Why: "Say why, so that you know next time.", Understood: "skip “" + string(info.Step) + "” of batch " + fmt.Sprint(s.Number),
			Example: fmt.Sprintf("skip %d %s, plain this time", s.Number, info.Step)}
	}
	of := wholeOr(s, p.Of)
	for _, letter := range of {
		if _, ok := s.Marked(info.Step, letter); ok {
			return r, &Error{Kind: NotNow, Why: fmt.Sprintf("%s: that step is behind it already.", t.pieceOrBatch(s, letter)), Example: fmt.Sprintf("batch %d", s.Number)}
		}
		if err := t.gateSkip(info.Step, s, letter, why); err != nil {
			return r, err
		}
	}
	if s, err = t.recordOf(s, of, course.Skip, course.Body{Step: info.Step, Text: clip(why, 300)}); err != nil {
		return r, err
	}
	r.Say(append(t.whoOf(s, of), ": skipped “", string(info.Step), "” (", clip(why, 300), ").")...)
	if info.Step == course.Firm {
		r.Say("Mind: without a cure check nobody knows that the middle is cured. Keep it cold, and cook it through before eating.")
	}
	if info.Step == course.Cooled || info.Step == course.Chilled {
		r.Say("Mind: slow cooling is where spores wake up; if it stood warm for hours, throw it away.")
	}
	return r, t.sayNext(&r, s)
}

// stepNamed reads the step a text starts with; none means the next one.
func (t *Turn) stepNamed(s course.State, text string) (course.Info, string, error) {
	word, rest := firstWord(text)
	word = strings.ToLower(strings.Trim(word, ",;:"))
	for _, info := range course.Steps() {
		for _, w := range append(stepWords(info.Step), string(info.Step)) {
			if w == word {
				return info, strings.TrimLeft(rest, ",;: "), nil
			}
		}
	}
	next, _, ok := s.Next()
	if !ok {
		return next, "", &Error{Kind: NotNow, Why: name(s) + " has no step left to skip.", Example: fmt.Sprintf("batch %d", s.Number)}
	}
	return next, strings.TrimPrefix(strings.TrimSpace(text), "because "), nil
}
