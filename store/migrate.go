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

func migrate(ctx context.Context, db *sql.DB) error {
	dir, err := fs.Sub(migrations, "migration")
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(goose.DialectSQLite3, db, dir)
	if err != nil {
		return fmt.Errorf("read the migrations: %w", err)
	}
	have, want, err := p.GetVersions(ctx)
	if err != nil {
		return fmt.Errorf("read the schema version: %w", err)
	}
	if have > want {
		return fmt.Errorf("%w (schema %d, this program knows %d)", ErrNewer, have, want)
	}
	if _, err := p.Up(ctx); err != nil {
		return fmt.Errorf("bring the schema up to date: %w", err)
	}
	return nil
}
