package bot

import (
	"fmt"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
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
