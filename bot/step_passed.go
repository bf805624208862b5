package bot

import (
	"fmt"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// sayPassed names the steps a record went past that nobody told of: done without a
// word, or forgotten. Seasoning and slicing are a matter of taste.
func sayPassed(r *reply.Reply, step course.Step, before course.State, list []entry) {
	for _, e := range list {
		for _, letter := range e.of {
			if letter == "" {
				letter = before.Pieces[0].Letter
			}
			p, ok := before.Find(letter)
			if !ok {
				continue
			}
			if passed := passedOver(p, step); len(passed) > 0 {
				r.Say("Not told before it: ", strings.Join(passed, ", "), ". If that was done all the same, good; if not: ", reply.Type(fmt.Sprintf("undo %d", before.Number)), ".")
				return
			}
		}
	}
}

// passedOver are the steps between a piece's furthest and one to come.
func passedOver(p course.PieceState, step course.Step) []string {
	next, ok := p.Next()
	if !ok || p.Past(step) {
		return nil
	}
	var out []string
	begun := false
	for _, info := range course.Steps() {
		begun = begun || info.Step == next.Step
		switch {
		case info.Step == step:
			return out
		case !begun, p.Has(info.Step):
		case !slices.Contains([]course.Step{course.Season, course.Sliced}, info.Step):
			out = append(out, string(info.Step))
		}
	}
	return nil
}
