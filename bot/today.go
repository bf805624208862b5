package bot

import (
	"larderhand/bot/reply"
)

// today says for every running batch what it waits for and when its next ping
// comes.
func (t *Turn) today(string) (reply.Reply, error) {
	var r reply.Reply
	open, err := t.openBatches()
	if err != nil {
		return r, err
	}
	waiting := false
	for _, s := range open {
		rest := t.goesOn(s)
		next, pieces, ok := rest.Next()
		if !ok && len(rest.Pieces) == len(s.Pieces) {
			continue
		}
		waiting = true
		r.Par(reply.B(name(s)), ": ", t.standing(s), ".")
		if t.sayNoStep(&r, s); !ok {
			continue
		}
		if n := pieceNames(s, join(pieces)); n != "" {
			r.Say(n, ": ", stop(next.Ask))
		} else if !inCure(s) {
			r.Say("Next: ", stop(next.Ask))
		}
		if err := t.sayNextPing(&r, s); err != nil {
			return r, err
		}
	}
	if !waiting {
		r.Say("Nothing waits for you. Start something with a weight: ", reply.Type("5 lb juniper 1.5 in"))
	}
	return r, nil
}
