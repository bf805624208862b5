package bot_test

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/course"
	"larderhand/store"
)

// inClub says something in the club's group, from whatever goroutine.
func inClub(b *bench, event, who, text string) string {
	return b.bot.Handle(context.Background(), bot.Message{Event: event, Conversation: "lane:club", Title: "club",
		Sender: bot.Person{Key: strings.ToLower(who), Name: who}, Text: text}).Text()
}

// kinds counts what stands in a batch's journal, by kind.
func kinds(t *testing.T, b *bench, batch int64) map[string]int {
	t.Helper()
	n := map[string]int{}
	err := b.db.View(t.Context(), b.clock.At, func(tx *store.Tx) error {
		list, err := tx.Entries(batch)
		for _, e := range list {
			n[e.Kind]++
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// Seventy questions of one member in a breath slow that member, in that group, and
// nobody else.
func TestFloodThroughTheBot(t *testing.T) {
	b := newBench(t, store.Memory)
	inClub(b, "a", "Ines", "open 2 kg juniper 38 mm")
	inClub(b, "b", "Ines", "yes")
	const left = "I left this one out"
	answered := 0
	for i := range 70 {
		if text := inClub(b, fmt.Sprint("t", i), "Tobias", "batches"); strings.Contains(text, "juniper") {
			answered++
		} else if !strings.Contains(text, left) {
			t.Fatalf("question %d gets %q", i, text)
		}
		if i%10 == 0 {
			if text := inClub(b, fmt.Sprint("i", i), "Ines", "batches"); !strings.Contains(text, "juniper") {
				t.Errorf("Ines is slowed with him: %q", text)
			}
		}
	}
	if answered != 60 {
		t.Errorf("%d of 70 answered", answered)
	}
	if text := inClub(b, "late", "Tobias", "flip 1"); !strings.Contains(text, left) {
		t.Errorf("a change gets through: %q", text)
	}
	if n := kinds(t, b, 1)[course.Flip]; n != 0 {
		t.Errorf("%d flips recorded of one left out", n)
	}
	private := b.bot.Handle(t.Context(), bot.Message{Event: "p", Conversation: "lane:@tobias", Direct: true, Sender: bot.Person{Key: "tobias", Name: "Tobias"}, Text: "5 lb"}).Text()
	if !strings.Contains(private, "4.3 g") {
		t.Errorf("in private he reads %q", private)
	}
	b.clock.At = b.clock.At.Add(2 * time.Second)
	if text := inClub(b, "later", "Tobias", "flip 1"); !strings.Contains(text, "flipped") {
		t.Errorf("two seconds on he reads %q", text)
	}
}

// Two at once, time and again: one flip is recorded, an offer is taken up once, and
// everybody is answered.
func TestTwoAtOnceLeaveOneRecord(t *testing.T) {
	b := newBench(t, filepath.Join(t.TempDir(), "club.db"))
	inClub(b, "0", "Tobias", "batches")
	inClub(b, "1", "Marit", "batches")
	inClub(b, "2", "Ines", "open 2 kg juniper 100 mm")
	inClub(b, "3", "Ines", "yes")
	n := 3
	both := func(line string, who ...string) []string {
		said := make([]string, len(who))
		var wg sync.WaitGroup
		start := make(chan struct{})
		for i, w := range who {
			n++
			event := fmt.Sprint(n)
			wg.Go(func() {
				<-start
				said[i] = inClub(b, event, w, line)
			})
		}
		close(start)
		wg.Wait()
		return said
	}
	const days = 8
	for day := 1; day <= days; day++ {
		b.clock.At = b.clock.At.Add(24 * time.Hour)
		said := strings.Join(both("flip 1", "Tobias", "Marit"), "\n")
		if strings.Count(said, "flipped") != 1 || strings.Count(said, "already has its flip") != 1 {
			t.Errorf("day %d, two flip and read\n%s", day, said)
		}
		if got := kinds(t, b, 1)[course.Flip]; got != day {
			t.Errorf("%d flips after %d days", got, day)
		}
		n++
		inClub(b, fmt.Sprint(n), "Ines", "hand 1 to @tobias until "+b.clock.At.Add(6*time.Hour).Format("15:04"))
		said = strings.Join(both("accept 1", "Tobias", "Tobias"), "\n")
		if strings.Count(said, "Tobias looks after") != 1 || strings.Count(said, "You look after") != 1 {
			t.Errorf("day %d, twice taken up:\n%s", day, said)
		}
		if got := kinds(t, b, 1)[course.Accept]; got != day {
			t.Errorf("%d times taken up after %d offers", got, day)
		}
		said = strings.Join(both("back 1", "Ines", "Tobias"), "\n")
		if strings.Count(said, "is back with Ines") != 1 || strings.Count(said, "is with its keeper") != 1 {
			t.Errorf("day %d, given back by both:\n%s", day, said)
		}
	}
	if got := kinds(t, b, 1); got[course.Back] != days || got[course.Hand] != days {
		t.Errorf("recorded: %v", got)
	}
}
