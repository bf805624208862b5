package describe

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// attachment introduces the name of an uploaded part inside a parameter.
const attachment = "attach://"

// Call lists what is wrong with a method call: an unknown method or parameter, a
// required one left out, a value of the wrong type, an uploaded part nothing
// refers to. Parameters come as the strings of a form; uploads are the names of
// the file parts of a multipart body.
func (d *Description) Call(name string, params map[string]string, uploads []string) []string {
	m := d.methods[strings.ToLower(name)]
	if m == nil {
		return []string{fmt.Sprintf("the description knows no method %q", name)}
	}
	var problems []string
	known := make(map[string]bool, len(m.Fields))
	for _, f := range m.Fields {
		known[f.Name] = true
		if slices.Contains(uploads, f.Name) {
			if !slices.Contains(f.Types, "InputFile") {
				problems = append(problems, fmt.Sprintf("%s: a file where %s is expected", f.Name, strings.Join(f.Types, " or ")))
			}
			continue
		}
		text, present := params[f.Name]
		if !present {
			if f.Required {
				problems = append(problems, fmt.Sprintf("the parameter %q is required", f.Name))
			}
			continue
		}
		problems = append(problems, d.parameter(f, text)...)
	}
	for p := range params {
		if !known[p] {
			problems = append(problems, fmt.Sprintf("the method has no parameter %q", p))
		}
	}
	for _, up := range uploads {
		if !known[up] && !refersTo(params, up) {
			problems = append(problems, fmt.Sprintf("the uploaded part %q is neither a parameter nor named by an %sNAME", up, attachment))
		}
	}
	slices.Sort(problems)
	return problems
}

func refersTo(params map[string]string, part string) bool {
	for _, text := range params {
		if strings.Contains(text, attachment+part) {
			return true
		}
	}
	return false
}

// parameter checks one form value. Simple types travel as bare text, everything
// else as JSON.
func (d *Description) parameter(f field, text string) []string {
	var structured []string
	for _, t := range f.Types {
		ok := false
		switch t {
		case "Integer":
			_, err := strconv.ParseInt(text, 10, 64)
			ok = err == nil
		case "Float":
			_, err := strconv.ParseFloat(text, 64)
			ok = err == nil
		case "Boolean", "True":
			ok = text == "true" || text == "false"
		case "String":
			ok = utf8.ValidString(text)
		case "InputFile":
			ok = strings.HasPrefix(text, attachment)
		default:
			structured = append(structured, t)
		}
		if ok {
			return nil
		}
	}
	if structured == nil {
		return []string{fmt.Sprintf("%s: %q where %s is expected", f.Name, shorten(text), strings.Join(f.Types, " or "))}
	}
	if text == "null" && f.listMayBeNull() {
		return nil
	}
	v, err := decode([]byte(text))
	if err != nil {
		return []string{fmt.Sprintf("%s: not JSON (%v): %q", f.Name, err, shorten(text))}
	}
	return d.value(f.Name, structured, v)
}

// Result lists what is wrong with the result of a successful call.
func (d *Description) Result(name string, result []byte) []string {
	m := d.methods[strings.ToLower(name)]
	if m == nil {
		return []string{fmt.Sprintf("the description knows no method %q", name)}
	}
	return d.raw("result", m.Returns, result)
}

// Value lists what is wrong with a JSON value that should be of a named type.
func (d *Description) Value(typ string, raw []byte) []string {
	return d.raw(typ, []string{typ}, raw)
}

func (d *Description) raw(path string, types []string, raw []byte) []string {
	v, err := decode(raw)
	if err != nil {
		return []string{fmt.Sprintf("%s: not JSON: %v", path, err)}
	}
	return d.value(path, types, v)
}

func decode(raw []byte) (any, error) {
	dec := json.NewDecoder(strings.NewReader(string(raw)))
	dec.UseNumber()
	var v any
	if err := dec.Decode(&v); err != nil {
		return nil, err
	}
	if _, err := dec.Token(); err != io.EOF {
		return nil, fmt.Errorf("something follows the value")
	}
	return v, nil
}

// listMayBeNull: the server takes null for an optional list as none at all, and
// libraries send it.
func (f field) listMayBeNull() bool {
	return !f.Required && strings.HasPrefix(f.Types[0], arrayOf)
}

func shorten(s string) string {
	const most = 80
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "") + "…"
}
