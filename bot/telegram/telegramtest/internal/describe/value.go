package describe

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

const (
	arrayOf  = "Array of "
	anObject = "an object"
)

// value compares a decoded JSON value (numbers as json.Number) with a choice of
// types and returns what is wrong with the nearest of them.
func (d *Description) value(path string, types []string, v any) []string {
	types = mergeArrays(types)
	var nearest []string
	for _, t := range types {
		problems := d.single(path, t, v)
		if len(problems) == 0 {
			return nil
		}
		if nearest == nil || len(problems) < len(nearest) {
			nearest = problems
		}
	}
	if len(types) > 1 && kindOf(v) != anObject {
		return []string{fmt.Sprintf("%s: %s where %s is expected", path, kindOf(v), strings.Join(types, " or "))}
	}
	return nearest
}

// mergeArrays turns "Array of A, Array of B" into one array of A or B, since such
// lists may be mixed.
func mergeArrays(types []string) []string {
	if len(types) < 2 || slices.ContainsFunc(types, func(t string) bool { return !strings.HasPrefix(t, arrayOf) }) {
		return types
	}
	var inner []string
	for _, t := range types {
		inner = append(inner, strings.TrimPrefix(t, arrayOf))
	}
	return []string{arrayOf + strings.Join(inner, "|")}
}

func (d *Description) single(path, typ string, v any) []string {
	if inner, ok := strings.CutPrefix(typ, arrayOf); ok {
		return d.array(path, inner, v)
	}
	ok := false
	switch typ {
	case "Integer":
		n, isNumber := v.(json.Number)
		if isNumber {
			_, err := strconv.ParseInt(n.String(), 10, 64)
			ok = err == nil
		}
	case "Float":
		_, ok = v.(json.Number)
	case "Boolean", "True":
		_, ok = v.(bool)
	case "String":
		s, isString := v.(string)
		ok = isString && utf8.ValidString(s)
	default:
		return d.named(path, typ, v)
	}
	if !ok {
		return []string{fmt.Sprintf("%s: %s where %s is expected", path, kindOf(v), typ)}
	}
	return nil
}

func (d *Description) array(path, inner string, v any) []string {
	list, ok := v.([]any)
	if !ok {
		return []string{fmt.Sprintf("%s: %s where an array of %s is expected", path, kindOf(v), inner)}
	}
	var problems []string
	for i, el := range list {
		problems = append(problems, d.value(fmt.Sprintf("%s[%d]", path, i), strings.Split(inner, "|"), el)...)
	}
	return problems
}

func (d *Description) named(path, typ string, v any) []string {
	t := d.types[typ]
	if t == nil {
		return []string{fmt.Sprintf("%s: the description knows no type %s", path, typ)}
	}
	if len(t.Subtypes) > 0 {
		return d.union(path, t, v)
	}
	fields, ok := v.(map[string]any)
	if !ok {
		return []string{fmt.Sprintf("%s: %s where %s is expected", path, kindOf(v), typ)}
	}
	return d.fields(path, t, fields)
}

// union accepts a value that is any one of the subtypes. Of several failures it
// shows the one for the subtype the value claims to be.
func (d *Description) union(path string, t *object, v any) []string {
	var nearest []string
	for _, sub := range t.Subtypes {
		problems := d.single(path, sub, v)
		if len(problems) == 0 {
			return nil
		}
		if d.claims(sub, v) {
			return problems
		}
		if nearest == nil || len(problems) < len(nearest) {
			nearest = problems
		}
	}
	return nearest
}

func (d *Description) claims(sub string, v any) bool {
	fields, ok := v.(map[string]any)
	if !ok || d.types[sub] == nil {
		return false
	}
	for _, f := range d.types[sub].Fields {
		if f.constant != "" && fields[f.Name] == f.constant {
			return true
		}
	}
	return false
}

func (d *Description) fields(path string, t *object, have map[string]any) []string {
	var problems []string
	known := make(map[string]bool, len(t.Fields))
	for _, f := range t.Fields {
		known[f.Name] = true
		v, present := have[f.Name]
		if !present {
			if f.Required {
				problems = append(problems, fmt.Sprintf("%s: %s needs the field %q", path, t.Name, f.Name))
			}
			continue
		}
		if v == nil && f.listMayBeNull() {
			continue
		}
		at := path + "." + f.Name
		if f.constant != "" && v != f.constant {
			problems = append(problems, fmt.Sprintf("%s: %v where %s has %q", at, v, t.Name, f.constant))
			continue
		}
		problems = append(problems, d.value(at, f.Types, v)...)
	}
	for name := range have {
		if !known[name] && len(t.Fields) > 0 {
			problems = append(problems, fmt.Sprintf("%s: %s has no field %q", path, t.Name, name))
		}
	}
	slices.Sort(problems)
	return problems
}

func kindOf(v any) string {
	switch v := v.(type) {
	case nil:
		return "null"
	case bool:
		return "a boolean"
	case json.Number:
		return "the number " + v.String()
	case string:
		return "a string"
	case []any:
		return "an array"
	default:
		return anObject
	}
}
