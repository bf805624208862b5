package markup

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"

	"pgregory.net/rapid"
)

func show(es []Entity) string {
	var parts []string
	for _, e := range es {
		parts = append(parts, strings.TrimSpace(fmt.Sprintf("%s %d+%d %s", e.Type, e.Offset, e.Length, e.URL+e.Language)))
	}
	return strings.Join(parts, ", ")
}

func TestDetect(t *testing.T) {
	const source = "td, MessageEntity.cpp, match_bot_commands and match_mentions"
	for in, want := range map[string]string{
		"/cure 5 lb":                  "bot_command 0+5",
		"/flip@larder_bot 3":          "bot_command 0+16",
		"🥓 /flip 3":                   "bot_command 3+5",
		"5/8 and 1/flip":              "",
		"//x /a/b </x>":               "",
		"/é /ab@c":                    "",
		"hello @larder_bot!":          "mention 6+11",
		"a@b.example @x":              "",
		"see https://example.com/a/b": "url 4+23",
		"#juniper":                    "hashtag 0+8",
		"/a":                          "bot_command 0+2",
	} {
		if got := show(Detect(in)); got != want {
			t.Errorf("%q: %s, want %s (%s)", in, got, want, source)
		}
	}
}

func TestNothingIsDetectedInCodeOrLinks(t *testing.T) {
	text := Text{Plain: "/a /b /c", Entities: []Entity{
		{Type: "code", Offset: 0, Length: 2}, {Type: "bold", Offset: 3, Length: 2},
		{Type: "text_link", Offset: 6, Length: 2, URL: "https://example.com"},
	}}
	if got, want := show(text.WithDetected().Entities), "code 0+2, bold 3+2, bot_command 3+2, text_link 6+2 https://example.com"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestTrim(t *testing.T) {
	for _, c := range []struct {
		in              string
		bold            Entity
		plain, entities string
	}{
		{"  x \n", Entity{Type: "bold", Offset: 2, Length: 3}, "x", "bold 0+1"},
		{"  x", Entity{Type: "bold", Offset: 1, Length: 2}, " x", "bold 0+2"},
		{" \n ", Entity{Type: "bold", Offset: 0, Length: 3}, "", ""},
	} {
		got := Text{Plain: c.in, Entities: []Entity{c.bold}}.Trim()
		if got.Plain != c.plain || show(got.Entities) != c.entities {
			t.Errorf("%q: %q %s, want %q %s (td, MessageEntity.cpp, fix_formatted_text)", c.in, got.Plain, show(got.Entities), c.plain, c.entities)
		}
	}
}

func TestCheck(t *testing.T) {
	for want, e := range map[string]Entity{
		"no entity type":     {Type: "shout", Offset: 0, Length: 1},
		"outside the text":   {Type: "bold", Offset: 3, Length: 9},
		"inside a character": {Type: "bold", Offset: 0, Length: 1},
		"needs a url":        {Type: "text_link", Offset: 2, Length: 1},
		"needs a user":       {Type: "text_mention", Offset: 2, Length: 1},
	} {
		if got := strings.Join(Check("🥓 x", []Entity{e}), "; "); !strings.Contains(got, want) {
			t.Errorf("%+v: %q, want %q", e, got, want)
		}
	}
	crossing := []Entity{{Type: "bold", Offset: 0, Length: 3}, {Type: "italic", Offset: 2, Length: 3}}
	if got := Check("abcdef", crossing); len(got) != 1 || !strings.Contains(got[0], "overlap") {
		t.Errorf("crossing entities: %q", got)
	}
	if got := Check("🥓 x", []Entity{{Type: "bold", Offset: 0, Length: 2}}); got != nil {
		t.Errorf("a sound entity: %q", got)
	}
}

func TestLenCountsUTF16(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "text")
		if got, want := Len(s), len(utf16.Encode([]rune(s))); got != want {
			t.Fatalf("%q: %d units, unicode/utf16 says %d", s, got, want)
		}
		most := rapid.IntRange(0, 20).Draw(t, "most")
		part := Prefix(s, most)
		if !strings.HasPrefix(s, part) || Len(part) > most || part != s && Len(part) < most-1 {
			t.Fatalf("%q: the prefix of %d units is %q", s, most, part)
		}
	})
}
