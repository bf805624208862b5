package bot_test

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// A reading asked about waits for its word whatever is said in between: another odd
// one, a cure worked out, a batch opened.
func TestNoReadingAskedAboutIsLost(t *testing.T) {
	for name, between := range map[string][]string{
		"nothing":               nil,
		"another odd one":       {"core 1 20"},
		"a cure":                {"5 lb maple 1 in"},
		"a number without unit": {"5"},
		"a wet cure":            {"brine 5 lb, 2 l water"},
		"a batch":               {"open 4 lb maple 1 in"},
	} {
		b := outOfSmoke(t, "5 lb juniper 1 in", after{4, "core 75"}, after{4, "core 43"}, after{1, "core 1 70"})
		for _, line := range between {
			b.say(line)
		}
		if r := b.say("cooled 1").Text(); !strings.Contains(r, "(70 °F) waits for a word") {
			t.Errorf("%s: the core asked about no longer holds the batch up:\n%s", name, r)
		}
		if r := b.say("keep 1").Text(); !strings.Contains(r, "Kept: core 70 °F") {
			t.Errorf("%s: it cannot be kept:\n%s", name, r)
		}
	}
}

// Each is answered by its number; without one it is asked which, and an old button
// answers no other question than its own.
func TestReadingsAreKeptByTheirNumber(t *testing.T) {
	ask := func() *bench {
		b := smoking(t, "5 lb juniper 1 in")
		b.say("pit 480")
		b.clock.At = b.clock.At.Add(time.Minute)
		b.say("pit 470")
		return b
	}
	for _, c := range []struct {
		lines []string
		says  []string
		never string
	}{
		{[]string{"keep"}, []string{"1, pit 480 °F", "2, pit 470 °F", "Which is meant?"}, "Kept"},
		{[]string{"drop"}, []string{"Which is meant?"}, "Left out"},
		{[]string{"no"}, []string{"Which is meant?"}, "Left out"},
		{[]string{"keep 1"}, []string{"Kept: pit 480 °F", "Waiting still: pit 470 °F"}, "Kept: pit 470"},
		{[]string{"drop 1"}, []string{"Left out of Batch 1 (juniper): pit 480 °F", "Waiting still: pit 470 °F"}, "Kept"},
		{[]string{"drop 1", "keep"}, []string{"Kept: pit 470 °F"}, "Waiting"},
		{[]string{"drop 1", "yes"}, []string{"Kept: pit 470 °F"}, "Waiting"},
		{[]string{"drop 1", "keep 1"}, []string{"Waiting for your word: 2, pit 470 °F"}, "Kept"},
		{[]string{"drop all", "keep 1"}, []string{"no readings I asked about"}, "Kept"},
		{[]string{"drop all", "pit 490", "keep 1"}, []string{"Waiting for your word: 3, pit 490 °F"}, "Kept"},
		{[]string{"drop all", "open 4 lb maple 1 in", "pit 1 490", "keep 1"}, []string{"Waiting for your word: 3, pit 490 °F"}, "Kept"},
		{[]string{"keep all"}, []string{"Kept: pit 480 °F", "Kept: pit 470 °F"}, "Waiting"},
		{[]string{"keep 1 and 2"}, []string{"Kept: pit 480 °F", "Kept: pit 470 °F"}, "Waiting"},
		{[]string{"pit 470"}, []string{"Waiting for your word too: pit 480 °F", "`keep 2` or `drop 2`"}, "pit 470 °F at"},
	} {
		b, text := ask(), ""
		for _, line := range c.lines {
			text = b.say(line).Text()
		}
		for _, want := range c.says {
			if !strings.Contains(text, want) {
				t.Errorf("%q does not say %q:\n%s", c.lines, want, text)
			}
		}
		if strings.Contains(text, c.never) {
			t.Errorf("%q says %q:\n%s", c.lines, c.never, text)
		}
	}
}

// However many are told, none is passed over without a word.
func TestManyReadingsAskedAbout(t *testing.T) {
	b := smoking(t, "5 lb juniper 1 in")
	refused := 0
	for i := range 20 {
		r := b.say(fmt.Sprintf("pit %d", 450+i)).Text()
		switch {
		case strings.Contains(r, "this was not noted"):
			refused++
		case !strings.Contains(r, "counts only if you say so"):
			t.Errorf("pit %d is not asked about:\n%s", 450+i, r)
		}
	}
	kept := strings.Count(b.say("keep all").Text(), "Kept: ")
	if kept+refused != 20 || kept < 2 {
		t.Errorf("%d kept, %d refused of 20", kept, refused)
	}
}

// A question is answered by the one it was put to: the button under somebody else's
// answers none of one's own.
func TestNobodyAnswersAnothersQuestion(t *testing.T) {
	b := smoking(t, "5 lb juniper 1 in")
	b.say("pit 480")
	b.tobias("pit 470")
	for _, line := range []string{"keep 1", "drop 1"} {
		if r := b.tobias(line).Text(); strings.Contains(r, "Kept") || strings.Contains(r, "Left out") || !strings.Contains(r, "2, pit 470 °F") {
			t.Errorf("%q of another's question reads:\n%s", line, r)
		}
	}
	if r := b.say("keep 2").Text(); strings.Contains(r, "Kept") {
		t.Errorf("the first keeps what the second was asked about:\n%s", r)
	}
	if r := b.tobias("keep").Text(); !strings.Contains(r, "Kept: pit 470 °F") {
		t.Errorf("the second cannot keep their own:\n%s", r)
	}
}

// Where no more can wait for a word, only a further odd reading is refused, and the way
// out stands in the refusal.
func TestReadingsThatWaitBlockNoOther(t *testing.T) {
	b := smoking(t, "5 lb juniper 1 in")
	b.say("pit 150 core 60")
	for i := range 6 {
		b.clock.At = b.clock.At.Add(time.Minute)
		b.say(fmt.Sprintf("pit %d", 480+i))
	}
	b.clock.At = b.clock.At.Add(time.Minute)
	refused := b.say("pit 490")
	for _, want := range []string{"not noted", "`drop all`", "keep all"} {
		if !strings.Contains(refused.Text(), want) {
			t.Errorf("a seventh odd one is not told of %q:\n%s", want, refused.Text())
		}
	}
	lines := ""
	for _, row := range refused.Buttons {
		for _, press := range row {
			lines += press.Line + ";"
		}
	}
	if !strings.Contains(lines, "drop all;keep all;") {
		t.Errorf("no button for all of them: %s", lines)
	}
	b.clock.At = b.clock.At.Add(20 * time.Minute)
	if r := b.say("core 64").Text(); !strings.Contains(r, "core 64 °F") || strings.Contains(r, "not noted") {
		t.Errorf("an ordinary core is blocked:\n%s", r)
	}
	b.say("drop all")
	if r := b.say("pit 490").Text(); !strings.Contains(r, "`keep` or `drop`") {
		t.Errorf("after drop all nothing can be asked about:\n%s", r)
	}
	b = outOfSmoke(t, "5 lb juniper 1 in", after{1, "core 130"})
	for i := range 6 {
		b.clock.At = b.clock.At.Add(time.Minute)
		b.say(fmt.Sprintf("core %d", 30+i))
	}
	b.clock.At = b.clock.At.Add(90 * time.Minute)
	if r := b.say("core 105").Text(); !strings.Contains(r, "core 105 °F") || strings.Contains(r, "not noted") {
		t.Errorf("a good core of a cooling is blocked:\n%s", r)
	}
}
