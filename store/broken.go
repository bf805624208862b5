package store

import (
	"errors"
	"fmt"
	"sync"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// Broken says that the file itself can't be used just now. Nothing stored before
// is lost by it: a change is kept whole or not at all.
type Broken struct {
	Why   string // a sentence for whoever runs the program
	Cause error
}

func (b *Broken) Error() string { return fmt.Sprintf("%s (%v)", b.Why, b.Cause) }

func (b *Broken) Unwrap() error { return b.Cause }

func (b *Broken) damaged() bool {
	var e *sqlite.Error
	return errors.As(b.Cause, &e) && (e.Code()&0xff == sqlite3.SQLITE_CORRUPT || e.Code()&0xff == sqlite3.SQLITE_NOTADB)
}

// reason gives the sentence for each primary result code that is the file's
// fault; see https://www.sqlite.org/rescode.html.
func reason(code int) string {
	switch code & 0xff {
	case sqlite3.SQLITE_FULL:
		return "the disk is full: make room, nothing else is needed"
	case sqlite3.SQLITE_READONLY:
		return "the database can't be written: check who owns the file and its folder"
	case sqlite3.SQLITE_IOERR:
		return "the disk reports an error: check it, and that the folder is still there"
	case sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB:
		return "the database is damaged: stop the program, keep a copy of the file, run \"larderhand doctor\""
	case sqlite3.SQLITE_CANTOPEN:
		return "the database can't be opened: check that the folder is still there and who owns it"
	}
	return ""
}

// broken gives the *Broken in an error, or nil if the file is not to blame.
func broken(err error) *Broken {
	var b *Broken
	if errors.As(err, &b) {
		return b
	}
	var e *sqlite.Error
	if !errors.As(err, &e) {
		return nil
	}
	if why := reason(e.Code()); why != "" {
		return &Broken{Why: why, Cause: err}
	}
	return nil
}

// state is whether the file can be written, as last seen.
type state struct {
	mu  sync.Mutex
	err error
}

// Err is why the file can't be written, as last seen, or nil.
func (db *DB) Err() error {
	db.state.mu.Lock()
	defer db.state.mu.Unlock()
	return db.state.err
}

// note takes up how a transaction ended. A failure that is not the file's fault
// says nothing about the file, nor does having read some of it; and a damaged file
// stays so though part of it can still be written.
func (db *DB) note(k Kind, err error) {
	b := broken(err)
	if b == nil && (err != nil || k == Read) {
		return
	}
	db.state.mu.Lock()
	was := db.state.err
	if b == nil && broken(was) != nil && broken(was).damaged() {
		b = broken(was)
	}
	db.state.err = nil
	if b != nil {
		db.state.err = b
	}
	turned := (was == nil) != (b == nil)
	db.state.mu.Unlock()
	if !turned || db.turn == nil {
		return
	}
	if b == nil {
		db.turn(nil)
		return
	}
	db.turn(b)
}

// watched runs a transaction, tells of its beginning and end, and wraps an error
// of the file in a *Broken.
func (db *DB) watched(k Kind, do func() error) error {
	if db.begun != nil {
		defer db.begun(k)()
	}
	err := do()
	if b := broken(err); b != nil {
		err = b
	}
	db.note(k, err)
	return err
}
