package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

func pingsCommands() []Command {
	return []Command{{Name: "pings", Group: groupDaily, Form: "pings 3 off / on", Help: "stop or go on asking about a batch",
		Example: "pings 1 off", Batch: true, Fields: []Field{{Name: "On or off", Example: "off", Choices: []string{"off", "on"}}}, Run: (*Turn).pings}}
}

// pings stops or takes up the asking about one batch. Urgent words about a smoke
// or a cooling still come.
func (t *Turn) pings(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("pings", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := ended(s); err != nil {
		return r, err
	}
	word := strings.ToLower(strings.TrimSpace(p.Rest))
	if word != "on" && word != "off" {
		return r, &Error{Kind: BadInput, Why: "On or off?", Understood: "pings of " + name(s), Example: fmt.Sprintf("pings %d off", s.Number)}
	}
	if err := t.permit(change, s); err != nil {
		return r, err
	}
	if s, err = t.record(s.Batch, "", course.Pings, t.Now, course.Body{Text: word}); err != nil {
		return r, err
	}
	if word == "off" {
		r.Say("I ask no more about ", reply.B(name(s)), " until you next record something with it, or say ", reply.Type(fmt.Sprintf("pings %d on", s.Number)), ".")
		r.Say("What can't wait in a smoke or a cooling I still tell you.")
		return r, nil
	}
	r.Say("I ask about ", reply.B(name(s)), " as usual again.")
	return r, t.sayNextPing(&r, s)
}
