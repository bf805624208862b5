package bot

import (
	"fmt"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

func noteCommands() []Command {
	return []Command{
		{Name: "note", Also: []string{"remark"}, Own: true, Group: groupMend, Form: "note 3 smelled of juniper", Help: "keep a remark with a batch", Example: "note 1 bag was a bit loose", Batch: true, Files: true, Fields: []Field{{Name: "Remark", Example: "bag was a bit loose"}}, Run: (*Turn).note},
		{Name: "undo", Group: groupMend, Form: "undo 3", Help: "take back the last thing recorded", Example: "undo 1", Batch: true, Run: (*Turn).undo},
		{Name: "close", Own: true, Group: groupMend, Form: "close 3 all eaten", Help: "end a batch and its pings", Example: "close 1 all eaten", Batch: true, Fields: []Field{{Name: "Reason", Example: "all eaten", Optional: true}},
			Run: func(t *Turn, args string) (reply.Reply, error) { return t.end("close", course.Close, args) }},
		{Name: "discard", Also: []string{"bin"}, Own: true, Group: groupMend, Form: "discard 3 / discard 3b smelled sour", Help: "record that a batch or a piece was thrown away", Example: "discard 1 smelled sour", Batch: true, Fields: []Field{{Name: "Reason", Example: "smelled sour"}},
			Run: func(t *Turn, args string) (reply.Reply, error) { return t.end("discard", course.Discard, args) }},
	}
}

func (t *Turn) note(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.pieces("note", args, nil)
	if err != nil {
		return r, err
	}
	text, of := clip(p.Rest, maxText), wholeOr(p.State, p.Of)
	if text == "" {
		return r, &Error{Kind: BadInput, Why: "That note is empty.", Example: fmt.Sprintf("note %d bag was a bit loose", p.State.Number)}
	}
	s, err := t.recordOf(p.State, of, course.Note, course.Body{Text: text})
	if err != nil {
		return r, err
	}
	r.Say(append(append([]any{"Noted with "}, t.whoOf(s, of)...), ": ", text)...)
	if w, ok := t.worriedOf(pick{State: p.State, Letter: of[0]}, text); ok && s.End == "" && s.Stage() != course.Done {
		r.Append(w)
	}
	return r, nil
}

// undo strikes out the last entry that says something about where the batch
// stands. Nothing is deleted.
func (t *Turn) undo(args string) (reply.Reply, error) {
	var r reply.Reply
	p, ok, err := t.justEnded(args)
	if err == nil && !ok {
		p, err = t.which("undo", args, nil)
	}
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.mayChange(s); err != nil {
		return r, err
	}
	if old, stale := t.stale(s); stale {
		return old, nil
	}
	for i := len(s.Log) - 1; i >= 0; i-- {
		l := s.Log[i]
		if l.Kind == course.Keeper { // what was before is not the new keeper's to take back
			break
		}
		if l.Kind == course.Opened || l.Kind == course.Undo {
			continue
		}
		if p.Letter != "" && l.Piece != "" && l.Piece != p.Letter {
			continue
		}
		switch l.Kind { // what only the keeper may do only the keeper takes back
		case course.Close, course.Discard:
			err = t.permit(end, s)
		case course.Hand, course.Back, course.Allow:
			err = t.permit(give, s)
		}
		if err != nil {
			return r, err
		}
		together, of, piece, text := []course.Log{l}, "", l.Piece, entryText(l, t)
		if p.Letter == "" {
			together = inOneBreath(s.Log, i)
			if l.Kind == course.Reading {
				if together = toldWith(s.Log, l); len(together) > 1 {
					text = t.struckText(together)
				}
				slices.Reverse(together)
			}
		}
		for _, l := range together {
			if err := t.Tx.Strike(l.ID, t.Me.ID); err != nil {
				return r, err
			}
			of = l.Piece + of
		}
		if len(together) > 1 {
			piece = ""
		}
		if l.Kind == course.Struck {
			if err := t.bringBack(l); err != nil {
				return r, err
			}
		}
		if s, err = t.record(s.Batch, piece, course.Undo, t.Now, course.Body{Text: text}); err != nil {
			return r, err
		}
		who := ""
		if n := pieceNames(s, of); n != "" && l.Kind != course.Discard {
			who = ", " + n
		}
		r.Say(reply.B(name(s)), who, ": took back “", text, "” of ", t.dayHour(l.At), ". It is now ", t.standing(s), ".")
		return r, t.sayNext(&r, s)
	}
	return r, &Error{Kind: NotNow, Why: name(s) + " has nothing recorded to take back. To end it, close it.", Example: fmt.Sprintf("close %d opened by mistake", s.Number)}
}

// justEnded finds the batch whose end is the last thing the person recorded, for a line
// that names none: it is no longer among those running.
func (t *Turn) justEnded(args string) (last pick, ok bool, err error) {
	if strings.TrimSpace(args) != "" || t.Msg.here != 0 {
		return last, false, nil
	}
	list, err := t.Tx.Batches(t.Conv.ID, true)
	if err != nil {
		return last, false, err
	}
	newest := int64(0)
	for _, b := range list {
		s, err := load(t.Tx, b)
		if err != nil {
			return last, false, err
		}
		for _, l := range s.Log {
			if l.Member == t.Me.ID && l.ID > newest {
				newest, last = l.ID, pick{State: s}
			}
		}
	}
	return last, newest > 0 && last.State.End != "", nil
}

// entryText says in a few words what an entry recorded.
func entryText(l course.Log, t *Turn) string {
	switch l.Kind {
	case course.Flip:
		return "flipped"
	case course.Skip:
		return "skipped " + string(l.Body.Step)
	case course.Soak:
		return fmt.Sprintf("soaked %d min", l.Body.Minutes)
	case course.Thick:
		return "thickness " + t.units().thickness(l.Body.Thick)
	case course.Rub:
		return "rubbed"
	case course.Longer:
		return count(l.Body.Days, "more day")
	case course.Later:
		return "ping put off"
	case course.Note:
		return "note: " + clip(l.Body.Text, 60)
	case course.Taste:
		return "tasted: " + tasteText(l.Body)
	case course.Struck:
		return "struck out " + l.Body.Text
	case course.Close:
		return "closed"
	case course.Discard:
		if l.Piece != "" {
			return "piece " + l.Piece + " thrown away"
		}
		return "discarded"
	case course.Reading:
		return "reading: " + readingText(l.Body, t.units())
	}
	if info, ok := course.Describe(course.Step(l.Kind)); ok {
		return info.Done
	}
	return l.Kind
}
