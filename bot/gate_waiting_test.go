package bot_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
)

// after is a line said so many hours after the one before.
type after struct {
	hours float64
	line  string
}

// outOfSmoke is a bench with a batch that came out of the smoke at 151 °F and was told
// some lines since.
func outOfSmoke(t *testing.T, cure string, lines ...after) *bench {
	t.Helper()
	b := smoking(t, cure)
	for _, l := range append([]after{{20, "smoked 1 core 151"}}, lines...) {
		b.clock.At = b.clock.At.Add(time.Duration(l.hours * float64(time.Hour)))
		b.say(l.line)
	}
	return b
}

// tobias is another member of the same conversation, who may do what its keeper may.
func (b *bench) tobias(text string) reply.Reply {
	b.n++
	return b.bot.Handle(context.Background(), bot.Message{Event: fmt.Sprint(b.n), Conversation: "bench:", Direct: true,
		Sender: bot.Person{Key: "tobias", Name: "Tobias", Admin: true}, Text: text})
}

// A core that was asked about is never passed over on the way to a clean label; keep,
// drop or, for another member, the next reading lets it go on.
func TestACoreAskedAboutIsNotPassedOver(t *testing.T) {
	b := outOfSmoke(t, "5 lb juniper 1 in", after{4, "core 75"}, after{4, "core 43"}, after{1, "core 70"})
	for _, line := range []string{"cooled", "cooled 1 core 41", "cooled 1 cold in time", "pack 1 4 lb"} {
		if r := b.say(line).Text(); !strings.Contains(r, "(70 °F) waits for a word") && !strings.Contains(r, "not noted as cooled") {
			t.Errorf("%q passes over the core asked about:\n%s", line, r)
		}
	}
	b.say("keep")
	if r := b.say("cooled").Text(); !strings.Contains(r, "warm again") {
		t.Errorf("kept, it is not warm again:\n%s", r)
	}

	b = outOfSmoke(t, "5 lb juniper 1 in", after{4, "core 75"}, after{4, "core 43"}, after{1, "core 70"}, after{0, "drop"})
	if r := b.say("cooled").Text(); !strings.Contains(r, "Batch 1 (juniper): cooled") {
		t.Errorf("left out, it still holds the batch up:\n%s", r)
	}

	b = outOfSmoke(t, "5 lb juniper 1 in", after{4, "core 75"}, after{4, "core 43"})
	b.clock.At = b.clock.At.Add(time.Hour)
	b.tobias("core 1 70")
	if r := b.say("cooled").Text(); !strings.Contains(r, "I asked Tobias") {
		t.Errorf("the keeper passes over what another member read:\n%s", r)
	}
	b.clock.At = b.clock.At.Add(time.Hour)
	b.say("core 1 42")
	if r := b.say("cooled").Text(); !strings.Contains(r, "Batch 1 (juniper): cooled") {
		t.Errorf("a newer core does not let the keeper go on:\n%s", r)
	}
}

// A cold core that was asked about is named, where else it would read as if none was told.
func TestAColdCoreAskedAboutIsNamed(t *testing.T) {
	b := outOfSmoke(t, "5 lb juniper 2 in", after{3, "core 43"})
	if r := b.say("cooled").Text(); !strings.Contains(r, "43 °F") || !strings.Contains(r, "waits for your word") {
		t.Errorf("the core told is not named:\n%s", r)
	}
	b.say("keep")
	if r := b.say("cooled").Text(); !strings.Contains(r, "cooled.") {
		t.Errorf("kept, it is not cooled:\n%s", r)
	}
}
