package store_test

import (
	"context"
	"path/filepath"
	"testing"

	"larderhand/store"
	"larderhand/store/storetest"
)

func TestContract(t *testing.T) {
	for name, file := range map[string]func(testing.TB) string{
		"file":   func(tb testing.TB) string { return filepath.Join(tb.TempDir(), "contract.db") },
		"memory": func(testing.TB) string { return store.Memory },
	} {
		t.Run(name, func(t *testing.T) {
			storetest.Exercise(t, func(tb testing.TB) storetest.Store {
				db, err := store.Open(context.Background(), file(tb))
				if err != nil {
					tb.Fatal(err)
				}
				tb.Cleanup(func() {
					if err := db.Close(); err != nil {
						tb.Error(err)
					}
				})
				return db
			})
		})
	}
}
