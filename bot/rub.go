package bot

import (
	"fmt"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

func rubCommands() []Command {
	return []Command{{Name: "rub", Also: []string{"rubbed"}, Group: groupDaily, Form: "rub 3", Help: "record the next rub of a box cure", Example: "rub 1", Batch: true, Run: (*Turn).rub}}
}

// rubText says which go of a box cure is due and what to weigh for it.
func rubText(s course.State) string {
	if s.RubsDone >= len(s.Plan.Rubs) {
		return "all rubs are on."
	}
	r := s.Plan.Rubs[s.RubsDone]
	return fmt.Sprintf("rub %d of %d today: %s mix, %s salt, %s sugar.", s.RubsDone+1, len(s.Plan.Rubs), grams(r.Mix, weighedDecimals(r.Mix)), grams(r.Salt, 0), grams(r.Sugar, 0))
}

// rub records a go of a box cure. Rubbing one on before its day is allowed: it is
// the same cure in all.
func (t *Turn) rub(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("rub", args, func(s course.State) bool { return s.RubsDone < len(s.Plan.Rubs) })
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.permit(logs, s); err != nil {
		return r, err
	}
	if old, stale := t.stale(s); stale {
		return old, nil
	}
	if err := ended(s); err != nil {
		return r, err
	}
	if s.RubsDone >= len(s.Plan.Rubs) {
		why := name(s) + " is no box cure, so there is nothing to rub on again."
		if len(s.Plan.Rubs) > 0 {
			why = fmt.Sprintf("All %d rubs of %s are on; never rub on more than was weighed for it.", len(s.Plan.Rubs), name(s))
		}
		return r, &Error{Kind: NotNow, Why: why, Example: fmt.Sprintf("flip %d", s.Number)}
	}
	on := s.RubsDone + 1
	at, err := t.when(s, p.Rest)
	if err != nil {
		return r, err
	}
	if s, err = t.record(s.Batch, "", course.Rub, at, course.Body{}); err != nil {
		return r, err
	}
	r.Replace = t.Msg.Press != nil
	r.Say(reply.B(name(s)), fmt.Sprintf(": rub %d of %d is on, ", on, len(s.Plan.Rubs)), day(s, at, t.Loc), ".")
	return r, t.sayNextPing(&r, s)
}
