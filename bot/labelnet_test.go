package bot_test

import (
	"strings"
	"testing"
	"time"
)

// The weight of a batch packed as one is not the net weight of each of its pieces.
func TestALabelHasTheWeightOfItsOwnPiece(t *testing.T) {
	b := outOfSmoke(t, "5 lb juniper 1 in, 5 lb pepper 1 in", after{4, "core a 75 b 75"}, after{4, "core a 43 b 43"}, after{0, "cooled"}, after{12, "chilled"}, after{0, "slice 4 mm"}, after{0, "pack 1 8 lb"})
	if r := b.say("label 1").Text(); strings.Contains(r, "Net ") || !strings.Contains(r, "weigh 1a packed") {
		t.Errorf("it prints the weight of the batch on a piece, or does not ask for its own:\n%s", r)
	}
	b.clock.At = b.clock.At.Add(time.Minute)
	b.say("weigh 1a packed 4.1 lb")
	b.say("weigh 1b packed 3.9 lb")
	if r := b.say("label 1").Text(); strings.Count(r, "Net ") != 2 || strings.Contains(r, "(8 lb)") {
		t.Errorf("weighed each, it prints no labels with their own weight:\n%s", r)
	}
}
