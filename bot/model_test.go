package bot_test

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"log/slog"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"pgregory.net/rapid"

	"larderhand/bot"
	"larderhand/bot/ledger"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

// modelZone is a zone whose clocks change at two in the morning, so that a simple
// model may trust time.Date at the hours used here.
var modelZone = must(time.LoadLocation("America/Chicago"))

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// flipModel is what is expected of one batch, written as plainly as can be: after a
// flip or a ping on one day there is a ping at the hour of the next; after three
// pings unanswered, one every third day; none while nobody wants them.
type flipModel struct {
	opened, heard time.Time
	turned        time.Time // the last flip or the opening
	pinged        []time.Time
	closed, muted bool
	flipped       time.Time // the date of the last flip
}

func dateOf(t time.Time) time.Time {
	y, m, d := t.In(modelZone).Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// next is when the next flip ping goes out.
func (f *flipModel) next(hour int) time.Time {
	unanswered := 0
	for _, p := range f.pinged {
		if !p.Before(f.heard) {
			unanswered++
		}
	}
	every := 1
	if unanswered >= 3 {
		every = 3
	}
	day := dateOf(f.turned).AddDate(0, 0, 1)
	if n := len(f.pinged); n > 0 {
		if least := dateOf(f.pinged[n-1]).AddDate(0, 0, every); least.After(day) {
			day = least
		}
	}
	for {
		at := time.Date(day.Year(), day.Month(), day.Day(), hour, 0, 0, 0, modelZone)
		if at.After(f.opened) {
			return at
		}
		day = day.AddDate(0, 0, 1)
	}
}

// world is the program on test beside the model.
type world struct {
	t      *rapid.T
	file   string
	db     *store.DB
	larder *bot.Bot
	sched  *scheduler.Scheduler
	clock  *scheduler.HandClock
	lease  int
	event  int

	hour    int
	batches []*flipModel
	crash   string // what goes wrong at the next sending
	died    bool
	got     map[string]int // batch and minute: how often it was pinged
	crashes map[string]int // how often it may have been again
}

var errCrash = errors.New("the process dies")

var modelPing = regexp.MustCompile(`Batch (\d+) \(juniper\), day \d+[^:]*: flip it`)

// Send notes which batches a message pings, and fails as the test says.
func (w *world) Send(_ context.Context, _ store.Address, _ string, r reply.Reply) (string, error) {
	crash := w.crash
	w.crash = ""
	switch crash {
	case "refused":
		return "", &store.Failure{Kind: store.Wait, After: 7 * time.Second, Cause: errors.New("429")}
	case "before":
		w.died = true
		return "", errors.Join(errCrash, w.db.Close())
	case "timeout":
		return "", &store.Failure{Kind: store.Unknown, Cause: errors.New("no answer")}
	}
	for _, hit := range modelPing.FindAllStringSubmatch(r.Text(), -1) {
		n := must(strconv.Atoi(hit[1]))
		w.got[w.slot(n, w.clock.At)]++
		if crash == "after" {
			w.crashes[w.slot(n, w.clock.At)]++
		}
	}
	if crash == "after" {
		w.died = true
		return "", errors.Join(errCrash, w.db.Close())
	}
	return "", nil
}

// slot names a ping by batch and local date.
func (w *world) slot(batch int, at time.Time) string {
	return fmt.Sprintf("%d %s", batch, at.In(modelZone).Format(time.DateOnly))
}

func (w *world) open() {
	var err error
	if w.db, err = store.Open(context.Background(), w.file); err != nil {
		w.t.Fatal(err)
	}
	log := slog.New(slog.DiscardHandler)
	w.larder = bot.New(bot.Config{Ledger: ledger.Ledger{DB: w.db}, Clock: w.clock, Zone: modelZone, Log: log, Rules: must(curemath.LoadRules())})
	w.sched = &scheduler.Scheduler{Due: w.db, Reach: w.db, Deliver: bot.Deliverer{Bot: w.larder, Sender: w}, Log: log,
		Lease: func() string { w.lease++; return fmt.Sprintf("%012d", w.lease) }}
}

func (w *world) say(line string) string {
	w.event++
	return w.larder.Handle(context.Background(), bot.Message{Event: fmt.Sprint(w.event), Conversation: "test:1", Direct: true,
		Sender: bot.Person{Key: "ines", Name: "Ines", Admin: true}, Text: line, At: w.clock.At}).Text()
}

// advance moves both clocks. The model pings at its hours; the program has to have
// done the same, each ping once and once more at most for a crash after sending.
func (w *world) advance(by time.Duration) {
	to := w.clock.At.Add(by)
	for {
		err := w.sched.Advance(context.Background(), w.clock, to)
		if w.died {
			w.died = false
			w.open()
			continue
		}
		if err != nil {
			w.t.Fatal(err)
		}
		break
	}
	want := map[string]int{}
	for i, f := range w.batches {
		for !f.closed && !f.muted {
			at := f.next(w.hour)
			if at.After(to) {
				break
			}
			f.pinged = append(f.pinged, at)
			want[w.slot(i+1, at)]++
		}
	}
	w.compare(want)
	w.got, w.crashes = map[string]int{}, map[string]int{}
}

func (w *world) compare(want map[string]int) {
	for slot, n := range w.got {
		if want[slot] == 0 {
			w.t.Fatalf("%s was pinged and should not have been; want %v", slot, want)
		}
		if n > 1+w.crashes[slot] {
			w.t.Fatalf("%s was pinged %d times with %d crashes", slot, n, w.crashes[slot])
		}
	}
	for slot := range want {
		if w.got[slot] == 0 {
			w.t.Fatalf("%s was not pinged; got %v", slot, w.got)
		}
	}
}

// lengthen gives a batch so many days of cure that nothing but flips is due.
func (w *world) lengthen(batch int) {
	for range 2 {
		w.say(fmt.Sprintf("longer %d 14 days", batch))
	}
}

// within keeps the talk shorter than the shortest cure.
func (w *world) within(t *rapid.T, start time.Time) {
	if w.clock.At.Sub(start) > 28*24*time.Hour {
		t.Skip("the shortest cure would be over, and then pings are not of flips alone; rapid takes another action")
	}
}

func (w *world) pick(t *rapid.T) (int, *flipModel) {
	var open []int
	for i, f := range w.batches {
		if !f.closed {
			open = append(open, i)
		}
	}
	if len(open) == 0 {
		t.Skip("no batch is open to act on; rapid takes another action")
	}
	i := rapid.SampledFrom(open).Draw(t, "batch")
	return i + 1, w.batches[i]
}

// TestPingsFollowTheModel drives random talk, time, failures and crashes.
func TestPingsFollowTheModel(t *testing.T) {
	// Each talk keeps its books on the disk, so that a crash is one: a few by
	// default, as many as -rapid.checks says otherwise.
	few := "40"
	if testing.Short() {
		few = "8"
	}
	if f := flag.Lookup("rapid.checks"); f != nil && f.Value.String() == f.DefValue {
		if err := f.Value.Set(few); err != nil {
			t.Fatal(err)
		}
		defer func() { _ = f.Value.Set(f.DefValue) }()
	}
	dir := t.TempDir()
	runs := 0
	rapid.Check(t, func(rt *rapid.T) {
		runs++
		start := time.Date(2027, 3, 1+rapid.IntRange(0, 20).Draw(rt, "start"), 15, 17, 0, 0, modelZone) // no advance ends while a failed ping waits for its next try
		w := &world{t: rt, file: filepath.Join(dir, fmt.Sprintf("%d.db", runs)), clock: &scheduler.HandClock{At: start}, hour: 8,
			got: map[string]int{}, crashes: map[string]int{}}
		w.open()
		defer func() { _ = w.db.Close() }()
		w.say("open 5 lb juniper 1.5 in")
		w.say("yes")
		w.batches = append(w.batches, &flipModel{opened: start, heard: start, turned: start})
		w.lengthen(1)
		rt.Repeat(map[string]func(*rapid.T){
			"open": func(t *rapid.T) {
				if len(w.batches) >= 3 {
					t.Skip("three batches at once are enough to mix up; rapid takes another action")
				}
				w.say("open 5 lb juniper 1.5 in")
				w.batches = append(w.batches, &flipModel{opened: w.clock.At, heard: w.clock.At, turned: w.clock.At})
				w.lengthen(len(w.batches))
			},
			"flip": func(t *rapid.T) {
				n, f := w.pick(t)
				w.say(fmt.Sprintf("flip %d", n))
				if !f.flipped.Equal(dateOf(w.clock.At)) { // a second one the same day changes nothing
					f.turned, f.heard, f.muted, f.flipped = w.clock.At, w.clock.At, false, dateOf(w.clock.At)
				}
			},
			"close": func(t *rapid.T) {
				n, f := w.pick(t)
				w.say(fmt.Sprintf("close %d all eaten", n))
				f.closed = true
			},
			"mute": func(t *rapid.T) {
				n, f := w.pick(t)
				w.say(fmt.Sprintf("pings %d off", n))
				f.muted, f.heard = true, w.clock.At
			},
			"restart": func(*rapid.T) {
				if err := w.db.Close(); err != nil {
					w.t.Fatal(err)
				}
				w.open()
			},
			"trouble": func(t *rapid.T) {
				w.crash = rapid.SampledFrom([]string{"before", "after", "refused", "timeout"}).Draw(t, "trouble")
			},
			"hours": func(t *rapid.T) {
				w.within(t, start)
				w.advance(time.Duration(rapid.IntRange(1, 12).Draw(t, "hours")) * time.Hour)
			},
			"days": func(t *rapid.T) {
				w.within(t, start)
				w.advance(time.Duration(rapid.IntRange(1, 3).Draw(t, "days")) * 24 * time.Hour)
			},
		})
	})
}
