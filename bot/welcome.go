package bot

import "larderhand/bot/reply"

func welcomeCommands() []Command {
	return []Command{{Name: "welcome", Also: []string{"intro"}, Group: groupHelp, Form: "welcome", Help: "what this is and how to begin", Example: "welcome", Sums: true, Run: (*Turn).welcome}}
}

// welcome says in six lines what this is, to someone who has just come in.
func (t *Turn) welcome(string) (reply.Reply, error) {
	var r reply.Reply
	r.Say(reply.B("I help you turn pork belly into bacon."))
	r.Say("Tell me a weight, such as ", reply.Type("cure 5 lb juniper 1.5 in"), ": I work out salt, sugar and curing mix.")
	r.Say(reply.Type("open"), " makes a batch of it, and I ping you every day to flip it, until it is packed.")
	r.Say("On smoke day I watch pit and core with you, and say when it is done.")
	r.Say("I say plainly when something is unsafe; the food law where you live comes first. See ", reply.Type("caution"), ".")
	r.Say(reply.Type("help"), " lists the rest; ", reply.Type("set"), " is for time zone, ping hour and units.")
	r.Press(reply.Button{Label: "Work out a cure", Line: "cure", Ask: true}, reply.Button{Label: "Help", Line: "help"})
	return r, nil
}
