package bot

import (
	"fmt"
	"slices"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// warmAgain refuses a step of a piece whose newest core is over the end of its cooling
// again.
func (t *Turn) warmAgain(s course.State, p course.PieceState, c curemath.Cooling, n string) error {
	w := c.Windows[len(c.Windows)-1]
	cores := s.Cores(p.Letter)
	return &Error{Kind: Dangerous, Why: fmt.Sprintf("%s is warm again: its newest core is %s, over %s. %s", t.pieceName(s, p.Letter), t.units().temp(cores[len(cores)-1].Temp), t.units().temp(w.Window.To), coolNow),
		Example: fmt.Sprintf("core %s %s", n, t.plainTemp(41))}
}

// anyWarm says whether a piece, or the one asked about, is warm again.
func (t *Turn) anyWarm(s course.State, letter string) bool {
	for _, p := range s.Pieces {
		if c, ok := s.CoolingOf(p.Letter, t.Now); ok && (letter == "" || letter == p.Letter) && c.Verdict == curemath.CoolingWarmAgain {
			return true
		}
	}
	return false
}

// warmPing says it in a ping; false if the piece is not warm again.
func (t *Turn) warmPing(r *reply.Reply, s course.State, letter, one string, head reply.Span, of string, core reply.Span) bool {
	c, ok := s.CoolingOf(letter, t.Now)
	if !ok || c.Verdict != curemath.CoolingWarmAgain {
		return false
	}
	r.Par(head, of, ": warm again. ", t.windowLine(c.Windows[len(c.Windows)-1]))
	r.Say(coolNow, " ", core, ", or ", reply.Type(fmt.Sprintf("discard %d%s warm again", s.Number, one)), ".")
	return true
}

// warmPings says it of several pieces, with how the others stand; false if none is
// warm again.
func (t *Turn) warmPings(r *reply.Reply, s course.State, of []string, head reply.Span, named string) bool {
	var warm []curemath.WindowCheck
	var letters []string
	for _, letter := range of {
		if c, ok := s.CoolingOf(letter, t.Now); ok && c.Verdict == curemath.CoolingWarmAgain {
			warm, letters = append(warm, c.Windows[len(c.Windows)-1]), append(letters, letter)
		}
	}
	if len(warm) == 0 {
		return false
	}
	r.Par(head, named, ": warm again.")
	ask, throw := fmt.Sprintf("%d core", s.Number), []any{}
	for i, w := range warm {
		r.Say(letters[i], ": ", t.windowLine(w))
		ask += fmt.Sprintf(" %s %s", letters[i], t.plainTemp(w.Window.To-4))
		throw = append(throw, ", or ", reply.Type(fmt.Sprintf("discard %d%s warm again", s.Number, letters[i])))
	}
	r.Say(append(append([]any{coolNow, " ", reply.Type(ask)}, throw...), ".")...)
	if len(letters) < len(of) {
		t.sayCoolings(r, s, slices.DeleteFunc(slices.Clone(of), func(l string) bool { return slices.Contains(letters, l) }))
	}
	return true
}
