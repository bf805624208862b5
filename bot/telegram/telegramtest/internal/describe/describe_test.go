package describe

import (
	"os"
	"strings"
	"testing"
	"unicode/utf8"
)

// A cut-down document of the same make as the published one.
const small = `{
 "version": "Bot API 0.0",
 "methods": {
  "sendMessage": {"name": "sendMessage", "returns": ["Message"], "fields": [
   {"name": "chat_id", "types": ["Integer", "String"], "required": true, "description": ""},
   {"name": "text", "types": ["String"], "required": true, "description": ""},
   {"name": "silent", "types": ["Boolean"], "required": false, "description": ""},
   {"name": "reply_markup", "types": ["Keyboard", "ForceReply"], "required": false, "description": ""},
   {"name": "media", "types": ["InputMedia"], "required": false, "description": ""},
   {"name": "photo", "types": ["InputFile", "String"], "required": false, "description": ""},
   {"name": "names", "types": ["Array of String"], "required": false, "description": ""}]}
 },
 "types": {
  "Message": {"name": "Message", "fields": [
   {"name": "message_id", "types": ["Integer"], "required": true, "description": ""},
   {"name": "text", "types": ["String"], "required": false, "description": ""}]},
  "Keyboard": {"name": "Keyboard", "fields": [
   {"name": "rows", "types": ["Array of Array of Button"], "required": true, "description": ""}]},
  "Button": {"name": "Button", "fields": [
   {"name": "text", "types": ["String"], "required": true, "description": ""}]},
  "ForceReply": {"name": "ForceReply", "fields": [
   {"name": "force_reply", "types": ["Boolean"], "required": true, "description": ""}]},
  "InputMedia": {"name": "InputMedia", "subtypes": ["InputPhoto", "InputVideo"]},
  "InputPhoto": {"name": "InputPhoto", "fields": [
   {"name": "type", "types": ["String"], "required": true, "description": "Type of the media, must be photo"},
   {"name": "media", "types": ["String"], "required": true, "description": ""}]},
  "InputVideo": {"name": "InputVideo", "fields": [
   {"name": "type", "types": ["String"], "required": true, "description": "Type of the media, must be video"},
   {"name": "media", "types": ["String"], "required": true, "description": ""},
   {"name": "width", "types": ["Integer"], "required": true, "description": ""}]}
 }}`

func load(t *testing.T) *Description {
	t.Helper()
	d, err := parse([]byte(small))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestCall(t *testing.T) {
	d := load(t)
	type params = map[string]string
	for _, c := range []struct {
		name    string
		params  params
		uploads []string
		want    string // part of the only complaint, "" for none
	}{
		{"sound", params{"chat_id": "-100", "text": "x", "silent": "true"}, nil, ""},
		{"name for a chat", params{"chat_id": "@club", "text": "x"}, nil, ""},
		{"required left out", params{"chat_id": "1"}, nil, `"text" is required`},
		{"unknown parameter", params{"chat_id": "1", "text": "x", "shout": "1"}, nil, `no parameter "shout"`},
		{"boolean", params{"chat_id": "1", "text": "x", "silent": "1"}, nil, "where Boolean is expected"},
		{"keyboard", params{"chat_id": "1", "text": "x", "reply_markup": `{"rows":[[{"text":"a"}]]}`}, nil, ""},
		{"either of two", params{"chat_id": "1", "text": "x", "reply_markup": `{"force_reply":true}`}, nil, ""},
		{"deep inside", params{"chat_id": "1", "text": "x", "reply_markup": `{"rows":[[{"text":5}]]}`}, nil, "reply_markup.rows[0][0].text: the number 5 where String is expected"},
		{"not JSON", params{"chat_id": "1", "text": "x", "reply_markup": `{`}, nil, "not JSON"},
		{"two values", params{"chat_id": "1", "text": "x", "names": `[] []`}, nil, "something follows"},
		{"null for a list", params{"chat_id": "1", "text": "x", "names": `null`}, nil, ""},
		{"null for a keyboard", params{"chat_id": "1", "text": "x", "reply_markup": `null`}, nil, "null where Keyboard or ForceReply is expected"},
		{"null within", params{"chat_id": "1", "text": "x", "reply_markup": `{"rows":null}`}, nil, "null where an array"},
		{"union", params{"chat_id": "1", "text": "x", "media": `{"type":"photo","media":"attach://p"}`}, []string{"p"}, ""},
		{"union, named member", params{"chat_id": "1", "text": "x", "media": `{"type":"video","media":"v"}`}, nil, `InputVideo needs the field "width"`},
		{"upload", params{"chat_id": "1", "text": "x"}, []string{"photo"}, ""},
		{"upload nobody names", params{"chat_id": "1", "text": "x"}, []string{"p"}, `uploaded part "p"`},
		{"file for a text", params{"chat_id": "1"}, []string{"text"}, "a file where String is expected"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := d.Call("sendmessage", c.params, c.uploads)
			if c.want == "" && got != nil || c.want != "" && (len(got) != 1 || !strings.Contains(got[0], c.want)) {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
	if got := d.Call("shout", nil, nil); len(got) != 1 {
		t.Errorf("unknown method: %q", got)
	}
}

func TestResult(t *testing.T) {
	d := load(t)
	for in, want := range map[string]string{
		`{"message_id":9007199254740993,"text":"x"}`: "",
		`{"text":"x"}`:                 "message_id",
		`{"message_id":1.5}`:           "1.5 where Integer",
		`{"message_id":1,"more":true}`: `no field "more"`,
		`true`:                         "a boolean where Message",
	} {
		got := d.Result("sendMessage", []byte(in))
		if want == "" && got != nil || want != "" && (len(got) != 1 || !strings.Contains(got[0], want)) {
			t.Errorf("%s: got %q, want %q", in, got, want)
		}
	}
}

// The published document itself, when the folder with it is named.
func TestPublishedDescription(t *testing.T) {
	dir := os.Getenv("LARDERHAND_SPECS")
	if dir == "" {
		t.Skip("the published document is not ours to keep in the repository, and LARDERHAND_SPECS names no folder with " + FileName)
	}
	d, err := Load(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range d.methods {
		for _, f := range m.Fields {
			checkTypes(t, d, m.Name+"."+f.Name, f.Types)
		}
		checkTypes(t, d, m.Name, m.Returns)
	}
	for _, typ := range d.types {
		for _, f := range typ.Fields {
			checkTypes(t, d, typ.Name+"."+f.Name, f.Types)
		}
		checkTypes(t, d, typ.Name, typ.Subtypes)
	}
	if got := d.Call("setMyCommands", map[string]string{"commands": `[{"command":"flip","description":"turn"}]`, "scope": `{"type":"chat","chat_id":1}`}, nil); got != nil {
		t.Errorf("a sound call: %q", got)
	}
	if got := d.Call("setMyCommands", map[string]string{"commands": `[]`, "scope": `{"type":"everybody"}`}, nil); got == nil {
		t.Error("a scope nobody knows passed")
	}
}

func checkTypes(t *testing.T, d *Description, where string, types []string) {
	t.Helper()
	for _, typ := range types {
		for strings.HasPrefix(typ, arrayOf) {
			typ = strings.TrimPrefix(typ, arrayOf)
		}
		switch typ {
		case "Integer", "Float", "Boolean", "True", "String":
		default:
			if d.types[typ] == nil {
				t.Errorf("%s: unknown type %q", where, typ)
			}
		}
	}
}

// No parameter text makes the check panic, and a text that passes as a keyboard
// is JSON.
func FuzzParameter(f *testing.F) {
	for _, s := range []string{"", "null", `{"rows":[[{"text":"a"}]]}`, `{"rows":[[]]}{`, "\xff"} {
		f.Add(s)
	}
	d, err := parse([]byte(small))
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := d.Call("sendMessage", map[string]string{"chat_id": "1", "text": "x", "reply_markup": s}, nil)
		if got == nil && !strings.Contains(s, "{") {
			t.Fatalf("%q passed as an object", s)
		}
		got = d.Call("sendMessage", map[string]string{"chat_id": "1", "text": s}, nil)
		if (got == nil) != utf8.ValidString(s) {
			t.Fatalf("%q as a text: %q", s, got)
		}
	})
}

func BenchmarkLoad(b *testing.B) {
	dir := os.Getenv("LARDERHAND_SPECS")
	if dir == "" {
		b.Skip("the published document is not ours to keep in the repository, and LARDERHAND_SPECS names no folder with " + FileName)
	}
	for b.Loop() {
		if _, err := Load(dir); err != nil {
			b.Fatal(err)
		}
	}
}
