package bot_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// Whatever the readings of a smoke day say, of one piece or of four, in the smoke and
// out of it, they are answered in five lines at most.
func TestReadingsAreAnsweredInFiveLines(t *testing.T) {
	cures := []string{
		"5 lb juniper 1.5 in",
		"5 lb juniper 1.5 in, 4 lb black pepper and honey 1.25 in",
		"5 lb juniper 1.5 in, 4 lb black pepper and honey 1.25 in, 3 lb coffee and chilli 2 in, 6 lb juniper 1.75 in",
	}
	answered, most := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(0, len(cures)-1).Draw(rt, "cure")
		b := smoking(t, cures[n])
		letters := []string{""}
		if n > 0 {
			letters = []string{"a", "b", "c", "d"}[:2*n]
		}
		var talk []string
		var say func(string)
		say = func(line string) {
			r := b.say(line)
			text := r.Text()
			talk = append(talk, line, text)
			if strings.Contains(text, "`keep`") { // asked about: the answer is what follows
				say("keep")
				return
			}
			lines := slices.DeleteFunc(strings.Split(text, "\n"), func(l string) bool { return strings.TrimSpace(l) == "" || strings.HasPrefix(l, "Kept: ") })
			answered, most = answered+1, max(most, len(lines))
			if len(lines) > 5 {
				rt.Fatalf("%d lines to %q:\n%s", len(lines), line, strings.Join(talk, "\n"))
			}
		}
		core := make([]int, len(letters))
		for i := range core {
			core[i] = 40
		}
		out := false
		for range rapid.IntRange(3, 12).Draw(rt, "readings") {
			b.clock.At = b.clock.At.Add(time.Duration(rapid.IntRange(5, 240).Draw(rt, "minutes")) * time.Minute)
			line := ""
			if !out {
				line = fmt.Sprintf("pit %d", rapid.SampledFrom([]int{70, 110, 148, 152, 158, 165, 175}).Draw(rt, "pit"))
			}
			for i, letter := range letters {
				if i > 0 && rapid.IntRange(0, 2).Draw(rt, "left out") == 0 {
					continue
				}
				if out {
					core[i] -= rapid.IntRange(-4, 40).Draw(rt, "fall")
				} else {
					core[i] = min(core[i]+rapid.IntRange(-3, 30).Draw(rt, "rise"), 155)
				}
				core[i] = max(core[i], 34)
				line += fmt.Sprintf(" core %s %d", letter, core[i])
			}
			say(strings.TrimSpace(line))
			if !out && rapid.IntRange(0, 5).Draw(rt, "out") == 0 {
				b.say("smoked 1")
				out = true
			}
		}
	})
	t.Logf("%d answers, the longest of %d lines", answered, most)
	if answered < 60 || most < 4 {
		t.Errorf("%d answers, the longest of %d lines: too little to show anything", answered, most)
	}
}
