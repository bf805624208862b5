package bot

import (
	"fmt"
	"slices"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/scheduler/plan"
)

// longer gives pieces more days in the cure: those named, or all that are in it still.
func (t *Turn) longer(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.pieces("longer", args, inCure)
	if err != nil {
		return r, err
	}
	s := p.State
	if old, done, err := t.changing(s); done || err != nil {
		return old, err
	}
	if !inBag(s) {
		return r, &Error{Kind: NotNow, Why: name(s) + " is past its cure.", Example: fmt.Sprintf("batch %d", s.Number)}
	}
	d, err := parse.Duration(orElse(p.Rest, "1 day"))
	days := int(d / (24 * time.Hour))
	if err != nil || days < 1 || days > mostLonger {
		return r, &Error{Kind: BadInput, Why: fmt.Sprintf("I can add from 1 to %d days.", mostLonger), Example: fmt.Sprintf("longer %d 2 days", s.Number)}
	}
	list, of, err := t.lengthened(s, p.Of, days)
	if err != nil {
		return r, err
	}
	if err := t.writeEach(s.Batch, list, course.Longer, t.Now); err != nil {
		return r, err
	}
	if s, err = replan(t.Tx, t.Conv, t.Loc, s.Batch); err != nil {
		return r, err
	}
	more := count(days, "more day")
	if len(p.Of) == 0 && len(of) > 1 {
		more += " for every piece in the cure"
	}
	if len(of) == 1 {
		r.Say(reply.B(t.pieceName(s, of[0])), ": ", more, "; now ", dayOf(s, of[0], t.Now, t.Loc), ", cure check ", dateText(s.CheckDateOf(of[0], t.Loc)), ".")
	} else {
		r.Say(append(t.whoOf(s, of), ": ", more, "; now ", dayOf(s, longestOf(s, join(of)), t.Now, t.Loc), ", cure check ", t.checkDates(s), ".")...)
	}
	return r, nil
}

// lengthened are the entries that give pieces more days from today, or from their cure
// check if that is still to come: one for the batch, where that comes to the same for
// all. of are the pieces.
func (t *Turn) lengthened(s course.State, named []string, days int) (list []entry, of []string, err error) {
	same := true
	for _, p := range s.Pieces {
		if len(named) > 0 && !slices.Contains(named, p.Letter) {
			continue
		}
		if p.Has(course.Firm) {
			if len(named) > 0 {
				return nil, nil, &Error{Kind: NotNow, Why: t.pieceName(s, p.Letter) + " is past its cure.", Example: fmt.Sprintf("batch %d", s.Number)}
			}
			same = false
			continue
		}
		past := max(plan.DateOf(t.Now, t.Loc).DaysSince(s.CheckDateOf(p.Letter, t.Loc)), 0)
		list = append(list, entry{[]string{p.Letter}, course.Body{Days: days + past}})
		same = same && list[0].body.Days == days+past
		of = append(of, p.Letter)
	}
	if len(list) > 0 && same && (len(named) == 0 || len(s.Batch.Pieces) == 1) {
		list = []entry{{[]string{""}, list[0].body}}
	}
	return list, of, nil
}

// mostLonger is how many days a cure can be given more at once: our own choice, common
// practice, no source.
const mostLonger = 14
