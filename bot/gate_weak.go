package bot

import (
	"fmt"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

const asFreshPork = "Keep it under 40 °F (4 °C) and cook it as fresh pork, to 145 °F (63 °C) and 3 minutes' rest (USDA)"

// gateWeak refuses the smoke to a piece that does not count as cured.
func (t *Turn) gateWeak(s course.State, p course.PieceState, n string) error {
	return &Error{Kind: Dangerous, Why: fmt.Sprintf("%s holds %s of nitrite, under the %s from which meat counts as cured [%s]. It must not be smoked, warm or cold: %s. %s. For bacon, cure another belly at a higher aim, such as nitrite 120 ppm.",
		t.pieceName(s, p.Letter), under(p.Ingoing), ppm(curemath.CuredFrom), curemath.CuredSource().String(), lowerFirst(warmSmoke), asFreshPork), Example: insteadOfSmoke(s, n)}
}

// insteadOfSmoke is what is typed of a piece that is not to be smoked: a batch of one
// ends, and of several the piece goes on without.
func insteadOfSmoke(s course.State, n string) string {
	if len(s.Pieces) == 1 {
		return "close " + n + " cooked as fresh pork"
	}
	return "skip " + n + " smoke, to be cooked as fresh pork"
}

// weakStep is what to do with a piece that waits for a smoke it must not get.
func weakStep(s course.State, p course.PieceState) []any {
	n := fmt.Sprintf("%d%s", s.Number, letterOnly(s, p.Letter))
	return []any{fmt.Sprintf("not into the smoke, with %s of nitrite, under the %s from which meat counts as cured [%s]. %s: ", under(p.Ingoing), ppm(curemath.CuredFrom), curemath.CuredSource().String(), asFreshPork), reply.Type(insteadOfSmoke(s, n))}
}

// tooWeak says whether a piece waits for a smoke it must not get.
func tooWeak(p course.PieceState) bool {
	next, ok := p.Next()
	return ok && next.Step == course.Smoking && !curemath.Cured(p.Ingoing)
}
