package bot_test

import (
	"strings"
	"testing"

	"larderhand/bot/reply"
	"larderhand/store"
)

// offered is the line a refusal says works; "" if it offers none.
func offered(r reply.Reply) string {
	_, after, ok := strings.Cut(r.Text(), "This works: ")
	if !ok {
		return ""
	}
	line, _, _ := strings.Cut(strings.TrimPrefix(after, "`"), "`")
	line, _, _ = strings.Cut(line, "\n")
	return strings.Trim(line, "` ")
}

// What a refusal says works is understood when it is typed next. Where a batch is not
// yet or no more at that point it may lead on, and comes to an answer within a few
// steps.
func TestWhatIsOfferedWorks(t *testing.T) {
	longTable(t)
	states := map[string][]string{
		"nothing yet":      nil,
		"a cure":           {"5 lb juniper 1 in"},
		"curing":           {"open 5 lb juniper 1 in, 4 lb maple 1 in", "yes"},
		"two batches":      {"open 5 lb juniper 1 in", "yes", "open 4 lb maple 1 in"},
		"in the smoke":     {"open 5 lb juniper 1 in, 4 lb maple 1 in from 20 Feb 9:00", "yes", "firm", "rinse", "fry good", "dry at yesterday 8:00", "tacky", "season", "smoke"},
		"the check is due": {"open 5 lb juniper 1 in from 20 Feb 9:00", "yes"},
	}
	lines := []string{
		"flipped them all 👍", "flip 2 😀", "just turned it", "its tacky now", "whats next", "im back", "pause", "stop", "same as batch 1b but 7 lb",
		"ok what now", "flipped all three", "flip all bags", "oops it's 5 lb 8", "no it's 5 lb 8 oz", "open it", "plan 10 lb for next saturday", "plan 10 lb for yesterday",
		"hand 1", "is the cure done?", "150 and 87", "pit65 core 25c", "P150 C82", "soak 1b 1 week", "longer 1 99 days",
		"fry 1 a good, b hmm", "strike 1 25:00", "5 lb no cure", "open 3 lb saltpeter", "skip the pink salt", "later 2y", "flip all but 3",
		"flip 1c", "thick 1c 1 in", "again 1", "again 1 banana", "set away until yesterday", "note 1", "again 9 7 lb", "strike 1 file", "flip 1 tomorrow", "rinse 1 at 25:00", "soak", "keep", "drop", "done 7",
	}
	for state, before := range states {
		tried := 0
		for _, line := range lines {
			b := newBench(t, store.Memory)
			for _, s := range before {
				b.say(s)
			}
			said := []string{line}
			r := b.say(line)
			for works := offered(r); works != "" && len(said) < 5; works = offered(r) {
				tried++
				said = append(said, works)
				if r = b.say(works); strings.Contains(r.Text(), "I don't know “") || strings.Contains(r.Text(), "I can't read “") {
					t.Errorf("%s: what is offered after %q is not understood:\n%s", state, said, r.Text())
				}
			}
			if offered(r) != "" {
				t.Errorf("%s: %q leads on and on:\n%s", state, said, r.Text())
			}
		}
		if tried < len(lines)/2 {
			t.Errorf("%s: only %d lines are offered for the %d typed", state, tried, len(lines))
		}
	}
}

// Everyday words stand for the commands they mean.
func TestEverydayWords(t *testing.T) {
	for _, c := range []struct{ before, line, wants string }{
		{"", "flipped them all 👍", "flipped, day"},
		{"", "flip 1 😀", "flipped, day"},
		{"", "just turned it", "flipped, day"},
		{"", "i flipped it", "flipped, day"},
		{"", "all flipped!", "flipped, day"},
		{"", "flipped all three", "flipped, day"},
		{"", "whats next", "curing, day"},
		{"", "what's next?", "curing, day"},
		{"", "what now", "curing, day"},
		{"", "ok what now", "curing, day"},
		{"", "thanks", "You're welcome"},
		{"set away until Sunday 18:00", "im back", "away is no"},
		{"", "I'm away until Sunday 18:00", "away is until Sun"},
		{"", "we're on holiday for 3 days", "away is until Thu"},
		{"", "away till Friday", "away is until Fri"},
		{"", "is the cure done?", "The day rule and your own hand decide this"},
		{"", "is it done yet", "The day rule and your own hand decide this"},
		{"", "same as batch 1 but 7 lb", "7 lb (3,175 g), juniper"},
		{"", "again 1 2 kg 1 in", "(2,000 g), juniper"},
		{"5 lb maple 1 in", "open it", "Batch 2 (maple) is open"},
		{"5 lb maple 1 in", "oops it's 5 lb 8", "5.5 lb (2,495 g), maple"},
		{"5 lb maple 1 in", "no, it's 6 lb", "6 lb (2,722 g), maple"},
		{"", "its tacky now", "no cure check yet"},
		{"", "forgot to flip yesterday sorry", "One missed day does no harm"},
	} {
		b := worryBench(t)
		if c.before != "" {
			b.say(c.before)
		}
		if r := b.say(c.line).Text(); !strings.Contains(r, c.wants) {
			t.Errorf("%q does not say %q:\n%s", c.line, c.wants, r)
		}
	}
}
