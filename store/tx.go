package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"time"
)

// ErrNotFound says that there is no such record here.
var ErrNotFound = errors.New("no such record")

// Tx is one transaction with one idea of now. Its methods compose; DB.Update and
// DB.View open and end it.
type Tx struct {
	ctx   context.Context
	tx    *sql.Tx
	now   time.Time
	known *statements // nil: none is kept ready
}

// Now is the instant the transaction happens at.
func (t *Tx) Now() time.Time { return t.now }

// Update runs fn in a write transaction and commits if it returns nil. Nothing fn
// did is kept otherwise.
func (db *DB) Update(ctx context.Context, now time.Time, fn func(*Tx) error) error {
	return db.watched(Write, func() error { return run(ctx, db.write, nil, &db.writes, now, fn) })
}

// View runs fn in a read transaction: all it reads is of one moment.
func (db *DB) View(ctx context.Context, now time.Time, fn func(*Tx) error) error {
	return db.watched(Read, func() error {
		return run(ctx, db.read, &sql.TxOptions{ReadOnly: db.read != db.write}, db.reads(), now, fn)
	})
}

// reads gives the queries kept ready for reading: those for writing where both go
// over one connection.
func (db *DB) reads() *statements {
	if db.read == db.write {
		return &db.writes
	}
	return &db.readies
}

func run(ctx context.Context, db *sql.DB, opts *sql.TxOptions, known *statements, now time.Time, fn func(*Tx) error) error {
	tx, err := db.BeginTx(ctx, opts)
	if err != nil {
		return fmt.Errorf("begin: %w", err)
	}
	// A rollback after a commit is an error that means nothing; after a panic it
	// frees the only writer.
	defer func() { _ = tx.Rollback(); known.ready(context.WithoutCancel(ctx), db) }()
	// The transaction ends with ctx; its statements, each a matter of microseconds,
	// need not watch for that too.
	if err := fn(&Tx{ctx: context.WithoutCancel(ctx), tx: tx, now: now, known: known}); err != nil {
		return err
	}
	if err := tx.Commit(); err != nil {
		return fmt.Errorf("commit: %w", err)
	}
	return nil
}

// stmt gives a query made ready within the transaction, or nil.
func (t *Tx) stmt(query string) *sql.Stmt {
	if t.known == nil {
		return nil
	}
	if st := t.known.get(query); st != nil {
		return t.tx.StmtContext(t.ctx, st)
	}
	return nil
}

func (t *Tx) exec(query string, args ...any) (sql.Result, error) {
	if st := t.stmt(query); st != nil {
		return st.ExecContext(t.ctx, args...)
	}
	return t.tx.ExecContext(t.ctx, query, args...)
}

func (t *Tx) query(query string, args ...any) (*sql.Rows, error) {
	if st := t.stmt(query); st != nil {
		return st.QueryContext(t.ctx, args...)
	}
	return t.tx.QueryContext(t.ctx, query, args...)
}

// each runs a query and calls fn for every row.
func (t *Tx) each(fn func(scan func(...any) error) error, query string, args ...any) error {
	rows, err := t.query(query, args...)
	if err != nil {
		return err
	}
	defer func() { _ = rows.Close() }()
	for rows.Next() {
		if err := fn(rows.Scan); err != nil {
			return err
		}
	}
	return rows.Err()
}

// one runs a query for at most one row; no row is ErrNotFound.
func (t *Tx) one(query string, args []any, into ...any) error {
	found := false
	err := t.each(func(scan func(...any) error) error {
		if found {
			return nil
		}
		found = true
		return scan(into...)
	}, query, args...)
	if err == nil && !found {
		err = ErrNotFound
	}
	return err
}

// toMillis and fromMillis keep the zero time as 0.
func toMillis(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMilli()
}

func fromMillis(ms int64) time.Time {
	if ms == 0 {
		return time.Time{}
	}
	return time.UnixMilli(ms).UTC()
}

func toJSON(v any) (string, error) {
	b, err := json.Marshal(v)
	return string(b), err
}
