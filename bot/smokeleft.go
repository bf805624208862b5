package bot

import (
	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// sayLeft says how long until the core is at its target.
func (t *Turn) sayLeft(r *reply.Reply, s course.State, letter string, several bool) {
	o := s.Outlook(letter)
	u := t.units()
	who := ""
	if several {
		who = letter + ": "
	}
	switch {
	case o.Reached:
		r.Say(who, "Core at its ", u.temp(s.Target()), " target: take it out.")
	case o.Core.At.IsZero():
	default:
		r.Say(who, u.rate(float64(s.Target()-o.Core.Temp)), " to the ", u.temp(s.Target()), " target.")
	}
}
