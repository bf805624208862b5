package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"runtime"

	"github.com/gofrs/flock"
	_ "modernc.org/sqlite" // the database/sql driver
)

// ErrInUse says that another process has the file open.
var ErrInUse = errors.New("another larderhand is already using this file")

// DB is an open store: one writer connection and a few readers over one file.
type DB struct {
	write *sql.DB
	read  *sql.DB
	lock  *flock.Flock
	file  string
	// Queries kept ready on the writer and on the readers.
	writes, readies statements
	options
	state state
}

// Memory names a store that lives only as long as it is open.
const Memory = ":memory:"

// Open opens the store in a file, creating it (readable by its owner only) and
// bringing its schema up to date. A second process on the same file gets
// ErrInUse; a file written by a newer version gets ErrNewer, one that can't be used
// a *Broken. What a process that
// died had claimed is free again.
func Open(ctx context.Context, file string, opts ...Option) (*DB, error) {
	db := &DB{file: file}
	for _, o := range opts {
		o(&db.options)
	}
	var err error
	if file == Memory {
		err = db.openMemory()
	} else {
		err = db.openFile(file)
	}
	if err == nil {
		err = migrate(ctx, db.write, 0)
	}
	if err == nil {
		// On a file that can't be written the claims run out by themselves.
		_, rerr := db.write.ExecContext(ctx, recoverQuery)
		if broken(rerr) == nil {
			err = rerr
		}
	}
	if err != nil {
		if b := broken(err); b != nil {
			err = b
		}
		return nil, errors.Join(err, db.Close())
	}
	return db, nil
}

func (db *DB) openFile(file string) error {
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return fmt.Errorf("make the data folder: %w", err)
	}
	lock := flock.New(file+".lock", flock.SetPermissions(0o600))
	held, err := lock.TryLock()
	if err != nil {
		return fmt.Errorf("lock %s: %w", file, err)
	}
	if !held {
		return fmt.Errorf("%w: %s", ErrInUse, file)
	}
	db.lock = lock
	f, err := os.OpenFile(file, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return fmt.Errorf("open %s: %w", file, err)
	}
	if err := f.Close(); err != nil {
		return fmt.Errorf("open %s: %w", file, err)
	}
	return db.connect("file:"+(&url.URL{Path: file}).EscapedPath(), max(2, runtime.NumCPU()))
}

// openMemory shares one connection: every connection to ":memory:" would be a
// database of its own.
func (db *DB) openMemory() error {
	w, err := sql.Open("sqlite", dsn("file::memory:")+immediate)
	if err != nil {
		return err
	}
	w.SetMaxOpenConns(1)
	db.write, db.read = w, w
	return nil
}

func (db *DB) connect(name string, readers int) error {
	w, err := sql.Open("sqlite", dsn(name)+immediate+db.limit())
	if err != nil {
		return err
	}
	w.SetMaxOpenConns(1) // SQLite has one writer; queueing here beats busy errors there
	db.write = w
	r, err := sql.Open("sqlite", dsn(name)+"&_pragma=query_only(1)")
	if err != nil {
		return err
	}
	r.SetMaxOpenConns(readers)
	db.read = r
	return nil
}

// immediate makes write transactions take the lock at once. They then never have
// to upgrade a read lock, the one way left to get a busy error.
const immediate = "&_txlock=immediate"

// dsn sets the pragmas of every connection; busy_timeout comes first so that the
// others wait too. synchronous(full): a "sent" mark or an acknowledged change
// must survive a power cut.
func dsn(name string) string {
	return name + "?_pragma=busy_timeout(10000)&_pragma=journal_mode(wal)&_pragma=foreign_keys(1)" +
		"&_pragma=synchronous(full)&_pragma=cache_size(-32768)"
}

// Close closes the store and lets the next process have the file.
func (db *DB) Close() error {
	var errs []error
	if db.read != nil && db.read != db.write {
		errs = append(errs, db.read.Close())
	}
	if db.write != nil {
		errs = append(errs, db.write.Close())
	}
	if db.lock != nil {
		errs = append(errs, db.lock.Unlock())
	}
	return errors.Join(errs...)
}
