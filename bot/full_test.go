package bot_test

import (
	"path/filepath"
	"strings"
	"testing"

	"larderhand/store"
)

// The disk fills up while someone takes notes: what was noted is there, what was not
// is said not to be, and the sums of a cure still come out, the same as before.
func TestAFullDiskStillAnswersASum(t *testing.T) {
	var told []error
	b := newBench(t, filepath.Join(t.TempDir(), "full.db"), store.MaxPages(90), store.OnBroken(func(err error) { told = append(told, err) }))
	b.say("open 5 lb juniper 1.5 in")
	b.say("yes")
	if r := b.say("5 lb"); !strings.Contains(r.Text(), "4.3 g") { // 2,268 g at 120 ppm with a 6.25 % mix: 4.35 g, rounded down
		t.Fatalf("with room it reads:\n%s", r.Text())
	}
	kept, full := 0, ""
	for range 1000 {
		r := b.say("note 1 " + strings.Repeat("bag sits well ", 20))
		if !strings.HasPrefix(r.Text(), "Noted") {
			full = r.Text()
			break
		}
		kept++
	}
	if kept == 0 || !strings.Contains(full, "can't") {
		t.Fatalf("after %d notes it says:\n%s", kept, full)
	}
	for range 3 {
		if r := b.say("5 lb"); !strings.Contains(r.Text(), "4.3 g") {
			t.Errorf("on a full disk it reads:\n%s", r.Text())
		}
		if r := b.say("flip 1"); strings.Contains(r.Text(), "flipped") {
			t.Errorf("on a full disk a flip reads:\n%s", r.Text())
		}
	}
	if r := b.say("batch 1"); !strings.Contains(r.Text(), "curing, day 0") {
		t.Errorf("on a full disk the batch reads:\n%s", r.Text())
	}
	if len(told) != 1 || told[0] == nil {
		t.Errorf("told: %v", told)
	}
}
