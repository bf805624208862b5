package store_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"larderhand/store"
)

var noon = time.Date(2027, 3, 1, 12, 0, 0, 0, time.UTC)

func open(t *testing.T, file string, opts ...store.Option) *store.DB {
	t.Helper()
	db, err := store.Open(context.Background(), file, opts...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() }) // some tests close it themselves
	return db
}

// begin makes a conversation with a batch and a want for it.
func begin(t *testing.T, db *store.DB, at store.Address) (conv store.Conversation, b store.Batch) {
	t.Helper()
	err := db.Update(context.Background(), noon, func(tx *store.Tx) error {
		var err error
		if conv, err = tx.SaveConversation(store.Conversation{Address: at, Settings: store.Settings{Zone: "Europe/Berlin"}}); err != nil {
			return err
		}
		m, err := tx.Member(conv.ID, "ines", "Ines")
		if err != nil {
			return err
		}
		b, err = tx.CreateBatch(store.Batch{Conversation: conv.ID, Keeper: m.ID, Opened: noon, Stage: "curing", Pieces: []store.Piece{{Letter: "a", Weight: 2500}}})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return conv, b
}

func note(db *store.DB, b store.Batch, text string) error {
	return db.Update(context.Background(), noon, func(tx *store.Tx) error {
		_, err := tx.Append(store.Entry{Batch: b.ID, Kind: "note", At: noon, Member: b.Keeper, Body: text})
		return err
	})
}

func entries(t *testing.T, db *store.DB, b store.Batch) int {
	t.Helper()
	n := 0
	err := db.View(context.Background(), noon, func(tx *store.Tx) error {
		list, err := tx.Entries(b.ID)
		n = len(list)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// A disk that fills up: the engine's own SQLITE_FULL, from a file that may not
// grow further.
func TestAFullDiskIsSaidOnceAndLosesNothing(t *testing.T) {
	var turns []error
	file := filepath.Join(t.TempDir(), "full.db")
	db := open(t, file, store.MaxPages(60), store.OnBroken(func(err error) { turns = append(turns, err) }))
	_, b := begin(t, db, "test:1")
	kept := 0
	var full error
	for full == nil && kept < 1000 {
		if full = note(db, b, strings.Repeat("x", 2000)); full == nil {
			kept++
		}
	}
	var broken *store.Broken
	if !errors.As(full, &broken) || !strings.Contains(broken.Why, "disk is full") {
		t.Fatalf("after %d notes: %v", kept, full)
	}
	for range 10 {
		if err := note(db, b, strings.Repeat("x", 2000)); err == nil {
			t.Fatal("a full disk took a note")
		}
	}
	if len(turns) != 1 || turns[0] == nil {
		t.Errorf("told: %v", turns)
	}
	if db.Err() == nil {
		t.Error("Err says all is well")
	}
	if n := entries(t, db, b); n != kept {
		t.Errorf("%d of %d notes are still there", n, kept)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	// There is room again.
	db = open(t, file, store.OnBroken(func(err error) { turns = append(turns, err) }))
	if err := note(db, b, "room again"); err != nil {
		t.Fatal(err)
	}
	if n := entries(t, db, b); n != kept+1 {
		t.Errorf("%d notes, want %d", n, kept+1)
	}
	f, err := store.Inspect(context.Background(), file)
	if err != nil || len(f.Damage) > 0 || f.Orphans > 0 {
		t.Errorf("found %+v, %v", f, err)
	}
}

func TestADiskWithRoomAgainIsSaidOnce(t *testing.T) {
	var turns []error
	db := open(t, filepath.Join(t.TempDir(), "full.db"), store.MaxPages(60), store.OnBroken(func(err error) { turns = append(turns, err) }))
	_, b := begin(t, db, "test:1")
	for range 1000 {
		if note(db, b, strings.Repeat("x", 2000)) != nil {
			break
		}
	}
	err := db.Update(context.Background(), noon, func(tx *store.Tx) error { return tx.Forget(noon) }) // a change that needs no room
	if err != nil {
		t.Fatal(err)
	}
	if len(turns) != 2 || turns[0] == nil || turns[1] != nil {
		t.Errorf("told: %v", turns)
	}
}

func TestAReadOnlyFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "ro.db")
	db := open(t, file)
	_, b := begin(t, db, "test:1")
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	var turns []error
	db = open(t, file, store.ReadOnly(), store.OnBroken(func(err error) { turns = append(turns, err) }))
	var broken *store.Broken
	for range 10 {
		if err := note(db, b, "no"); !errors.As(err, &broken) || !strings.Contains(broken.Why, "can't be written") {
			t.Errorf("said: %v", err)
		}
	}
	if len(turns) != 1 || !errors.As(turns[0], &broken) || db.Err() == nil {
		t.Errorf("told: %v; the file is said to be: %v", turns, db.Err())
	}
	if n := entries(t, db, b); n != 0 {
		t.Errorf("%d notes", n)
	}
}

func TestADamagedFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "bad.db")
	db := open(t, file)
	_, b := begin(t, db, "test:1")
	for range 200 {
		if err := note(db, b, strings.Repeat("x", 500)); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	body, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for i := 4096 * 3; i < len(body); i++ { // all pages but the first few
		body[i] = byte(i * 31)
	}
	if err := os.WriteFile(file, body, 0o600); err != nil {
		t.Fatal(err)
	}
	f, err := store.Inspect(context.Background(), file)
	var broken *store.Broken
	if err == nil && len(f.Damage) == 0 || err != nil && !errors.As(err, &broken) {
		t.Errorf("found %+v, %v", f, err)
	}
	db, err = store.Open(context.Background(), file)
	if err == nil {
		err = errors.Join(note(db, b, "into a damaged file"), db.Close())
	}
	if !errors.As(err, &broken) || !strings.Contains(broken.Why, "damaged") {
		t.Errorf("said: %v", err)
	}
	if err := os.WriteFile(file, []byte(strings.Repeat("no database ", 400)), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err = store.Open(context.Background(), file); !errors.As(err, &broken) {
		t.Errorf("of no database: %v", err)
	}
}

func TestASecondProcessIsRefused(t *testing.T) {
	file := filepath.Join(t.TempDir(), "one.db")
	db := open(t, file)
	if _, err := store.Open(context.Background(), file); !errors.Is(err, store.ErrInUse) || !strings.Contains(err.Error(), file) {
		t.Errorf("said: %v", err)
	}
	f, err := store.Inspect(context.Background(), file)
	if err != nil || !f.InUse {
		t.Errorf("in use: %v, %v", f.InUse, err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	open(t, file)
}

func TestWhatADeadProcessClaimedIsFreeAgain(t *testing.T) {
	file := filepath.Join(t.TempDir(), "dead.db")
	db := open(t, file)
	conv, _ := begin(t, db, "test:1")
	err := db.Update(context.Background(), noon, func(tx *store.Tx) error {
		return tx.Enqueue(conv.ID, "kind", "slot", "", noon, store.Routine)
	})
	if err != nil {
		t.Fatal(err)
	}
	got, err := db.Claim(context.Background(), noon, "test", "lease-of-the-dead", noon.Add(time.Hour), 10)
	if err != nil || len(got) != 1 {
		t.Fatalf("claimed %v, %v", got, err)
	}
	if err := db.Close(); err != nil { // as far as the claim goes, a crash
		t.Fatal(err)
	}
	db = open(t, file)
	again, err := db.Claim(context.Background(), noon.Add(time.Second), "test", "lease-of-another", noon.Add(time.Hour), 10)
	if err != nil || len(again) != 1 {
		t.Fatalf("claimed %v, %v", again, err)
	}
	if again[0].Message != got[0].Message {
		t.Errorf("the message that may have arrived had key %s and has %s", got[0].Message, again[0].Message)
	}
}
