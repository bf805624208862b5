package bot

import (
	"fmt"
	"strconv"
	"strings"

	"larderhand/bot/reply"
)

// The headings of help: what a person wants to do, in the order it comes up.
const (
	groupCure     = "Start a cure"
	groupDaily    = "Every day"
	groupSteps    = "After the cure, step by step"
	groupSmoke    = "On smoke day"
	groupLook     = "See where things stand"
	groupTaste    = "Taste and improve"
	groupRecipe   = "Recipes"
	groupStock    = "Stock and plans"
	groupTogether = "With others"
	groupMend     = "Keep notes and mend mistakes"
	groupSet      = "Suit it to you"
	groupHelp     = "Safety and help"
)

func groups() []string {
	return []string{groupCure, groupDaily, groupSteps, groupSmoke, groupLook, groupTaste, groupRecipe, groupStock, groupTogether, groupMend, groupSet, groupHelp}
}

func helpCommands() []Command {
	return []Command{{Name: "help", Also: []string{"?", "menu"}, Group: groupHelp, Form: "help / help 4 / help flip", Help: "what you can do; a number or a word for more", Example: "help flip", Sums: true, Fields: []Field{{Name: "Command", Example: "flip", Optional: true, Suggest: SuggestCommand}}, Run: (*Turn).help}}
}

// help says what a person can do, by what they want to do: a short list of
// headings, a page for each, and a few lines for each command.
func (t *Turn) help(args string) (reply.Reply, error) {
	word, rest := firstWord(args)
	if word == "" {
		return t.helpShort(), nil
	}
	if i, ok := heading(args); ok {
		return t.helpPage(i), nil
	}
	c, _, ok := t.bot.find(word)
	if !ok {
		c, _, ok = t.bot.find(rest)
	}
	if !ok {
		return reply.Reply{}, t.unknownHelp(args)
	}
	return t.helpCommand(c), nil
}

// heading finds a heading by its number, counted from 1, or its words.
func heading(said string) (int, bool) {
	said = strings.ToLower(strings.Join(strings.Fields(said), " "))
	n, err := strconv.Atoi(said)
	for i, g := range groups() {
		if err == nil && n == i+1 || said == strings.ToLower(g) {
			return i, true
		}
	}
	return 0, false
}

func (t *Turn) helpShort() reply.Reply {
	var r reply.Reply
	r.Say("Tell me a weight, such as ", reply.Type("5 lb juniper 1.5 in"), ", and I work out a cure; then I ping you every day until it is packed.")
	r.Par(reply.B("What do you want to do?"), " Press it, or type ", reply.Type("help 4"), " for its page, ", reply.Type("help flip"), " for one command.")
	var row []reply.Button
	for i, g := range groups() {
		var names []string
		for _, c := range t.bot.table {
			if c.Group == g {
				names = append(names, c.Name)
			}
		}
		r.Say(fmt.Sprintf("%d ", i+1), reply.B(g), ": ", strings.Join(names, ", "))
		if row = append(row, reply.Button{Label: g, Line: fmt.Sprintf("help %d", i+1)}); len(row) == 3 {
			r.Press(row...)
			row = nil
		}
	}
	r.Press(row...)
	return r
}

func (t *Turn) helpPage(i int) reply.Reply {
	var r reply.Reply
	g := groups()[i]
	r.Say(reply.B(g))
	for _, c := range t.bot.table {
		if c.Group == g {
			r.Say(reply.Type(c.Form), "  ", c.Help)
		}
	}
	next := (i + 1) % len(groups())
	r.Press(reply.Button{Label: "All of help", Line: "help"}, reply.Button{Label: groups()[next], Line: fmt.Sprintf("help %d", next+1)})
	return r
}

func (t *Turn) helpCommand(c Command) reply.Reply {
	var r reply.Reply
	r.Say(reply.B(c.Name), ": ", stop(c.Help))
	r.Say("How: ", reply.Type(c.Form))
	r.Say("Example: ", reply.Type(c.Example))
	if len(c.Also) > 0 {
		r.Say("Also: ", strings.Join(c.Also, ", "))
	}
	if i, ok := heading(c.Group); ok {
		r.Say("More of the kind: ", reply.Type(fmt.Sprintf("help %d", i+1)))
	}
	return r
}

// unknownHelp points to the nearest command there is help for.
func (t *Turn) unknownHelp(said string) error {
	e := &Error{Kind: NoSuch, Why: fmt.Sprintf("I have no help for “%s”.", clip(said, 30)), Example: "help"}
	word, _ := firstWord(said)
	if near, ok := t.bot.nearest(strings.ToLower(word)); ok {
		e.Why += fmt.Sprintf(" Did you mean “%s”?", near)
		e.Example = "help " + near
	}
	return e
}
