package bot

import (
	"fmt"
	"time"

	"larderhand/bot/course"
	"larderhand/curemath"
	"larderhand/store"
)

// gateWaiting refuses a step of a piece while a core read of it since the smoke, over
// the end of its cooling, waits for a word: it must not be passed over. A person's own waits
// until it is kept or left out. One that somebody else was asked about waits no longer
// than to the next core of the piece, since only they can answer.
func (t *Turn) gateWaiting(s course.State, p course.PieceState, n string) error {
	out, ok := p.Marks[course.Smoked]
	if !ok || out.Skipped {
		return nil
	}
	members, err := t.Tx.Members(t.Conv.ID)
	if err != nil {
		return err
	}
	for _, m := range members {
		core, at, err := t.coreAsked(s, p.Letter, m, func(core curemath.Fahrenheit) bool { return core > coldEnd(p) })
		switch {
		case err != nil:
			return err
		case !at.After(out.At):
			continue
		}
		why := fmt.Sprintf("A core of %s read at %s (%s) waits for a word: is it right?", t.pieceName(s, p.Letter), at.In(t.Loc).Format("Mon 15:04"), t.units().temp(core))
		if m.ID == t.Me.ID {
			return &Error{Kind: NotNow, Why: why + " Nothing was noted. Say keep if it is, or drop if it was a slip, and then this again.", Example: "keep"}
		}
		if cores := s.Cores(p.Letter); len(cores) > 0 && cores[len(cores)-1].At.After(at) {
			continue
		}
		return &Error{Kind: NotNow, Why: fmt.Sprintf("%s I asked %s. Nothing was noted; read the core once more, and that counts.", why, m.Name), Example: fmt.Sprintf("core %s %s", n, t.plainTemp(41))}
	}
	return nil
}

// coreAsked is the newest core of a piece, such as is looked for, that a member was asked
// about and has not answered; its time is zero where there is none.
func (t *Turn) coreAsked(s course.State, letter string, m store.Member, such func(curemath.Fahrenheit) bool) (core curemath.Fahrenheit, at time.Time, err error) {
	sl, err := slateOf(t.Tx, m.ID)
	if err != nil {
		return 0, at, err
	}
	for _, w := range sl.Waiting {
		for _, r := range w.Readings {
			if w.Batch == s.Number && r.Core != nil && such(*r.Core) && speaksOf(r.Piece, letter) && !r.At.Before(at) {
				core, at = *r.Core, r.At
			}
		}
	}
	return core, at, nil
}
