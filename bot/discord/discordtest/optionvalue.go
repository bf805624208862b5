package discordtest

import (
	"encoding/json"
	"slices"
)

// maxSafe is 2^53, the bound of integer options.
const maxSafe = 1 << 53

// value checks a value against its option as the client does and gives the
// payload's form of it.
func (f *filling) value(def obj, v any) any {
	kind := number(def["type"])
	switch v := v.(type) {
	case string:
		if f.partial && (kind == optInteger || kind == optNumber) {
			return v // half-typed numbers come as text
		}
		if kind != optString {
			break
		}
		f.bounds(def, float64(length(v)), "min_length", "max_length")
		return f.choice(def, v)
	case int:
		if kind != optInteger && kind != optNumber {
			break
		}
		if v <= -maxSafe || v >= maxSafe {
			break
		}
		f.bounds(def, float64(v), "min_value", "max_value")
		return f.choice(def, v)
	case float64:
		if kind != optNumber {
			break
		}
		f.bounds(def, v, "min_value", "max_value")
		return f.choice(def, v)
	case bool:
		if kind == optBoolean {
			return v
		}
	case *Person:
		if kind == optUser || kind == optMentionable {
			return f.person(v)
		}
	case *Role:
		if kind == optRole || kind == optMentionable {
			return f.resolve("roles", v.ID, v.json())
		}
	case *Channel:
		if kind == optChannel {
			return f.channelValue(def, v)
		}
	case File:
		if kind == optAttachment {
			a := f.a.s.store(v, "")
			return f.resolve("attachments", a.id, a.json())
		}
	}
	return f.wrong(def, v)
}

func (f *filling) channelValue(def obj, c *Channel) any {
	if types := list(def["channel_types"]); len(types) > 0 &&
		!slices.ContainsFunc(types, func(v any) bool { return number(v) == c.kind }) {
		f.a.fail("%s: option %q does not take channels of type %d", f.path, text(def["name"]), c.kind)
	}
	o := c.json()
	o["permissions"] = c.permissions(f.a.person).String()
	o["app_permissions"] = c.permissions(f.a.s.bot).String()
	return f.resolve("channels", c.ID, o)
}

// bounds holds a value, or its length, to the option's least and most.
func (f *filling) bounds(def obj, n float64, least, most string) {
	if f.partial {
		return
	}
	if lo, ok := float(def[least]); ok && n < lo {
		f.a.fail("%s: option %q is %v, %s %v", f.path, text(def["name"]), n, least, lo)
	}
	if hi, ok := float(def[most]); ok && n > hi {
		f.a.fail("%s: option %q is %v, %s %v", f.path, text(def["name"]), n, most, hi)
	}
}

// choice: with choices nothing else may be picked, by name or by value.
func (f *filling) choice(def obj, v any) any {
	choices := list(def["choices"])
	if len(choices) == 0 {
		return v
	}
	for _, c := range choices {
		c := object(c)
		if f.a.called(c, textOf(v)) || textOf(c["value"]) == textOf(v) {
			return c["value"]
		}
	}
	f.a.fail("%s: option %q offers no %v", f.path, text(def["name"]), v)
	return nil
}

func float(v any) (float64, bool) {
	switch v := v.(type) {
	case json.Number:
		x, err := v.Float64()
		return x, err == nil
	case float64:
		return v, true
	case int:
		return float64(v), true
	}
	return 0, false
}

// textOf writes a scalar so that 3 and json.Number("3") compare alike.
func textOf(v any) string {
	if s, ok := v.(string); ok {
		return s
	}
	raw, err := json.Marshal(v)
	if err != nil {
		return ""
	}
	return string(raw)
}
