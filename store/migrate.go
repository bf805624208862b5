package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"

	"github.com/pressly/goose/v3"
)

//go:embed migration/*.sql
var migrations embed.FS

// ErrNewer says that the file was written by a newer version of the program.
var ErrNewer = errors.New("this file was written by a newer larderhand; please update the program")

func migrator(db *sql.DB) (*goose.Provider, error) {
	dir, err := fs.Sub(migrations, "migration")
	if err != nil {
		return nil, err
	}
	p, err := goose.NewProvider(goose.DialectSQLite3, db, dir)
	if err != nil {
		return nil, fmt.Errorf("read the migrations: %w", err)
	}
	return p, nil
}

// migrate brings the schema to a version; 0 is the newest.
func migrate(ctx context.Context, db *sql.DB, to int64) error {
	p, err := migrator(db)
	if err != nil {
		return err
	}
	have, want, err := p.GetVersions(ctx)
	if err != nil {
		return fmt.Errorf("read the schema version: %w", err)
	}
	if have > want {
		return fmt.Errorf("%w (schema %d, this program knows %d)", ErrNewer, have, want)
	}
	if to == 0 {
		to = want
	}
	if _, err := p.UpTo(ctx, to); err != nil {
		return fmt.Errorf("bring the schema up to date: %w", err)
	}
	return nil
}
