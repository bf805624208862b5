package bot

import (
	"strings"

	"larderhand/bot/reply"
)

// The headings of help: what a person wants to do, in the order it comes up.
const (
	groupCure     = "Start a cure"
	groupDaily    = "Every day"
	groupSteps    = "After the cure, step by step"
	groupLook     = "See where things stand"
	groupSmoke    = "On smoke day"
	groupTogether = "With others"
	groupMend     = "Keep notes and mend mistakes"
	groupSet      = "Suit it to you"
	groupHelp     = "Safety and help"
)

func groups() []string {
	return []string{groupCure, groupDaily, groupSteps, groupSmoke, groupLook, groupTogether, groupMend, groupSet, groupHelp}
}

func helpCommands() []Command {
	return []Command{{Name: "help", Also: []string{"?", "hello", "hi"}, Group: groupHelp, Form: "help / help flip", Help: "this", Example: "help flip", Sums: true, Fields: []Field{{Name: "Command", Example: "flip", Optional: true, Suggest: SuggestCommand}}, Run: (*Turn).help}}
}

// help lists what a person can do, by what they want to do.
func (t *Turn) help(args string) (reply.Reply, error) {
	var r reply.Reply
	if word, _ := firstWord(args); word != "" {
		c, _, ok := t.bot.find(word)
		if !ok {
			return r, t.unknown(word)
		}
		r.Say(reply.B(c.Name), ": ", c.Help, ".")
		r.Say("How: ", reply.Type(c.Form))
		r.Say("Example: ", reply.Type(c.Example))
		if len(c.Also) > 0 {
			r.Say("Also: ", strings.Join(c.Also, ", "))
		}
		return r, nil
	}
	r.Say("Tell me a weight, such as ", reply.Type("5 lb juniper 1.5 in"), ", and I work out a cure; then I ping you every day until it is packed.")
	for _, g := range groups() {
		r.Par(reply.B(g))
		for _, c := range t.bot.table {
			if c.Group == g {
				r.Say(reply.Type(c.Form), "  ", c.Help)
			}
		}
	}
	return r, nil
}
