package store_test

import (
	"context"
	"errors"
	"testing"
	"time"

	"larderhand/store"
)

func openMemory(t *testing.T) *store.DB {
	t.Helper()
	db, err := store.Open(t.Context(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	return db
}

func addresses(t *testing.T, db *store.DB, ids []int64) []string {
	t.Helper()
	var out []string
	err := db.View(t.Context(), time.Time{}, func(tx *store.Tx) error {
		for _, id := range ids {
			c, err := tx.ConversationByID(id)
			if err != nil {
				return err
			}
			out = append(out, string(c.Address)+" "+c.Parked)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// A chat moves, is parked and unparked with all its topics; a chat whose number
// merely begins alike stays where it is.
func TestChatAsAWhole(t *testing.T) {
	ctx, now := context.Background(), time.Unix(1_800_000_000, 0)
	db := openMemory(t)
	var ids []int64
	err := db.Update(ctx, now, func(tx *store.Tx) error {
		for _, a := range []store.Address{"x:-12", "x:-12/7", "x:-12/70", "x:-123", "x:-120/7"} {
			c, err := tx.SaveConversation(store.Conversation{Address: a})
			if err != nil {
				return err
			}
			ids = append(ids, c.ID)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	want := func(step string, err error, list ...string) {
		t.Helper()
		if err != nil {
			t.Fatalf("%s: %v", step, err)
		}
		for i, got := range addresses(t, db, ids) {
			if got != list[i] {
				t.Errorf("%s: conversation %d is at %q, want %q", step, i, got, list[i])
			}
		}
	}
	for range 2 {
		want("move", db.MoveChat(ctx, now, "x:-12", "x:-1009"), "x:-1009 ", "x:-1009/7 ", "x:-1009/70 ", "x:-123 ", "x:-120/7 ")
	}
	want("park", db.ParkChat(ctx, now, "x:-1009", "removed"), "x:-1009 removed", "x:-1009/7 removed", "x:-1009/70 removed", "x:-123 ", "x:-120/7 ")
	want("unpark", db.UnparkChat(ctx, now, "x:-1009"), "x:-1009 ", "x:-1009/7 ", "x:-1009/70 ", "x:-123 ", "x:-120/7 ")
}

func TestKeeper(t *testing.T) {
	ctx := t.Context()
	k := store.Keeper{DB: openMemory(t)}
	if _, err := k.Get(ctx, "a:1"); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("an unknown fact gives %v", err)
	}
	if err := k.Put(ctx, store.Fact{Name: "a:1", Value: "x"}, store.Fact{Name: "a:2", Value: "y"}, store.Fact{Name: "b:1", Value: "z"}); err != nil {
		t.Fatal(err)
	}
	if err := k.Put(ctx, store.Fact{Name: "a:1", Value: "anew"}); err != nil {
		t.Fatal(err)
	}
	if v, err := k.Get(ctx, "a:1"); err != nil || v != "anew" {
		t.Errorf("got %q, %v", v, err)
	}
	if list, err := k.List(ctx, "a:"); err != nil || len(list) != 2 || list[0].Value != "anew" || list[1].Name != "a:2" {
		t.Errorf("listed %v, %v", list, err)
	}
	if err := k.Drop(ctx, "a:1", "a:2", "never there"); err != nil {
		t.Fatal(err)
	}
	if list, err := k.List(ctx, ""); err != nil || len(list) != 1 || list[0].Name != "b:1" {
		t.Errorf("after dropping: %v, %v", list, err)
	}
}
