package bot_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
)

// The answer to "Flipped 1" takes the place of the morning's ping, so it keeps the
// buttons of the batches that ping also spoke of.
func TestAFlipKeepsTheOtherButtons(t *testing.T) {
	now := time.Date(2027, 3, 5, 9, 0, 0, 0, time.UTC)
	b, _ := clubBot(t, now)
	ines := bot.Person{Key: "1", Name: "Ines"}
	for _, line := range []string{"open 5 lb juniper 1.5 in", "yes", "open 3 kg honey 4 cm", "open 2 kg maple 4 cm"} {
		b.Handle(t.Context(), bot.Message{Conversation: "club", Sender: ines, Text: line, At: now.AddDate(0, 0, -2)})
	}
	press := func(line string) reply.Reply {
		return b.Handle(t.Context(), bot.Message{Conversation: "club", Sender: ines, Press: &reply.Button{Line: line}, At: now})
	}
	labels := func(r reply.Reply) string {
		var all []string
		for _, row := range r.Buttons {
			for _, btn := range row {
				all = append(all, btn.Label)
			}
		}
		return strings.Join(all, ", ")
	}
	r := press("flip 2")
	if got := labels(r); !r.Replace || got != "Flipped 1, Flipped 3" || !strings.Contains(r.Text(), "Still to flip today: Batch 1 (juniper), Batch 3 (maple).") {
		t.Errorf("after flip 2 the buttons are %q under:\n%s", got, r.Text())
	}
	press("flip 1")
	if r := press("flip 3"); labels(r) != "" || strings.Contains(r.Text(), "Still") {
		t.Errorf("after the last flip the buttons are %q under:\n%s", labels(r), r.Text())
	}
}
