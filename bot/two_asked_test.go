package bot_test

import (
	"strings"
	"testing"
	"time"
)

// A yes or a no that could be of the scale or of a reading does nothing; the reading
// answered, it is of the scale.
func TestAWordOfTheScaleOrOfAReading(t *testing.T) {
	for _, word := range []string{"yes", "no"} {
		b := smoking(t, "5 lb juniper 1 in")
		b.clock.At = b.clock.At.Add(30 * time.Minute)
		b.tobias("core 1 60")
		b.clock.At = b.clock.At.Add(10 * time.Minute)
		if r := b.tobias("core 1 160").Text(); !strings.Contains(r, "only if you say so") {
			t.Fatalf("the reading is not asked about:\n%s", r)
		}
		if r := b.tobias("open 4 lb coffee 1 in").Text(); !strings.Contains(r, "Before your first batch") {
			t.Fatalf("the scale is not asked about:\n%s", r)
		}
		if r := b.tobias(word).Text(); !strings.Contains(r, "two things") {
			t.Errorf("%q is taken as of one of two questions:\n%s", word, r)
		}
		if r := b.tobias("drop").Text(); !strings.Contains(r, "Left out of") {
			t.Errorf("after %q the reading waits no longer:\n%s", word, r)
		}
		want := map[string]string{"yes": "is open, in the cure", "no": "Then I open nothing"}[word]
		if r := b.tobias(word).Text(); !strings.Contains(r, want) {
			t.Errorf("then %q does not answer the scale:\n%s", word, r)
		}
	}
}
