package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
)

// "b" or "piece b" at the start of a line; "a" and "i" are words too and count only
// alone.
var letterFirst = regexp.MustCompile(`(?i)^(?:(piece)\s+)?([a-z])(?:\s+(.+))?$`)

// byLetter finds the batch of a piece named without its number: the only running
// one that has it. ok is false where the line starts with no letter of a piece.
func (t *Turn) byLetter(cmd, args string, fits func(course.State) bool) (p pick, ok bool, err error) {
	m := letterFirst.FindStringSubmatch(strings.TrimSpace(args))
	if m == nil || m[1] == "" && m[3] != "" && strings.Contains("aiAI", m[2]) {
		return p, false, nil
	}
	letter := strings.ToLower(m[2])
	open, err := t.openBatches()
	if err != nil {
		return p, false, err
	}
	if t.Msg.here != 0 { // in a batch's own place no other is meant
		open = slices.DeleteFunc(open, func(s course.State) bool { return s.Number != t.Msg.here })
	}
	have := slices.DeleteFunc(slices.Clone(open), func(s course.State) bool { return len(s.Pieces) < 2 || !hasPiece(s, letter) })
	if len(have) > 1 && fits != nil {
		if narrow := slices.DeleteFunc(slices.Clone(have), func(s course.State) bool { return !fits(s) }); len(narrow) > 0 {
			have = narrow
		}
	}
	switch len(have) {
	case 0:
		for _, s := range open {
			for _, l := range s.Lost {
				if l.Letter == letter {
					return p, false, t.thrownAway(s, l)
				}
			}
		}
		if m[3] == "" && len(open) > 0 && !slices.ContainsFunc(open, func(s course.State) bool { return hasPiece(s, letter) }) {
			return p, false, &Error{Kind: NoSuch, Why: fmt.Sprintf("No running batch has a piece %s.", letter), Example: "batches"}
		}
		return p, false, nil
	case 1:
		return pick{State: have[0], Letter: letter, Rest: m[3]}, true, nil
	}
	e := &Error{Kind: BadInput, Why: fmt.Sprintf("Piece %s of which batch?", letter), Example: strings.TrimSpace(fmt.Sprintf("%s %d%s %s", cmd, have[0].Number, letter, m[3]))}
	for _, s := range have[:min(len(have), 5)] {
		e.Buttons = append(e.Buttons, reply.Button{Label: fmt.Sprintf("%d%s · %s", s.Number, letter, clip(orElse(flavours(s), "plain"), 24)),
			Line: strings.TrimSpace(fmt.Sprintf("%s %d%s %s", cmd, s.Number, letter, m[3])), Version: s.Version})
	}
	return p, false, e
}

// numbersFollow says whether the numbers after a step are figures of it.
func numbersFollow(step course.Step) bool {
	switch step {
	case course.Smoking, course.Smoked, course.Cooled, course.Sliced, course.Packed:
		return true
	}
	return false
}

var everyBatch = regexp.MustCompile(`(?i)^\s*(?:both|all(?:\s+of\s+them)?|all\s+(?:the\s+)?batches|both\s+batches)\s*$`)

// oneBatch refuses a step told of several batches at once, as "1,2" or "both": each is
// looked at by itself.
func (t *Turn) oneBatch(step course.Step, args string, fits func(course.State) bool) error {
	if numbersFollow(step) {
		return nil
	}
	var list []int
	switch {
	case several.MatchString(args):
		for _, n := range numbers.FindAllString(args, -1) {
			number, err := strconv.Atoi(n)
			if err != nil {
				return nil
			}
			if _, err := t.Tx.Batch(t.Conv.ID, number); err != nil {
				return t.noBatch(string(step), number)
			}
			if !slices.Contains(list, number) {
				list = append(list, number)
			}
		}
	case everyBatch.MatchString(args):
		open, err := t.openBatches()
		if err != nil {
			return err
		}
		for _, s := range open {
			if fits(s) {
				list = append(list, s.Number)
			}
		}
	}
	if len(list) < 2 {
		return nil
	}
	return oneAtATime(step, list)
}

func oneAtATime(step course.Step, list []int) error {
	e := &Error{Kind: BadInput, Why: "One batch at a time: each wants its own look. Nothing is recorded yet.", Example: fmt.Sprintf("%s %d", step, list[0])}
	for _, n := range list[:min(len(list), 5)] {
		e.Buttons = append(e.Buttons, reply.Button{Label: fmt.Sprintf("Batch %d", n), Line: fmt.Sprintf("%s %d", step, n)})
	}
	return e
}

// otherBatch refuses a second batch named after the first: "1 and 2", "1a, 2b".
func (t *Turn) otherBatch(step course.Step, s course.State, rest string) error {
	if numbersFollow(step) {
		return nil
	}
	ref, more, ok, err := parse.Batch(strings.TrimSpace(joints.ReplaceAllString(rest, "")))
	if err != nil || !ok || ref.Number == s.Number {
		return nil
	}
	if _, err := t.Tx.Batch(t.Conv.ID, ref.Number); err != nil {
		if own := step == course.Season || step == course.Fried; own && more != "" { // "3 juniper berries"
			return nil
		}
		return t.noBatch(string(step), ref.Number)
	}
	return oneAtATime(step, []int{s.Number, ref.Number})
}
