package bot

import "larderhand/bot/reply"

func welcomeCommands() []Command {
	return []Command{
		{Name: "welcome", Also: []string{"intro", "hello", "hi", "hey"}, Group: groupHelp, Form: "welcome", Help: "what this is and how to begin", Example: "welcome", Sums: true, Run: (*Turn).welcome},
		{Name: "tour", Also: []string{"demo"}, Group: groupHelp, Form: "tour / tour all", Help: "see a made-up batch go by in two minutes", Example: "tour", Sums: true, Run: (*Turn).tour},
	}
}

// welcome says in one screen what this is, to someone who has just come in. Its
// first row of buttons leads to a batch in three presses: a weight, open, yes.
func (t *Turn) welcome(string) (reply.Reply, error) {
	var r reply.Reply
	r.Say(reply.B("I help you turn pork belly into bacon."))
	r.Say("1. Tell me what your belly weighs, such as ", reply.Type("5 lb juniper 1.5 in"), ", or press a weight: I work out salt, sugar and curing mix.")
	r.Say("2. Press Open a batch: I keep it straight and ping you every day to flip it.")
	r.Say("3. I lead you on through rinsing, drying, smoke and cooling to the labelled packet.")
	r.Say("You need a scale that shows 0.1 g. I say plainly when something is unsafe; the food law where you live comes first. See ", reply.Type("caution"), ".")
	r.Say("Lost? ", reply.Type("help"), ". Just looking? ", reply.Type("tour"), ". Time zone, ping hour, units: ", reply.Type("set"), ".")
	r.Press(t.firstWeights()...)
	r.Press(reply.Button{Label: "Another weight", Line: "cure", Ask: true}, reply.Button{Label: "Show me a tour", Line: "tour"}, reply.Button{Label: "Help", Line: "help"})
	return r, nil
}

// firstWeights are the weights to press: in the units known to be liked here, or
// some of both.
func (t *Turn) firstWeights() []reply.Button {
	list := []string{"5 lb", "10 lb", "2 kg", "4 kg"}
	switch t.Conv.Settings.Units {
	case "us":
		list = []string{"3 lb", "5 lb", "10 lb"}
	case "metric":
		list = []string{"1.5 kg", "2.5 kg", "4 kg"}
	}
	var row []reply.Button
	for _, w := range list {
		row = append(row, reply.Button{Label: w, Line: "cure " + w})
	}
	return row
}

// newcomer says whether nothing was ever begun here.
func (t *Turn) newcomer() bool {
	if t.Tx == nil {
		return false
	}
	if _, drafted, err := t.draft(); err != nil || drafted {
		return false
	}
	list, err := t.Tx.Batches(t.Conv.ID, true)
	return err == nil && len(list) == 0
}
