package main

import (
	"context"
	"crypto/rand"
	"flag"
	"fmt"
	"log/slog"
	"path/filepath"
	"runtime/debug"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/course"
	"larderhand/bot/discord"
	"larderhand/bot/ledger"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

var large = flag.Bool("large", false, "run benchmarks with a million conversations too")

// eight is a morning in Berlin.
var eight = time.Date(2027, 3, 2, 7, 0, 0, 0, time.UTC)

// crowd is the conversations of a platform, and how fast it takes pings.
type crowd struct {
	name    string
	limits  scheduler.Limits
	most    float64 // messages a second, as the platform publishes it
	address func(i int) store.Address
}

func crowds() []crowd {
	return []crowd{
		{"telegram", telegramLimits(), 30, func(i int) store.Address {
			if i%10 == 0 { // a group, which takes less than a person
				return store.Address(fmt.Sprintf("telegram:-100%d", 1_000_000_000+i))
			}
			return store.Address(fmt.Sprintf("telegram:%d", i+1))
		}},
		{"discord", discordLimits(), 50, func(i int) store.Address { return discord.Address(fmt.Sprint(900_000_000_000_000_000 + i)) }},
	}
}

// village is many conversations with a batch each, every tenth with two, opened the
// day before and due for their flips at eight.
func (c crowd) village(tb testing.TB, n int) (*store.DB, *bot.Bot, *scheduler.HandClock) {
	tb.Helper()
	ctx := context.Background()
	db, err := store.Open(ctx, filepath.Join(tb.TempDir(), "village.db"))
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { _ = db.Close() })
	opened := eight.Add(-22 * time.Hour)
	for from := 0; from < n; from += 10_000 {
		err := db.Update(ctx, opened, func(tx *store.Tx) error {
			for i := from; i < min(n, from+10_000); i++ {
				batches := 1
				if i%10 == 5 {
					batches = 2
				}
				if err := moveIn(tx, c.address(i), batches, opened); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			tb.Fatal(err)
		}
	}
	rules, err := curemath.LoadRules()
	if err != nil {
		tb.Fatal(err)
	}
	clock := &scheduler.HandClock{At: eight.Add(-time.Minute)}
	return db, bot.New(bot.Config{Ledger: ledger.Ledger{DB: db}, Clock: clock, Zone: time.UTC, Log: slog.New(slog.DiscardHandler), Rules: rules}), clock
}

func moveIn(tx *store.Tx, at store.Address, batches int, opened time.Time) error {
	c, err := tx.SaveConversation(store.Conversation{Address: at,
		Settings: store.Settings{Zone: "Europe/Berlin", PingHour: 480, QuietFrom: 22 * 60, QuietTo: 7 * 60, Units: "metric", Rules: "us"}})
	if err != nil {
		return err
	}
	m, err := tx.Member(c.ID, "marit", "Marit")
	if err != nil {
		return err
	}
	for range batches {
		b, err := tx.CreateBatch(store.Batch{Conversation: c.ID, Keeper: m.ID, Opened: opened, Stage: string(course.Curing),
			Plan: store.Plan{Method: "dry", Days: 9}, Pieces: []store.Piece{{Letter: "a", Weight: 2500, Thickness: 40, Flavouring: "juniper"}}})
		if err != nil {
			return err
		}
		if _, err := tx.Append(store.Entry{Batch: b.ID, Kind: course.Opened, At: opened, Member: m.ID}); err != nil {
			return err
		}
		b.Version = 1 // as the bot leaves it
		if err := tx.SaveBatch(b); err != nil {
			return err
		}
		if err := tx.Reconcile(c.ID, b.ID, nil, []store.Want{{Kind: course.Flip, Slot: "2027-03-02", Due: eight}}); err != nil {
			return err
		}
	}
	return nil
}

// nobody takes every message and forgets it.
type nobody struct{ messages int }

func (n *nobody) Send(context.Context, store.Address, string, reply.Reply) (string, error) {
	n.messages++
	return "", nil
}

// BenchmarkPings composes, hands to nobody and records the pings of a morning, as
// quickly as it goes. The figure of interest is per ping.
func BenchmarkPings(b *testing.B) {
	for _, n := range []int{10_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			db, larder, clock := crowds()[0].village(b, n)
			cpu := cpuTime()
			b.ResetTimer()
			for b.Loop() { // once, with -benchtime 1x
				to := &nobody{}
				s := &scheduler.Scheduler{Due: db, Reach: db, Deliver: bot.Deliverer{Bot: larder, Sender: to}, Lease: rand.Text, Log: slog.New(slog.DiscardHandler)}
				if err := s.Advance(b.Context(), clock, clock.At.Add(12*time.Hour)); err != nil {
					b.Fatal(err)
				}
				if to.messages != n {
					b.Fatalf("%d messages", to.messages)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(n), "µs/ping")
			b.ReportMetric(float64((cpuTime()-cpu).Microseconds())/float64(n), "cpu-µs/ping")
		})
	}
}

// BenchmarkMorning has everyone due at eight, on a simulated clock under a
// platform's limits. "of-floor" is how long it takes against the least the limit
// allows; "own-share" is the time spent on storing and composing against that, and
// "cpu-share" the part of it in which this process had a processor.
func BenchmarkMorning(b *testing.B) {
	sizes := []int{10_000, 100_000}
	if *large {
		sizes = append(sizes, 1_000_000)
	}
	for _, c := range crowds() {
		for _, n := range sizes {
			b.Run(fmt.Sprintf("%s-%d", c.name, n), func(b *testing.B) {
				db, larder, clock := c.village(b, n)
				defer debug.SetGCPercent(debug.SetGCPercent(400)) // as a server runs
				b.ResetTimer()
				for b.Loop() { // once, with -benchtime 1x
					c.morning(b, db, larder, clock, n)
				}
			})
		}
	}
}

func (c crowd) morning(b *testing.B, db *store.DB, larder *bot.Bot, clock *scheduler.HandClock, n int) {
	b.Helper()
	to := &nobody{}
	var last time.Time
	s := &scheduler.Scheduler{Due: db, Reach: db, Lease: rand.Text, Log: slog.New(slog.DiscardHandler),
		Deliver: bot.Deliverer{Bot: larder, Sender: stamped{to, clock, &last}}, Limits: map[string]scheduler.Limits{c.name: c.limits}}
	floor := time.Duration(float64(n) / c.most * float64(time.Second))
	cpu := cpuTime()
	if err := s.Advance(b.Context(), clock, eight.Add(floor*11/10)); err != nil {
		b.Fatal(err)
	}
	if to.messages != n {
		b.Fatalf("%d messages for %d conversations", to.messages, n)
	}
	b.ReportMetric(float64(last.Sub(eight))/float64(floor), "of-floor")
	b.ReportMetric(float64(b.Elapsed())/float64(floor), "own-share")
	b.ReportMetric(float64(cpuTime()-cpu)/float64(floor), "cpu-share")
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(n), "µs/ping")
}

// stamped notes when the last message went out.
type stamped struct {
	bot.Sender
	clock *scheduler.HandClock
	last  *time.Time
}

func (s stamped) Send(ctx context.Context, to store.Address, key string, r reply.Reply) (string, error) {
	*s.last = s.clock.At
	return s.Sender.Send(ctx, to, key, r)
}
