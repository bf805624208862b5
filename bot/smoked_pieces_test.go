package bot_test

import (
	"strings"
	"testing"
	"time"
)

// Pit and cores of three pieces in one line, as people type them.
func TestReadingsOfSeveralPieces(t *testing.T) {
	for _, c := range []struct{ line, says string }{
		{"pit 148 a 58 b 62 c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"pit 148 core a 58 b 62 c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"148 / a 58, b 62, c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"148F/a 58, b 62, c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"62°C / a 15, b 17, c 18", "b (coffee): core 62.6 °F, pit 143.6 °F"},
		{"148 a 58 b 62 c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"pit 1 148 a 58 b 62 c 60", "b (coffee): core 62 °F, pit 148 °F"},
		{"core 1b 62", "b (coffee): core 62 °F"},
		{"core 4b 62", "There is no batch 4"},
		{"pit 4 148 core 62", "There is no batch 4"},
	} {
		b := three(t, "firm", "smoke")
		b.clock.At = b.clock.At.Add(2 * time.Hour)
		if r := b.say(c.line).Text(); !strings.Contains(r, c.says) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.says, r)
		}
	}
}

// The core at the end of the smoke, piece by piece; one read shortly before stands for
// it and is told as what it is.
func TestOutOfTheSmokeByPiece(t *testing.T) {
	for _, c := range []struct {
		first      []string
		line, says string
		of         string
	}{
		{nil, "smoked core a 151 b 152 c 150", "b: core 152 °F, at the 150 °F target", "abc"},
		{nil, "smoked a 151, b 152", "b: core 152 °F, at the 150 °F target", "ab"},
		{nil, "smoked 1 all 151", "ore 151 °F", "abc"},
		{nil, "smoked 1 all core 151", "ore 151 °F", "abc"},
		{nil, "smoked 1a core 151 1b core 150", "b: core 150 °F", "ab"},
		{nil, "smoked a core 151, b core 150", "b: core 150 °F", "ab"},
		{nil, "smoked 1a core 151 2b core 150", "", ""},
		{nil, "smoked a b", "No core temperature noted", "ab"},
		{nil, "smoked b core 151", "Core 151 °F, at", "b"},
		{nil, "smoked 1 core 151", "Core 151 °F, at", "abc"},
		{nil, "smoked a 151 d 152", "no piece d", ""},
		{[]string{"core a 151 b 148"}, "smoked", "b: core 148 °F as read at", "abc"},
		{[]string{"core a 151 b 148"}, "smoked", "c: no core temperature noted", "abc"},
		{[]string{"core a 151 b 148"}, "smoked a", "Core 151 °F as read at", "a"},
		{[]string{"core 151"}, "smoked", "Core 151 °F as read at", "abc"},
	} {
		b := three(t, "firm", "smoke")
		b.clock.At = b.clock.At.Add(20 * time.Hour)
		for _, s := range c.first {
			b.say(s)
		}
		b.clock.At = b.clock.At.Add(10 * time.Minute)
		r := b.say(c.line).Text()
		if !strings.Contains(r, c.says) {
			t.Errorf("%q after %q does not say %q:\n%s", c.line, c.first, c.says, r)
		}
		if got := recorded(b, "smoked"); got != c.of {
			t.Errorf("%q is recorded of %q, want %q\n%s", c.line, got, c.of, r)
		}
	}
	b := three(t, "firm", "smoke")
	b.clock.At = b.clock.At.Add(20 * time.Hour)
	b.say("core 151")
	b.clock.At = b.clock.At.Add(16 * time.Minute)
	if r := b.say("smoked").Text(); !strings.Contains(r, "No core temperature noted") {
		t.Errorf("a core of 16 minutes ago stands for the end:\n%s", r)
	}
}
