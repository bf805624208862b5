package bot_test

import (
	"strings"
	"testing"

	"larderhand/store"
)

// Days that are too few for any piece are answered with the rule's, and no other remark
// is lost over it.
func TestTooFewDaysAreSaid(t *testing.T) {
	for line, wants := range map[string][]string{
		"5 lb juniper 1.5 in 5 days":                                       {"You said 5 days; the day rule asks for 8 to 10 days"},
		"5 lb juniper 1.5 in 8 days":                                       nil,
		"5 lb juniper 1.5 in rind off, 4 lb coffee 1.5 in rind on, 9 days": {"You said 9 days; the day rule asks for 14 to 16 days"},
		"5 lb pork loin 1.5 in 5 days":                                     {"You said 5 days; the day rule asks for 8 to 10 days", "is not belly"},
	} {
		b := newBench(t, store.Memory)
		card := b.say(line).Text()
		b.say("open " + line)
		opened := b.say("yes").Text()
		for _, r := range []string{card, opened} {
			if wants == nil && strings.Contains(r, "You said") {
				t.Errorf("%q is too few:\n%s", line, r)
			}
			for _, want := range wants {
				if !strings.Contains(r, want) {
					t.Errorf("%q does not say %q:\n%s", line, want, r)
				}
			}
		}
	}
}
