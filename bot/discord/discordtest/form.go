package discordtest

import (
	"slices"
)

// Form is a modal a person has open.
type Form struct {
	s      *Server
	opener *interaction
	data   obj

	CustomID string
	Title    string
	Fields   []Field
}

// Field is one input of a form.
type Field struct {
	CustomID    string
	Label       string
	Long        bool // a paragraph
	Value       string
	Placeholder string
	Required    bool
	Min, Max    int      // length of the text
	Options     []string // values, when it is a menu
}

// read fills the exported fields from the request.
func (f *Form) read() {
	f.CustomID, f.Title = text(f.data["custom_id"]), text(f.data["title"])
	for _, v := range list(f.data["components"]) {
		o := object(v)
		switch number(o["type"]) {
		case actionRow:
			for _, in := range list(o["components"]) {
				f.Fields = append(f.Fields, readField(object(in), text(object(in)["label"])))
			}
		case label:
			f.Fields = append(f.Fields, readField(object(o["component"]), text(o["label"])))
		}
	}
}

func readField(o obj, label string) Field {
	in := Field{
		CustomID: text(o["custom_id"]), Label: label, Long: number(o["style"]) == 2,
		Value: text(o["value"]), Placeholder: text(o["placeholder"]),
		Required: o["required"] == nil || truth(o["required"]), Min: number(o["min_length"]), Max: maxInput,
	}
	if n, ok := whole(o["max_length"]); ok {
		in.Max = n
	}
	for _, opt := range list(o["options"]) {
		in.Options = append(in.Options, text(object(opt)["value"]))
	}
	return in
}

// Submit sends the form, each field named by its custom id or label; a field
// left out keeps what it was filled with. It ends the test where the client
// would not let the person submit.
func (f *Form) Submit(values map[string]string) *Use {
	f.s.t.Helper()
	i0 := f.opener
	a := &Seat{s: f.s, person: i0.person, channel: i0.channel}
	filled := f.filled(a, values)
	f.s.waitSession(i0.channel)
	f.s.mu.Lock()
	defer f.s.mu.Unlock()
	defer f.s.touch()
	i := f.s.newInteraction(modalUse, i0.person, i0.channel)
	i.opener, i.source = i0, i0.source
	if i.source != nil {
		i.payload["message"] = i.source.json()
	}
	i.payload["data"] = obj{"custom_id": f.CustomID, "components": f.submitted(filled)}
	f.s.note("%s submits the form %s", i0.person.Name, f.CustomID)
	i.send()
	return &Use{i: i}
}

// filled is each field's value after the person typed.
func (f *Form) filled(a *Seat, values map[string]string) map[string]string {
	f.s.t.Helper()
	out := map[string]string{}
	known := []string{}
	for _, in := range f.Fields {
		known = append(known, in.CustomID, in.Label)
		v := in.Value
		for _, name := range []string{in.Label, in.CustomID} {
			if typed, ok := values[name]; ok {
				v = typed
			}
		}
		switch n := length(v); {
		case in.Required && n == 0:
			a.fail("form %q: %q is required", f.Title, in.Label)
		case len(in.Options) > 0 && n > 0 && !slices.Contains(in.Options, v):
			a.fail("form %q: %q offers no %q", f.Title, in.Label, v)
		case n > 0 && len(in.Options) == 0 && (n < in.Min || n > in.Max):
			a.fail("form %q: %q has %d characters, it takes %d to %d", f.Title, in.Label, n, in.Min, in.Max)
		}
		out[in.CustomID] = v
	}
	for name := range values {
		if !slices.Contains(known, name) {
			a.fail("form %q has no field %q", f.Title, name)
		}
	}
	return out
}

// submitted builds the components of a submission: rows come back as rows,
// labels as labels.
func (f *Form) submitted(filled map[string]string) []any {
	out := []any{}
	for n, v := range list(f.data["components"]) {
		o := object(v)
		id := n + 1
		switch number(o["type"]) {
		case actionRow:
			in := object(list(o["components"])[0])
			out = append(out, obj{"type": actionRow, "id": id, "components": []any{submittedField(in, filled)}})
		case label:
			out = append(out, obj{"type": label, "id": id, "component": submittedField(object(o["component"]), filled)})
		case textDisplay:
			out = append(out, obj{"type": textDisplay, "id": id})
		}
	}
	return out
}

func submittedField(in obj, filled map[string]string) obj {
	v := filled[text(in["custom_id"])]
	o := obj{"type": in["type"], "id": 100, "custom_id": in["custom_id"]}
	if number(in["type"]) == textInput {
		o["value"] = v
		return o
	}
	o["values"] = []any{}
	if v != "" {
		o["values"] = []any{v}
	}
	return o
}
