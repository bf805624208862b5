package bot_test

import (
	"context"
	"fmt"
	"log/slog"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"larderhand/bot"
	"larderhand/bot/ledger"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

// loud fails the test when anything is logged as an error: Handle recovers from a
// panic, and that must not hide it here.
type loud struct{ tb testing.TB }

func (l loud) Write(p []byte) (int, error) {
	l.tb.Errorf("logged: %s", p)
	return len(p), nil
}

// bench is a bot on a store in memory and a clock by hand.
type bench struct {
	bot   *bot.Bot
	db    *store.DB
	clock *scheduler.HandClock
	n     int
}

func newBench(tb testing.TB, file string, opts ...store.Option) *bench {
	tb.Helper()
	rules, err := curemath.LoadRules()
	if err != nil {
		tb.Fatal(err)
	}
	db, err := store.Open(context.Background(), file, opts...)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() {
		if err := db.Close(); err != nil {
			tb.Error(err)
		}
	})
	zone, err := time.LoadLocation("America/Chicago")
	if err != nil {
		tb.Fatal(err)
	}
	clock := &scheduler.HandClock{At: time.Date(2027, 3, 1, 9, 0, 0, 0, zone)}
	log := slog.New(slog.NewTextHandler(loud{tb}, &slog.HandlerOptions{Level: slog.LevelError}))
	return &bench{bot: bot.New(bot.Config{Ledger: ledger.Ledger{DB: db}, Clock: clock, Zone: zone, Log: log, Rules: rules}), db: db, clock: clock}
}

func (b *bench) say(text string, with ...reply.File) reply.Reply {
	b.n++
	return b.bot.Handle(context.Background(), bot.Message{Event: fmt.Sprint(b.n), Conversation: "bench:", Direct: true,
		Sender: bot.Person{Key: "marit", Name: "Marit"}, Text: text, Files: with})
}

// Any line gets a reply, nothing panics, and what is printed is text.
func FuzzHandle(f *testing.F) {
	for _, s := range []string{"5 lb", "open 6 lb juniper 1.5 in, 3.2 kg coffee and chilli", "yes", "flip 1", "batch 1", "why 1a", "undo 1",
		"later 2h 1", "3 pit 148 core 121", "set zone Europe/Berlin", "skip 1 season, no", "pack 1 2 kg frozen", "set away until Sunday",
		"caution cold", "/cure@bot 5 lb", "½ lb", "1e400", "\x00\xff", "flip \u202e3", "soak 1 45 min", "close 1 x\ny", "thick 1 99 in", "done", "why 1\nheat", "why check ȺȺȺȺȺȺȺȺȺȺȺȺ", "why check \u212a", "brine 5 lb, 2 l water", "check 1 tsp curing mix for 5 lb rind on"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, line string) {
		b := newBench(t, store.Memory)
		b.say("open 6 lb juniper 1.5 in, 3.2 kg coffee and chilli 4 cm")
		b.say("yes")
		r := b.say(line)
		if r.Empty() {
			t.Errorf("%q got no reply", line)
		}
		if text := r.Text(); !utf8.ValidString(text) {
			t.Errorf("%q was answered with broken text", line)
		}
		for _, row := range r.Buttons {
			for _, btn := range row {
				if _, err := reply.ParseToken(btn.Token()); err != nil {
					t.Errorf("%q: button %q has a token that cannot be read back: %q", line, btn.Label, btn.Token())
				}
			}
		}
		if b.say("batches").Empty() {
			t.Errorf("after %q nothing is answered any more", line)
		}
	})
}

func TestSameEventIsDoneOnce(t *testing.T) {
	b := newBench(t, store.Memory)
	b.say("open 5 lb juniper 1.5 in")
	b.say("yes")
	m := bot.Message{Event: "again", Conversation: "bench:", Sender: bot.Person{Key: "marit", Name: "Marit"}, Text: "open 4 lb juniper 1.5 in"}
	first := b.bot.Handle(t.Context(), m)
	second := b.bot.Handle(t.Context(), m)
	if first.Text() != second.Text() || !strings.Contains(first.Text(), "Batch 2") {
		t.Errorf("the same event got two answers:\n%s\n%s", first.Text(), second.Text())
	}
	if list := b.say("batches").Text(); strings.Contains(list, "3 juniper") {
		t.Errorf("the same event opened two batches:\n%s", list)
	}
}

// A batch number from another conversation does not exist here.
func TestConversationsAreApart(t *testing.T) {
	b := newBench(t, store.Memory)
	b.say("open 5 lb juniper 1.5 in")
	b.say("yes")
	for _, text := range []string{"batch 1", "flip 1", "undo 1", "note 1 hello", "why 1", "close 1 x", "batches all"} {
		r := b.bot.Handle(t.Context(), bot.Message{Conversation: "elsewhere:", Sender: bot.Person{Key: "tobias", Name: "Tobias", Admin: true}, Text: text})
		if strings.Contains(r.Text(), "juniper,") || strings.Contains(r.Text(), "Batch 1") {
			t.Errorf("%q elsewhere shows a batch:\n%s", text, r.Text())
		}
	}
}

// In a group anyone may read, flip and note; only the keeper or an admin may
// change or end a batch.
func TestWhoMay(t *testing.T) {
	longTable(t)
	for _, c := range []struct {
		text   string
		anyone bool
	}{
		{"batch 1", true}, {"batches", true}, {"why 1", true}, {"flip 1", true}, {"note 1 smells good", true},
		{"firm 1 early, thin", false}, {"undo 1", false}, {"close 1 done", false}, {"discard 1 sour", false},
		{"longer 1 2 days", false}, {"skip 1 rinse, no sink", false}, {"later 2h 1", false}, {"thick 1 2 in", false},
		{"pings 1 off", false}, {"allow 1 flips keeper", false}, {"share 1", false}, {"hand 1 to @ines until Sunday", false}, {"keeper 1 @ines", false},
	} {
		for _, who := range []struct {
			person bot.Person
			may    bool
		}{
			{bot.Person{Key: "marit", Name: "Marit"}, true},
			{bot.Person{Key: "ines", Name: "Ines", Admin: true}, true},
			{bot.Person{Key: "tobias", Name: "Tobias"}, c.anyone},
		} {
			b := newBench(t, store.Memory)
			b.say("open 5 lb juniper 1.5 in")
			b.say("yes")
			b.say("flip 1 at 09:00")
			b.clock.At = b.clock.At.AddDate(0, 0, 1)
			r := b.bot.Handle(t.Context(), bot.Message{Conversation: "bench:", Sender: who.person, Text: c.text})
			refused := strings.Contains(r.Text(), "only the keeper")
			if refused == who.may {
				t.Errorf("%s, admin %v, says %q: %s", who.person.Name, who.person.Admin, c.text, r.Text())
			}
		}
	}
}

func TestLongInputIsRefused(t *testing.T) {
	b := newBench(t, store.Memory)
	r := b.say(strings.Repeat("5 lb ", 3000))
	if !strings.Contains(r.Text(), "15000 characters") {
		t.Errorf("%s", r.Text())
	}
}

// Sums go on while nothing can be stored.
func TestSumsWithoutAStore(t *testing.T) {
	rules, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	db, err := store.Open(t.Context(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	b := bot.New(bot.Config{Ledger: ledger.Ledger{DB: db}, Clock: &scheduler.HandClock{At: time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)},
		Zone: time.UTC, Log: slog.New(slog.DiscardHandler), Rules: rules})
	for text, want := range map[string]string{"5 lb": "4.3 g", "caution cold": "34 to 38", "open 5 lb": "went wrong",
		"5 lb 1.5 in nitrite 100 ppm": "under the 100 ppm", "brine 5 lb 1.5 in, 2 l water nitrite 100 ppm": "under the 100 ppm"} {
		r := b.Handle(t.Context(), bot.Message{Conversation: "x:", Sender: bot.Person{Key: "a", Name: "Ines"}, Text: text})
		if !strings.Contains(r.Text(), want) {
			t.Errorf("%q without a store: %s", text, r.Text())
		}
	}
}

func BenchmarkRoundTrip(b *testing.B) {
	bb := newBench(b, b.TempDir()+"/bench.db")
	bb.say("open 5 lb juniper 1.5 in")
	bb.say("yes")
	for b.Loop() {
		bb.say("5 lb juniper 1.5 in")
	}
}

func BenchmarkRead(b *testing.B) {
	bb := newBench(b, b.TempDir()+"/bench.db")
	bb.say("open 5 lb juniper 1.5 in")
	bb.say("yes")
	for b.Loop() {
		bb.say("batch 1")
	}
}

func BenchmarkOpenBatch(b *testing.B) {
	bb := newBench(b, b.TempDir()+"/bench.db")
	bb.say("open 5 lb juniper 1.5 in")
	bb.say("yes")
	for b.Loop() {
		bb.say("open 6 lb juniper 1.5 in, 3.2 kg coffee and chilli 4 cm")
	}
}

// An account that was deleted comes without a name: a known one is kept, and a
// stranger is someone; neither breaks what others are told.
func TestNamelessPeople(t *testing.T) {
	b := newBench(t, store.Memory)
	say := func(p bot.Person, text string) string {
		return b.bot.Handle(t.Context(), bot.Message{Conversation: "bench:", Sender: p, Text: text}).Text()
	}
	say(bot.Person{Key: "ines", Name: "Ines"}, "open 5 lb juniper 1.5 in")
	say(bot.Person{Key: "ines", Name: "Ines"}, "yes")
	say(bot.Person{Key: "ines"}, "note 1 from a deleted account")
	if got := say(bot.Person{Key: "tobias", Name: "Tobias"}, "close 1 no"); !strings.Contains(got, "Ines's") {
		t.Errorf("a known name was lost: %s", got)
	}
	say(bot.Person{Key: "ghost"}, "note 1 hello")
	say(bot.Person{Key: "ghost"}, "open 4 lb juniper 1.5 in")
	say(bot.Person{Key: "ghost"}, "yes")
	if got := say(bot.Person{Key: "tobias", Name: "Tobias"}, "batch 2"); strings.Contains(got, "keeper .") || !strings.Contains(got, "someone") {
		t.Errorf("a nameless keeper: %s", got)
	}
}
