package discordtest

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// obj is a JSON object. Payloads are built and read as the documents show them,
// so a field that some library does not know is neither lost nor invented.
type obj = map[string]any

func decode(raw []byte) (any, error) {
	return jsonschema.UnmarshalJSON(bytes.NewReader(raw))
}

// recast turns a value built from Go types into what a JSON decoder would give.
func recast(v any) any {
	raw, err := json.Marshal(v)
	if err != nil {
		panic("discordtest: payload does not marshal: " + err.Error())
	}
	out, err := decode(raw)
	if err != nil {
		panic("discordtest: payload does not decode: " + err.Error())
	}
	return out
}

func object(v any) obj {
	o, _ := v.(obj)
	return o
}

func list(v any) []any {
	l, _ := v.([]any)
	return l
}

func text(v any) string {
	s, _ := v.(string)
	return s
}

func truth(v any) bool {
	b, _ := v.(bool)
	return b
}

// whole reads an integer; ok is false for anything else, fractions included.
func whole(v any) (n int, ok bool) {
	switch v := v.(type) {
	case json.Number:
		i, err := v.Int64()
		return int(i), err == nil
	case int:
		return v, true
	case float64:
		return int(v), v == math.Trunc(v)
	}
	return 0, false
}

func number(v any) int {
	n, _ := whole(v)
	return n
}

// withoutNulls drops null fields at every depth: a request may carry them, an
// answer may not.
func withoutNulls(v any) any {
	switch v := v.(type) {
	case obj:
		out := obj{}
		for k, x := range v {
			if x != nil {
				out[k] = withoutNulls(x)
			}
		}
		return out
	case []any:
		out := make([]any, 0, len(v))
		for _, x := range v {
			out = append(out, withoutNulls(x))
		}
		return out
	}
	return v
}

func itoa(n int) string { return strconv.Itoa(n) }

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return itoa(n) + " " + noun + "s"
}
