package bot

import (
	"fmt"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/scheduler/plan"
)

// soak records that pieces were soaked; the test slice is then due again.
func (t *Turn) soak(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.pieces("soak", args, waitsFor(course.Fried))
	if err != nil {
		return r, err
	}
	s := p.State
	if old, done, err := t.changing(s); done || err != nil {
		return old, err
	}
	of := wholeOr(s, p.Of)
	for _, letter := range of {
		if _, ok := s.Marked(course.Rinsed, letter); !ok {
			return r, &Error{Kind: NotNow, Why: t.pieceOrBatch(s, letter) + " is not rinsed yet; soaking comes after a fried slice tasted too salty.", Example: fmt.Sprintf("rinse %d%s", s.Number, letter)}
		}
	}
	d, err := parse.Duration(orElse(p.Rest, "45 min"))
	if err != nil || d < 5*time.Minute || d > 4*time.Hour {
		return r, &Error{Kind: BadInput, Why: "A soak takes from 5 minutes to 4 hours, in cold water in the fridge; half an hour to two is usual (common practice, no source).", Example: fmt.Sprintf("soak %d%s 45 min", s.Number, of[0])}
	}
	if s, err = t.recordOf(s, of, course.Soak, course.Body{Minutes: int(d / time.Minute)}); err != nil {
		return r, err
	}
	r.Say(append(t.whoOf(s, of), ": soaking for ", howLong(d), ", until ", t.dayHour(t.Now.Add(d)), ". Keep it in the fridge, then fry another slice.")...)
	return r, t.sayNext(&r, s)
}

// longer gives the cure more days.
func (t *Turn) longer(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("longer", args, inCure)
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
	past := max(plan.DateOf(t.Now, t.Loc).DaysSince(s.CheckDate(t.Loc)), 0)
	s, err = t.record(s.Batch, p.Letter, course.Longer, t.Now, course.Body{Days: days + past})
	if err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), ": ", count(days, "more day"), "; now ", day(s, t.Now, t.Loc), ", cure check ", dateText(s.CheckDate(t.Loc)), ".")
	return r, nil
}

// mostLonger is how many days a cure can be given more at once: our own choice, common
// practice, no source.
const mostLonger = 14
