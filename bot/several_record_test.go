package bot_test

import (
	"strings"
	"testing"
	"time"
)

// What was recorded in one breath is taken back in one; what was not, by itself.
func TestUndoTakesBackWhatWasToldTogether(t *testing.T) {
	for _, c := range []struct {
		lines []string
		of    string
		says  string
	}{
		{[]string{"firm a and c", "undo 1"}, "", "pieces a (juniper), c (plain): took back"},
		{[]string{"firm b", "firm a and c", "undo 1"}, "b", "took back"},
		{[]string{"firm a and c", "firm b", "undo 1"}, "ac", "piece b (coffee): took back"},
		{[]string{"firm a", "firm c", "undo 1"}, "a", "piece c (plain): took back"},
		{[]string{"firm a and c", "undo 1c"}, "a", "piece c (plain): took back"},
		{[]string{"firm a and c", "undo 1", "firm a and c"}, "ac", "firm all through"},
		{[]string{"firm a, b and c", "undo 1b"}, "ac", "piece b (coffee): took back"},
		{[]string{"firm a, b and c", "undo 1"}, "", "took back"},
		{[]string{"firm", "undo 1"}, "", "Batch 1 (juniper; coffee; plain): took back"},
	} {
		b := three(t, c.lines[:len(c.lines)-1]...)
		r := b.say(c.lines[len(c.lines)-1]).Text()
		if !strings.Contains(r, c.says) {
			t.Errorf("%q does not say %q:\n%s", c.lines, c.says, r)
		}
		if got := recorded(b, "firm"); got != c.of {
			t.Errorf("%q leaves %q, want %q\n%s", c.lines, got, c.of, r)
		}
	}
}

// Cores told in one line are taken back together, and one by its letter.
func TestUndoTakesBackTheReadingsOfALine(t *testing.T) {
	for line, says := range map[string]string{
		"undo 1":  "took back “a core 100 °F, b core 100 °F, c core 98 °F”",
		"undo 1b": "piece b (coffee): took back “reading: core 100 °F”",
	} {
		b := three(t, "firm", "smoke")
		b.clock.At = b.clock.At.Add(2 * time.Hour)
		b.say("core a 100 b 100 c 98")
		if r := b.say(line).Text(); !strings.Contains(r, says) {
			t.Errorf("%q does not say %q:\n%s", line, says, r)
		}
	}
}
