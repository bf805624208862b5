package bot_test

import (
	"bytes"
	"os"
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

// A file that cannot be written, or that is damaged in its middle: told of once, and
// the sums of a cure still come out.
func TestABrokenFileStillAnswersASum(t *testing.T) {
	for name, breakIt := range map[string]func(t *testing.T, file string) []store.Option{
		"read-only": func(*testing.T, string) []store.Option { return []store.Option{store.ReadOnly()} },
		"damaged":   damage,
	} {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "club.db")
			b := newBench(t, file)
			b.say("open 5 lb juniper 1.5 in")
			b.say("yes")
			for range 100 {
				b.say("note 1 " + strings.Repeat("bag sits well ", 20))
			}
			if err := b.db.Close(); err != nil {
				t.Fatal(err)
			}
			var told []error
			b = newBench(t, file, append(breakIt(t, file), store.OnBroken(func(err error) { told = append(told, err) }))...)
			b.n = 1000
			for range 3 {
				if r := b.say("5 lb"); !strings.Contains(r.Text(), "4.3 g") {
					t.Errorf("the sum reads:\n%s", r.Text())
				}
				if r := b.say("flip 1"); strings.Contains(r.Text(), "flipped") {
					t.Errorf("the flip reads:\n%s", r.Text())
				}
			}
			if len(told) != 1 || told[0] == nil {
				t.Errorf("told: %v", told)
			}
		})
	}
}

// damage scribbles over the journal, where notes lie.
func damage(t *testing.T, file string) []store.Option {
	t.Helper()
	const page = 4096
	body, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	hit := 0
	for at := page; at < len(body); at += page {
		if bytes.Contains(body[at:at+page], []byte("bag sits well")) {
			copy(body[at:at+page], bytes.Repeat([]byte("scribble"), page/8))
			hit++
		}
	}
	if hit == 0 {
		t.Fatal("no page holds a note")
	}
	if err := os.WriteFile(file, body, 0o600); err != nil {
		t.Fatal(err)
	}
	return nil
}
