package bot

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

// pick is the batch and piece a line speaks of, and what it says about it.
type pick struct {
	State  course.State
	Letter string // empty: the whole batch
	Rest   string
}

// which finds the batch a line names. With no number it is the only batch that
// fits; when several fit it asks.
func (t *Turn) which(cmd, args string, fits func(course.State) bool) (pick, error) {
	ref, rest, ok, err := parse.Batch(args)
	if err != nil {
		return pick{}, err
	}
	if !ok {
		if p, ok, err := t.byLetter(cmd, args, fits); ok || err != nil {
			return p, err
		}
		return t.onlyOne(cmd, args, fits)
	}
	b, err := t.Tx.Batch(t.Conv.ID, ref.Number)
	if errors.Is(err, store.ErrNotFound) {
		return pick{}, t.noBatch(cmd, ref.Number)
	}
	if err != nil {
		return pick{}, err
	}
	s, err := load(t.Tx, b)
	if err != nil {
		return pick{}, err
	}
	if ref.Piece != "" {
		for _, l := range s.Lost {
			if l.Letter == ref.Piece {
				return pick{}, t.thrownAway(s, l)
			}
		}
		if _, ok := s.Find(ref.Piece); !ok {
			return pick{}, &Error{Kind: NoSuch, Why: fmt.Sprintf("%s has no piece %s; it has %s.", name(s), ref.Piece, letters(s)),
				Example: strings.TrimSpace(fmt.Sprintf("%s %d%s %s", cmd, ref.Number, s.Pieces[0].Letter, clip(rest, 40)))}
		}
	}
	return pick{State: s, Letter: ref.Piece, Rest: rest}, nil
}

func (t *Turn) onlyOne(cmd, args string, fits func(course.State) bool) (pick, error) {
	if p, ok, err := t.inPlace(args); ok || err != nil {
		return p, err
	}
	open, err := t.openBatches()
	if err != nil {
		return pick{}, err
	}
	var found []course.State
	for _, s := range open {
		if fits == nil || fits(s) {
			found = append(found, s)
		}
	}
	switch {
	case len(found) == 1:
		return pick{State: found[0], Rest: args}, nil
	case len(open) == 0:
		return pick{}, &Error{Kind: NoSuch, Why: "There is no batch here yet. Start one with a weight.", Example: "5 lb juniper 1.5 in"}
	case len(found) == 0 && len(open) == 1: // it does not fit, and whoever asked will say why
		return pick{State: open[0], Rest: args}, nil
	case len(found) == 0:
		found = open
	}
	e := &Error{Kind: BadInput, Why: "Which batch?", Example: strings.TrimSpace(fmt.Sprintf("%s %d %s", cmd, found[0].Number, clip(args, 60)))}
	if said, s, ok := numberLast(args, open); ok {
		e.Example = strings.TrimSpace(fmt.Sprintf("%s %d %s", cmd, s.Number, clip(said, 60)))
	}
	for _, s := range found[:min(len(found), 5)] {
		e.Buttons = append(e.Buttons, reply.Button{Label: fmt.Sprintf("%d · %s", s.Number, clip(orElse(flavours(s), "plain"), 24)),
			Line: strings.TrimSpace(fmt.Sprintf("%s %d %s", cmd, s.Number, args)), Version: s.Version})
	}
	return pick{}, e
}

// numberLast finds a running batch named at the end of a line, as in "glaze 2".
func numberLast(args string, open []course.State) (said string, s course.State, ok bool) {
	i := strings.LastIndexAny(args, " #")
	if i < 0 {
		return args, s, false
	}
	n, err := strconv.Atoi(args[i+1:])
	if err != nil {
		return args, s, false
	}
	at := slices.IndexFunc(open, func(s course.State) bool { return s.Number == n })
	if at < 0 {
		return args, s, false
	}
	return strings.TrimRight(args[:i], " #"), open[at], true
}

func (t *Turn) noBatch(cmd string, number int) error {
	e := &Error{Kind: NoSuch, Why: fmt.Sprintf("There is no batch %d here.", number), Example: "batches"}
	open, err := t.openBatches()
	if err != nil {
		return err
	}
	if len(open) > 0 {
		var list []string
		for _, s := range open {
			list = append(list, fmt.Sprint(s.Number))
		}
		e.Why += " Running: " + strings.Join(list, ", ") + "."
		e.Example = fmt.Sprintf("%s %d", cmd, open[0].Number)
	}
	return e
}

// openBatches reads the batches that have not ended: none while the books are shut.
func (t *Turn) openBatches() ([]course.State, error) {
	if t.Tx == nil {
		return nil, nil
	}
	list, err := t.Tx.Batches(t.Conv.ID, false)
	if err != nil {
		return nil, err
	}
	out := make([]course.State, 0, len(list))
	for _, b := range list {
		s, err := load(t.Tx, b)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

func letters(s course.State) string {
	var list []string
	for _, p := range s.Pieces {
		list = append(list, p.Letter)
	}
	return strings.Join(list, ", ")
}

// ended refuses to go on with a batch that has ended.
func ended(s course.State) error {
	if s.End == "" {
		return nil
	}
	return &Error{Kind: NotNow, Why: fmt.Sprintf("%s is %s, so there is nothing more to record.", name(s), s.End),
		Example: fmt.Sprintf("undo %d", s.Number)}
}

// changing holds back what would change a batch: the sender may not, the button is
// from earlier, or the batch has ended. done says that the reply is all there is.
func (t *Turn) changing(s course.State) (r reply.Reply, done bool, err error) {
	if err := t.mayChange(s); err != nil {
		return r, true, err
	}
	if old, stale := t.stale(s); stale {
		return old, true, nil
	}
	return r, false, ended(s)
}

// stale answers a press on a button made before something changed: how things
// stand, and that nothing was changed.
func (t *Turn) stale(s course.State) (reply.Reply, bool) {
	var r reply.Reply
	if t.Msg.Press == nil || t.Msg.Press.Version == 0 || t.Msg.Press.Version == s.Version {
		return r, false
	}
	r.Say("That button is from earlier; nothing was changed.")
	r.Say(reply.B(name(s)), " is ", t.standing(s), ".")
	r.Private = true
	return r, true
}

// withValue adds to the buttons of "Which batch?" and to its example what was to be
// done with it.
func withValue(err error, value string) error {
	var e *Error
	if errors.As(err, &e) && value != "" && len(e.Buttons) > 0 {
		for i := range e.Buttons {
			e.Buttons[i].Line = strings.TrimSpace(e.Buttons[i].Line + " " + value)
		}
		e.Example = strings.TrimSpace(e.Example + " " + clip(value, 60))
	}
	return err
}
