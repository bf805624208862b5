package bot_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/reply"
	"larderhand/store"
)

// A thermometer's file of a piece that is still in its cure is refused as the same core
// typed is, whatever the piece beside it does.
func TestAFileOfAPieceStillInItsCure(t *testing.T) {
	b := newBench(t, store.Memory)
	for _, line := range []string{"open 5 lb juniper 1 in, 5 lb pepper 2.5 in", "yes"} {
		b.say(line)
	}
	b.clock.At = b.clock.At.AddDate(0, 0, 9)
	for _, line := range []string{"firm 1a", "smoke 1a"} {
		b.say(line)
	}
	b.clock.At = b.clock.At.Add(2 * time.Hour)
	at := b.clock.At.Add(-time.Hour).Format("2006-01-02 15:04")
	if r := b.say("core 1b 90").Text(); !strings.Contains(r, "still in its cure") {
		t.Fatalf("typed, it is not refused:\n%s", r)
	}
	for _, c := range []struct {
		line, data string
		refused    bool
	}{
		{"1b", "time,core\n" + at + ",90\n", true},
		{"1", "time,core a,core b\n" + at + ",60,90\n", true},
		{"1", "time,core a\n" + at + ",60\n", false},
		{"1", "time,core\n" + at + ",61\n", false},
	} {
		r := b.say(c.line, reply.File{Name: "log.csv", Type: "text/csv", Data: []byte(c.data)}).Text()
		if got := strings.Contains(r, "still in its cure"); got != c.refused {
			t.Errorf("%q with %q: refused %v, want %v:\n%s", c.line, c.data, got, c.refused, r)
		}
	}
}
