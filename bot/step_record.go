package bot

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// done records the step a batch, or the pieces named, wait for.
func (t *Turn) done(args string) (reply.Reply, error) {
	p, err := t.pieces("done", args, func(s course.State) bool { _, _, ok := s.Next(); return ok })
	if err != nil {
		return reply.Reply{}, err
	}
	s := p.State
	if len(p.Of) == 0 {
		if err := whichStep(s); err != nil {
			return reply.Reply{}, err
		}
	}
	next, _, ok := s.Next()
	for i, letter := range p.Of {
		piece, _ := s.Find(letter)
		step, waits := piece.Next()
		if i > 0 && (waits != ok || step.Step != next.Step) {
			return reply.Reply{}, &Error{Kind: NotNow, Why: fmt.Sprintf("Pieces %s of %s wait for different steps; one at a time.", strings.Join(p.Of, ", "), name(s)), Example: fmt.Sprintf("done %d%s", s.Number, p.Of[0])}
		}
		next, ok = step, waits
	}
	if !ok {
		if err := ended(s); err != nil {
			return reply.Reply{}, err
		}
		return reply.Reply{}, &Error{Kind: NotNow, Why: name(s) + " is packed; nothing is left to do but eat it.", Example: fmt.Sprintf("batch %d", s.Number)}
	}
	return t.step(next.Step, args)
}

// whichStep asks which step is done where the pieces of a batch wait for different ones.
func whichStep(s course.State) error {
	var infos []course.Info
	of := map[course.Step][]string{}
	for _, p := range s.Pieces {
		next, ok := p.Next()
		if !ok || s.End != "" {
			continue
		}
		if len(of[next.Step]) == 0 {
			infos = append(infos, next)
		}
		of[next.Step] = append(of[next.Step], p.Letter)
	}
	if len(infos) < 2 {
		return nil
	}
	e := &Error{Kind: BadInput}
	var list []string
	for _, info := range infos {
		letters := of[info.Step]
		list = append(list, pieceNames(s, join(letters))+": "+strings.TrimRight(info.Ask, ".?"))
		line := fmt.Sprintf("%s %s", info.Step, targetOf(s, info.Step, letters))
		if len(e.Buttons) < 4 {
			e.Buttons = append(e.Buttons, reply.Button{Label: info.Press + " " + join(letters), Line: line, Version: s.Version})
		}
		e.Example = cmp.Or(e.Example, fmt.Sprintf("done %d%s", s.Number, letters[0]))
	}
	e.Why = fmt.Sprintf("The pieces of %s wait for different steps: %s. Which is done? Nothing was recorded.", name(s), strings.Join(list, "; "))
	return e
}

// step records that a step was done: now or at the time said, for the batch or
// the pieces named.
func (t *Turn) step(step course.Step, args string) (reply.Reply, error) {
	var r reply.Reply
	if err := t.oneBatch(step, args, waitsFor(step)); err != nil {
		return r, err
	}
	p, err := t.stepPieces(step, args)
	if err != nil {
		return r, err
	}
	s := p.State
	if old, done, err := t.changing(s); done || err != nil {
		return old, err
	}
	if err := t.otherBatch(step, s, p.Rest); err != nil {
		return r, err
	}
	text, at, err := t.timeAtEnd(s, p.Rest)
	if err != nil {
		return r, err
	}
	if err := notFirm(step, s, p.Of, text); err != nil {
		return r, err
	}
	list, err := t.entries(step, s, p.Of, text, at)
	if err != nil {
		return r, err
	}
	if done, all := t.already(step, s, &list); all {
		return done, nil
	}
	for _, e := range list {
		for _, letter := range e.of {
			if err := t.gate(step, s, letter, at, text); err != nil {
				return r, err
			}
		}
	}
	if step == course.Fried {
		if said, done, err := t.tasted(s, join(p.Of), text, at); done || err != nil {
			return said, err
		}
	}
	for _, e := range list {
		if e.body.Core != nil {
			if err := t.gateCore(step, s, e.of, *e.body.Core, at); err != nil {
				return r, err
			}
		}
		if step == course.Cooled {
			if err := t.gateCooled(s, e, at); err != nil {
				return r, err
			}
		}
	}
	if err := t.writeEach(s.Batch, list, string(step), at); err != nil {
		return r, err
	}
	before := s
	if s, err = replan(t.Tx, t.Conv, t.Loc, s.Batch); err != nil {
		return r, err
	}
	r.Replace = t.Msg.Press != nil
	t.sayDone(&r, step, before, s, p.Of, list)
	sayPassed(&r, step, before, list)
	t.afterStep(&r, step, s, list, at)
	if step == course.Smoked {
		if err := t.smokeEnded(&r, s); err != nil {
			return r, err
		}
	}
	var of []string
	for _, e := range list {
		of = append(of, e.of...)
	}
	return r, t.sayNextAfter(&r, s, of)
}

// sayDone names the pieces a step was recorded of, and those named that had it before.
func (t *Turn) sayDone(r *reply.Reply, step course.Step, before, s course.State, named []string, list []entry) {
	var of []string
	for _, e := range list {
		of = append(of, e.of...)
	}
	who := []any{reply.B(name(s))}
	if n := pieceNames(s, join(of)); n != "" {
		who = append(who, ", ", n)
	}
	r.Say(append(who, ": ", stepDone(step), ".")...)
	for _, letter := range named {
		if m, ok := before.Marked(step, letter); ok && !slices.Contains(of, letter) && !slices.Contains(of, "") {
			r.Say("Piece ", letter, " had that recorded ", t.dayHour(m.At), "; nothing changed for it.")
		}
	}
}

// stepPieces finds the pieces a step is told of. How slices taste is told piece by
// piece, so behind them only a list of letters alone is read here.
func (t *Turn) stepPieces(step course.Step, args string) (told, error) {
	if step != course.Fried {
		return t.pieces(string(step), args, waitsFor(step))
	}
	p, err := t.which(string(step), args, waitsFor(step))
	if err != nil {
		return told{}, err
	}
	if list, err := t.piecesOf(string(step), p); err == nil {
		if text, _, err := t.timeAtEnd(list.State, list.Rest); err == nil && text == "" {
			return list, nil
		}
	}
	if m := ofAll.FindStringSubmatch(p.Rest); m != nil && p.Letter == "" {
		p.Rest = m[1] + m[2]
		return told{pick: p}, nil
	}
	if m := aSmall.FindStringSubmatch(p.Rest); m != nil && p.Letter == "" && len(p.State.Pieces) > 1 && hasPiece(p.State, "a") {
		return told{}, t.whichPieces(string(step), p.State, p.Rest, "a "+m[1])
	}
	of := told{pick: p}
	if p.Letter != "" {
		of.Of = []string{p.Letter}
	}
	return of, nil
}

var aSmall = regexp.MustCompile(`(?i)^a\s+(` + smallAmount + `)\b`)

// already takes out of a list the pieces a step was recorded of before; all says that
// none is left, and how that stands.
func (t *Turn) already(step course.Step, s course.State, list *[]entry) (r reply.Reply, all bool) {
	var kept []entry
	var last course.Mark
	var of []string
	for _, e := range *list {
		of = append(of, e.of...)
		e.of = slices.DeleteFunc(slices.Clone(e.of), func(letter string) bool {
			m, ok := s.Marked(step, letter)
			if ok {
				last = m
			}
			return ok
		})
		if len(e.of) > 0 {
			kept = append(kept, e)
		}
	}
	*list = kept
	if len(kept) > 0 {
		return r, false
	}
	who := name(s)
	if n := pieceNames(s, join(of)); n != "" {
		who += ", " + n
	}
	r.Say(who, ": ", stepDone(step), " was recorded ", t.dayHour(last.At), "; nothing changed.")
	r.Say("To take it back: ", reply.Type(fmt.Sprintf("undo %d", s.Number)))
	r.Private = t.Msg.Press != nil
	return r, true
}

// meant are the pieces a step without a letter is recorded of: those that wait for
// it, where others do not yet or no more; else the batch as a whole.
func (t *Turn) meant(step course.Step, s course.State, of []string) []string {
	if len(of) > 0 && (step != course.Packed || len(of) < len(s.Batch.Pieces)) { // one weight of all pieces is the batch's
		return wholeOr(s, of)
	}
	if len(of) > 0 {
		return []string{""}
	}
	var waiting []string
	for _, p := range s.Pieces {
		if next, ok := p.Next(); ok && next.Step == step {
			waiting = append(waiting, p.Letter)
		}
	}
	if len(waiting) == 0 || len(waiting) == len(s.Batch.Pieces) { // what was thrown away may come back by undo
		return []string{""}
	}
	return waiting
}

// afterStep says what follows from what was recorded.
func (t *Turn) afterStep(r *reply.Reply, step course.Step, s course.State, list []entry, at time.Time) {
	switch step {
	case course.Firm:
		r.Say("The day rule and your own hand decide this; no model does.")
	case course.Smoking:
		t.saySmokeStart(r, s, list[0].body)
	case course.Smoked:
		t.sayCores(r, s, list)
		t.sayComeUp(r, s, list)
	case course.Cooled:
		for _, e := range list {
			for _, letter := range e.of {
				t.sayCooled(r, s, letter)
			}
		}
	case course.Sliced:
		t.saySlices(r, s, list[0].of, list[0].body)
	case course.Packed:
		t.sayPackedAll(r, s, list, at)
		for _, e := range list {
			t.sayUnshown(r, s, e.of)
		}
	}
}
