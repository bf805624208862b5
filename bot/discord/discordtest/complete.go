package discordtest

// Choice is a suggestion of autocompletion.
type Choice struct {
	Name  string
	Value any // a string, or a json.Number
}

func readChoices(data obj) []Choice {
	out := []Choice{}
	for _, v := range list(data["choices"]) {
		c := object(v)
		out = append(out, Choice{Name: text(c["name"]), Value: c["value"]})
	}
	return out
}

// Complete types part of an option's value and waits for the suggestions: first
// the focused option, then those filled in before. The option has to be one
// with autocompletion.
func (a *Seat) Complete(command string, focused OptionValue, before ...OptionValue) []Choice {
	a.s.t.Helper()
	u := a.StartComplete(command, focused, before...)
	var out []Choice
	a.s.wait("suggestions for /"+command+" "+focused.Name, func() bool {
		out = u.i.choices
		return u.i.ack == autocompleteAck
	})
	return out
}

// StartComplete is Complete without the waiting.
func (a *Seat) StartComplete(command string, focused OptionValue, before ...OptionValue) *Use {
	a.s.t.Helper()
	i := a.use(command, append(append([]OptionValue{}, before...), focused), autocompleteUse, focused.Name)
	return &Use{i: i}
}

// mustSuggest ends the test for an option whose definition asks for no
// autocompletion.
func (f *filling) mustSuggest(def obj) {
	if !truth(def["autocomplete"]) {
		f.a.fail("%s: option %q has no autocompletion", f.path, text(def["name"]))
	}
}
