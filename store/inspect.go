package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"time"

	"github.com/gofrs/flock"
)

// Findings is what an inspection of a file saw.
type Findings struct {
	Size      int64
	Mode      os.FileMode
	InUse     bool     // another process has it open
	Schema    int64    // version of the file
	Newest    int64    // version this program knows
	Damage    []string // what the engine's own check says; empty when sound
	Orphans   int      // rows that name a row that is not there
	States    map[string]int
	OldestDue time.Time // of what is open; zero if nothing is
	Parked    int       // conversations out of reach
	Latest    time.Time // the latest instant anything was written down at
	Zones     map[string]int
}

// mostDamage is how many lines of damage are kept.
const mostDamage = 10

// Inspect looks at a store's file without changing it, also while another process
// uses it. Damage is a finding; an error means that nothing could be read at all.
func Inspect(ctx context.Context, file string) (Findings, error) {
	var f Findings
	info, err := os.Stat(file)
	if err != nil {
		return f, err
	}
	f.Size, f.Mode = info.Size(), info.Mode().Perm()
	if _, err := os.Stat(file + ".lock"); err == nil {
		l := flock.New(file + ".lock")
		held, err := l.TryRLock()
		f.InUse = err == nil && !held
		if held {
			defer func() { _ = l.Unlock() }() // nothing depends on it after this
		}
	}
	db, err := sql.Open("sqlite", "file:"+(&url.URL{Path: file}).EscapedPath()+"?mode=ro&_pragma=busy_timeout(10000)&_pragma=query_only(1)")
	if err != nil {
		return f, err
	}
	db.SetMaxOpenConns(1)
	err = errors.Join(f.read(ctx, db), db.Close())
	if b := broken(err); b != nil {
		return f, b
	}
	return f, err
}

func (f *Findings) read(ctx context.Context, db *sql.DB) error {
	p, err := migrator(db)
	if err != nil {
		return err
	}
	for _, s := range p.ListSources() {
		f.Newest = max(f.Newest, s.Version)
	}
	tx := &Tx{ctx: ctx}
	if tx.tx, err = db.BeginTx(ctx, nil); err != nil {
		return err
	}
	defer func() { _ = tx.tx.Rollback() }() // it read only
	if err := tx.one("SELECT COALESCE(MAX(version_id), 0) FROM goose_db_version WHERE is_applied", nil, &f.Schema); err != nil {
		return fmt.Errorf("this is no larderhand file, or one too damaged to read: %w", err)
	}
	err = tx.each(func(scan func(...any) error) error {
		var line string
		if err := scan(&line); err != nil {
			return err
		}
		if line != "ok" && len(f.Damage) < mostDamage {
			f.Damage = append(f.Damage, line)
		}
		return nil
	}, "PRAGMA integrity_check(100)")
	if err != nil {
		return err
	}
	err = tx.each(func(func(...any) error) error { f.Orphans++; return nil }, "PRAGMA foreign_key_check")
	if err != nil || f.Schema < f.Newest {
		return err // the rest is asked of the schema of today
	}
	return f.contents(tx)
}

func (f *Findings) contents(tx *Tx) error {
	f.States, f.Zones = map[string]int{}, map[string]int{}
	count := func(into map[string]int) func(func(...any) error) error {
		return func(scan func(...any) error) error {
			var (
				name string
				n    int
			)
			err := scan(&name, &n)
			into[name] = n
			return err
		}
	}
	var oldest, latest *int64
	err := errors.Join(
		tx.each(count(f.States), "SELECT state, COUNT(*) FROM chore GROUP BY state"),
		tx.each(count(f.Zones), "SELECT COALESCE(json_extract(settings, '$.zone'), ''), COUNT(*) FROM conversation GROUP BY 1"),
		tx.one("SELECT MIN(due_at) FROM chore WHERE "+open, nil, &oldest),
		tx.one("SELECT COUNT(*) FROM conversation WHERE parked <> ''", nil, &f.Parked),
		tx.one("SELECT MAX((SELECT COALESCE(MAX(recorded_at), 0) FROM entry), (SELECT COALESCE(MAX(sent_at), 0) FROM chore))", nil, &latest))
	if oldest != nil {
		f.OldestDue = fromMillis(*oldest)
	}
	if latest != nil {
		f.Latest = fromMillis(*latest)
	}
	return err
}

// Backlog is what waits in a store at an instant.
type Backlog struct {
	Due    map[string]int // chores to be taken up, by lane
	Parked int            // conversations out of reach
}

// Backlog counts what waits. It costs as much as there is due.
func (db *DB) Backlog(ctx context.Context, now time.Time) (Backlog, error) {
	b := Backlog{Due: map[string]int{}}
	err := db.View(ctx, now, func(tx *Tx) error {
		lanes, err := tx.Upcoming()
		if err != nil {
			return err
		}
		for lane := range lanes {
			for _, urgency := range []int{Urgent, Soon, Routine} {
				var n int
				if err := tx.one("SELECT COUNT(*) FROM chore INDEXED BY chore_open WHERE "+open+" AND lane = ? AND urgency = ? AND try_at <= ?",
					[]any{lane, urgency, toMillis(now)}, &n); err != nil {
					return err
				}
				b.Due[lane] += n
			}
		}
		return tx.one("SELECT COUNT(*) FROM conversation INDEXED BY conversation_parked WHERE parked <> ''", nil, &b.Parked)
	})
	return b, err
}
