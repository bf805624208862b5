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
// none, and then the line is complete as it is.
func (b *Bot) Form(line string) (Form, bool) {
	cmd, _, ok := b.find(line)
	if !ok || len(cmd.Fields) == 0 {
		return Form{}, false
	}
	return Form{Title: sentence(cmd.Help), Line: line, Fields: cmd.Fields}, true
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
