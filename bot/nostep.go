package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// noStep is what to do with a piece that has no next step though it is not packed:
// with what is lost, and with what would go into a smoke it must not get.
func (t *Turn) noStep(s course.State, p course.PieceState) ([]any, bool) {
	if l, ok := t.lossOf(s, p); ok {
		n := fmt.Sprintf("%d%s", s.Number, letterOnly(s, p.Letter))
		return []any{"throw it away, ", l.mark, ": ", reply.Type("discard " + n + " " + l.why), ". Was a reading wrong? ", reply.Type(fmt.Sprintf("strike %d", s.Number))}, true
	}
	if tooWeak(p) {
		return weakStep(s, p), true
	}
	return nil, false
}

// sayNoStep says what is next for such pieces.
func (t *Turn) sayNoStep(r *reply.Reply, s course.State) {
	for _, p := range s.Pieces {
		line, ok := t.noStep(s, p)
		if !ok {
			continue
		}
		who := ""
		if len(s.Pieces) > 1 {
			who = pieceNames(s, p.Letter) + ": "
		}
		r.Say(append([]any{"Next: ", who}, line...)...)
	}
}

// goesOn is a batch without such pieces: what a step is next for.
func (t *Turn) goesOn(s course.State) course.State {
	rest := s
	rest.Pieces = nil
	for _, p := range s.Pieces {
		if _, ok := t.noStep(s, p); !ok {
			rest.Pieces = append(rest.Pieces, p)
		}
	}
	return rest
}

// targetOf is how the pieces a step is recorded of are named behind it: with their
// letters where others that do not go on wait for it too.
func targetOf(s course.State, step course.Step, pieces []string) string {
	waiting := 0
	for _, p := range s.Pieces {
		if next, ok := p.Next(); ok && next.Step == step {
			waiting++
		}
	}
	n := fmt.Sprint(s.Number)
	switch {
	case len(pieces) == 1 && len(s.Pieces) > 1:
		return n + pieces[0]
	case len(pieces) < waiting:
		return n + " " + strings.Join(pieces, " and ")
	}
	return n
}

func pieceLetters(s course.State) []string {
	var out []string
	for _, p := range s.Pieces {
		out = append(out, p.Letter)
	}
	return out
}
