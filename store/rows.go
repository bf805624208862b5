package store

import (
	"fmt"
	"time"
)

// gather reads a value from every row of a query; into gives the places for a row's
// columns in the value.
func gather[T any](t *Tx, into func(*T) []any, query string, args ...any) ([]T, error) {
	var out []T
	err := t.each(func(scan func(...any) error) error {
		var v T
		if err := scan(into(&v)...); err != nil {
			return err
		}
		out = append(out, v)
		return nil
	}, query, args...)
	return out, err
}

// itself is the place for a row of one column.
func itself[T any](v *T) []any { return []any{v} }

// first is the first of what was found, or ErrNotFound.
func first[T any](list []T, err error) (v T, _ error) {
	if err != nil {
		return v, err
	}
	if len(list) == 0 {
		return v, ErrNotFound
	}
	return list[0], nil
}

// millis reads an instant kept as milliseconds.
type millis time.Time

func instant(t *time.Time) *millis { return (*millis)(t) }

// Scan takes what the driver read.
func (m *millis) Scan(v any) error {
	ms, ok := v.(int64)
	if !ok {
		return fmt.Errorf("an instant is kept as %T", v)
	}
	*m = millis(fromMillis(ms))
	return nil
}
