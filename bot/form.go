package bot

import "strings"

// Form is what a button with Ask set should ask for before its line is complete:
// a platform's form where it has one, one question after the other where not.
type Form struct {
	Title  string
	Line   string // what the answers are added to
	Fields []Field
}

// Form gives the form of the command a line starts with; ok is false if it has
// none, and then the line is complete as it is. What the line says already, such as
// which recipe to use, is not asked again.
func (b *Bot) Form(line string) (Form, bool) {
	cmd, rest, ok := b.find(line)
	if !ok || len(cmd.Fields) == 0 {
		return Form{}, false
	}
	fields := cmd.Fields
	if rest != "" && !cmd.Batch && len(fields) > 1 && !fields[0].Optional {
		fields = fields[1:]
	}
	return Form{Title: sentence(cmd.Help), Line: line, Fields: fields}, true
}

// Fill makes the whole line of a form and its answers, in the order of the
// fields.
func (f Form) Fill(answers []string) string {
	parts := []string{f.Line}
	for i, a := range answers {
		a = strings.TrimSpace(a)
		if a == "" || i >= len(f.Fields) {
			continue
		}
		parts = append(parts, strings.TrimSpace(f.Fields[i].Prefix+" "+a))
	}
	return strings.Join(parts, " ")
}

// Whole reports whether the command's word alone is a line that can be run, so that
// someone who taps it in a menu need not be asked for more.
func (c Command) Whole() bool {
	if c.Batch { // the batch is found, or asked for, by the command itself
		return true
	}
	for _, form := range strings.Split(c.Form, " / ") {
		if form == c.Name {
			return true
		}
	}
	for _, f := range c.Fields {
		if !f.Optional {
			return false
		}
	}
	return true
}

// Settles reports whether the command settles how the whole conversation is run,
// which in a group is for those who manage it.
func (c Command) Settles() bool { return c.Group == groupSet }
