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

// otherBatch refuses a step told of two batches at once: each is looked at by
// itself.
func (t *Turn) otherBatch(step course.Step, s course.State, rest string) error {
	switch step {
	case course.Smoking, course.Smoked, course.Cooled, course.Sliced, course.Packed: // numbers that follow these are figures
		return nil
	}
	ref, _, ok, err := parse.Batch(strings.TrimPrefix(strings.TrimLeft(rest, " ,&+"), "and "))
	if err != nil || !ok || ref.Number == s.Number {
		return nil
	}
	other, err := t.Tx.Batch(t.Conv.ID, ref.Number)
	if err != nil {
		return nil
	}
	e := &Error{Kind: BadInput, Why: "One batch at a time: each wants its own look. Nothing is recorded yet.", Example: fmt.Sprintf("%s %d", step, s.Number)}
	for _, n := range []int{s.Number, other.Number} {
		e.Buttons = append(e.Buttons, reply.Button{Label: fmt.Sprintf("Batch %d", n), Line: fmt.Sprintf("%s %d", step, n)})
	}
	return e
}
