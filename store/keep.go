package store

import (
	"context"
	"strings"
	"time"
)

// Fact is a small thing an adapter has to find again after a restart, under a name
// of its own making.
type Fact struct {
	Name, Value string
}

// Fact finds a kept fact by name, or ErrNotFound.
func (t *Tx) Fact(name string) (string, error) {
	var value string
	err := t.one("SELECT value FROM keep WHERE name = ?", []any{name}, &value)
	return value, err
}

// Keep writes facts down, over what was kept under their names.
func (t *Tx) Keep(facts ...Fact) error {
	for _, f := range facts {
		_, err := t.exec("INSERT INTO keep (name, value) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value", f.Name, f.Value)
		if err != nil {
			return err
		}
	}
	return nil
}

// Drop forgets facts; one that is not there is no error.
func (t *Tx) Drop(names ...string) error {
	for _, n := range names {
		if _, err := t.exec("DELETE FROM keep WHERE name = ?", n); err != nil {
			return err
		}
	}
	return nil
}

// Facts lists what is kept under names that begin with prefix, by name.
func (t *Tx) Facts(prefix string) ([]Fact, error) {
	var out []Fact
	err := t.each(func(scan func(...any) error) error {
		var f Fact
		err := scan(&f.Name, &f.Value)
		if strings.HasPrefix(f.Name, prefix) {
			out = append(out, f)
		}
		return err
	}, "SELECT name, value FROM keep WHERE name >= ? AND name < ? || char(0x10ffff) ORDER BY name", prefix, prefix)
	return out, err
}

// Keeper keeps an adapter's facts in the store, each call in a transaction of its
// own.
type Keeper struct{ DB *DB }

// Get finds a fact, or ErrNotFound.
func (k Keeper) Get(ctx context.Context, name string) (value string, err error) {
	err = k.DB.View(ctx, time.Time{}, func(tx *Tx) error {
		value, err = tx.Fact(name)
		return err
	})
	return value, err
}

// Put keeps all of the facts or none.
func (k Keeper) Put(ctx context.Context, facts ...Fact) error {
	return k.DB.Update(ctx, time.Time{}, func(tx *Tx) error { return tx.Keep(facts...) })
}

// Drop forgets facts.
func (k Keeper) Drop(ctx context.Context, names ...string) error {
	return k.DB.Update(ctx, time.Time{}, func(tx *Tx) error { return tx.Drop(names...) })
}

// List gives the facts under names that begin with prefix, by name.
func (k Keeper) List(ctx context.Context, prefix string) (out []Fact, err error) {
	err = k.DB.View(ctx, time.Time{}, func(tx *Tx) error {
		out, err = tx.Facts(prefix)
		return err
	})
	return out, err
}
