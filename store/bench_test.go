package store

import (
	"context"
	"flag"
	"fmt"
	"path/filepath"
	"runtime"
	"sync"
	"testing"
	"time"
)

var large = flag.Bool("large", false, "run benchmarks with a million of everything")

func sizes() []int {
	if *large {
		return []int{10_000, 100_000, 1_000_000}
	}
	return []int{10_000, 100_000}
}

var benchNow = time.Date(2027, 3, 1, 8, 0, 0, 0, time.UTC)

// pending makes a file with so many conversations, each with a chore planned for
// some minute of the coming day.
func pending(tb testing.TB, n int) *DB {
	tb.Helper()
	db, err := Open(context.Background(), filepath.Join(tb.TempDir(), "bench.db"))
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { _ = db.Close() })
	for _, q := range []string{
		fmt.Sprintf(`WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < %d)
			INSERT INTO conversation (id, address, settings, created_at) SELECT i, 'telegram:' || i, '{}', 0 FROM n`, n),
		fmt.Sprintf(`INSERT INTO chore (id, conversation_id, batch_id, kind, slot, due_at, try_at, lane)
			SELECT (due / 60000 << 24) + c, c, c, 'flip', 'x', due, due, 'telegram'
			FROM (SELECT id AS c, %d + 60000 * (1 + id * 7919 %% 1440) AS due FROM conversation) ORDER BY due, c`, benchNow.UnixMilli()),
	} {
		if _, err := db.write.Exec(q); err != nil {
			tb.Fatal(err)
		}
	}
	return db
}

// BenchmarkIdleTick is a heartbeat at which nothing is due.
func BenchmarkIdleTick(b *testing.B) {
	for _, n := range sizes() {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			db := pending(b, n)
			b.ResetTimer()
			for b.Loop() {
				if _, err := db.Upcoming(b.Context()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkClaim takes up and puts back due chores among n planned ones; the figure
// of interest is per chore. "row" has 500 of one minute, planted one after the other,
// as a morning's are; "strewn" has 500 of one minute of conversations all over, each
// planted for another time first; "apart" has 100, each on a page of its own whatever
// n is, which is as bad as it gets.
func BenchmarkClaim(b *testing.B) {
	minuteAgo := benchNow.Add(-time.Minute)
	for _, due := range []struct {
		name  string
		count int
		make  func(db *DB, n int) error
	}{
		{"row", 500, func(db *DB, _ int) error {
			return db.replant(b.Context(), minuteAgo, "SELECT id FROM conversation ORDER BY id LIMIT 500 OFFSET 3000")
		}},
		{"strewn", 500, func(db *DB, _ int) error {
			return db.replant(b.Context(), minuteAgo, "SELECT id FROM conversation ORDER BY id * 7919 % 1000003 LIMIT 500")
		}},
		{"apart", 100, func(db *DB, n int) error {
			_, err := db.write.Exec(fmt.Sprintf(`UPDATE chore SET due_at = ?1, try_at = ?1 WHERE id IN
				(SELECT id FROM (SELECT id, row_number() OVER (ORDER BY id) AS i FROM chore) WHERE i %% %d = 0)`, n/100), minuteAgo.UnixMilli())
			return err
		}},
	} {
		for _, n := range sizes() {
			b.Run(fmt.Sprintf("%s-%d", due.name, n), func(b *testing.B) {
				db := pending(b, n)
				if err := due.make(db, n); err != nil {
					b.Fatal(err)
				}
				claims(b, db, due.count)
			})
		}
	}
}

// replant has the chores of conversations due at an instant, as planning anew does.
func (db *DB) replant(ctx context.Context, due time.Time, which string) error {
	return db.Update(ctx, benchNow, func(tx *Tx) error {
		ids, err := gather(tx, itself[int64], which)
		if err != nil {
			return err
		}
		for _, id := range ids {
			if err := planAnew(tx, id, id, Want{Kind: "flip", Slot: "x", Due: due}); err != nil {
				return err
			}
		}
		return nil
	})
}

func claims(b *testing.B, db *DB, count int) {
	b.Helper()
	b.ReportAllocs()
	rows, i := 0, 0
	for b.Loop() {
		i++
		got, err := db.Claim(b.Context(), benchNow, "telegram", fmt.Sprintf("%012d", i), benchNow.Add(time.Minute), 500)
		if err != nil || len(got) != count {
			b.Fatal(len(got), err)
		}
		rows += len(got)
		if err := db.Release(b.Context(), benchNow, got, benchNow); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(rows), "µs/chore")
	runtime.GC()
	runtime.GC() // what a pool held goes with the second
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	b.ReportMetric(float64(m.HeapInuse)/(1<<20), "MiB-heap")
}

// BenchmarkClaimAmongDropped claims in a conversation with 20,000 dropped chores, as
// planning anew leaves them.
func BenchmarkClaimAmongDropped(b *testing.B) {
	db := pending(b, 100)
	var batch Batch
	change := func(fn func(*Tx) error) {
		b.Helper()
		if err := db.Update(b.Context(), benchNow, fn); err != nil {
			b.Fatal(err)
		}
	}
	change(func(tx *Tx) error {
		m, err := tx.Member(7, "ines", "Ines")
		if err != nil {
			return err
		}
		batch, err = tx.CreateBatch(Batch{Conversation: 7, Keeper: m.ID, Opened: benchNow, Stage: "curing"})
		if err != nil {
			return err
		}
		// The others of the table must not hold the number the batch got.
		_, err = tx.exec("UPDATE chore SET batch_id = 0 WHERE batch_id = ?", batch.ID)
		return err
	})
	wants := make([]Want, 20_000)
	for i := range wants {
		wants[i] = Want{Kind: "flip", Slot: fmt.Sprint(i), Due: benchNow}
	}
	change(func(tx *Tx) error { return planAnew(tx, 7, batch.ID, wants...) })
	change(func(tx *Tx) error { return planAnew(tx, 7, batch.ID, wants[:1]...) })
	for i := 0; b.Loop(); i++ {
		got, err := db.Claim(b.Context(), benchNow, "telegram", fmt.Sprintf("%012d", i), benchNow.Add(time.Minute), 500)
		if err != nil || len(got) != 1 {
			b.Fatal(len(got), err)
		}
		if err := db.Release(b.Context(), benchNow, got, benchNow); err != nil {
			b.Fatal(err)
		}
	}
}

// Readers and writers together meet no busy error.
func TestReadersAndWritersTogether(t *testing.T) {
	db := pending(t, 2000)
	ctx := context.Background()
	var work sync.WaitGroup
	for w := range 4 {
		work.Go(func() {
			for i := range 50 {
				now := benchNow.Add(24 * time.Hour)
				got, err := db.Claim(ctx, now, "telegram", fmt.Sprintf("%d-%010d", w, i), now.Add(time.Hour), 10)
				if err == nil {
					err = db.Update(ctx, now, func(tx *Tx) error {
						for _, c := range got {
							if err := tx.MarkSent(c); err != nil {
								return err
							}
						}
						return nil
					})
				}
				if err != nil {
					t.Error(err)
					return
				}
			}
		})
		work.Go(func() {
			for range 200 {
				err := db.View(ctx, benchNow, func(tx *Tx) error {
					if _, err := tx.Upcoming(); err != nil {
						return err
					}
					_, err := tx.Chores(int64(1 + w))
					return err
				})
				if err != nil {
					t.Error(err)
					return
				}
			}
		})
	}
	work.Wait()
	var sent int
	err := db.View(ctx, benchNow, func(tx *Tx) error { return tx.one("SELECT COUNT(*) FROM chore WHERE state = 'sent'", nil, &sent) })
	if err != nil || sent != 2000 {
		t.Errorf("%d of 2000 were sent once, %v", sent, err)
	}
}
