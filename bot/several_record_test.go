package bot_test

import (
	"strings"
	"testing"
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
