package bot

import (
	"fmt"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// sayLost says of the pieces that failed what is next for them, which is no step; rest
// are those to go on with.
func (t *Turn) sayLost(r *reply.Reply, s course.State, of []string) (rest []string) {
	for _, letter := range of {
		if len(t.coolingFailed(s, letter)) == 0 {
			rest = append(rest, letter)
			continue
		}
		n, who := fmt.Sprintf("%d%s", s.Number, letterOnly(s, letter)), ""
		if len(s.Pieces) > 1 {
			who = pieceNames(s, letter) + ": "
		}
		r.Say("Next: ", who, "throw it away, its cooling FAILED: ", reply.Type("discard "+n+" cooled too slowly"), ". Was a reading wrong? ", reply.Type(fmt.Sprintf("strike %d", s.Number)))
	}
	return rest
}

// targetOf is how the pieces a step is recorded of are named behind it, of those that
// wait for it.
func targetOf(s course.State, pieces, waiting []string) string {
	n := fmt.Sprint(s.Number)
	switch {
	case len(pieces) == 1 && len(s.Pieces) > 1:
		return n + pieces[0]
	case len(pieces) < len(waiting):
		for i, letter := range pieces {
			if i > 0 {
				n += " and"
			}
			n += " " + letter
		}
	}
	return n
}
