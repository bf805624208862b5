// Package storetest is the contract of a store as tests: whatever keeps the
// batches has to pass it. It is for tests only.
//
// To hold another engine to it, give Exercise a function that opens an empty one.
package storetest

import (
	"context"
	"errors"
	"testing"
	"time"

	"larderhand/store"
)

// Store is what is held to the contract.
type Store interface {
	Update(ctx context.Context, now time.Time, fn func(*store.Tx) error) error
	View(ctx context.Context, now time.Time, fn func(*store.Tx) error) error
	Upcoming(ctx context.Context) (map[string]time.Time, error)
	Claim(ctx context.Context, now time.Time, lane, lease string, until time.Time, limit int) ([]store.Chore, error)
	Release(ctx context.Context, now time.Time, chores []store.Chore, next time.Time) error
	Retry(ctx context.Context, now time.Time, chores []store.Chore, next time.Time, cause string, unsaid bool) error
	Park(ctx context.Context, now time.Time, conversation int64, why string) error
	Move(ctx context.Context, now time.Time, conversation int64, to store.Address) error
	MoveChat(ctx context.Context, now time.Time, from, to store.Address) error
}

// Noon is when everything happens unless a test says otherwise.
var Noon = time.Date(2027, 3, 1, 12, 0, 0, 0, time.UTC)

// Exercise runs the contract, each part on a store of its own.
func Exercise(t *testing.T, open func(testing.TB) Store) {
	for _, part := range []struct {
		name string
		run  func(*bench)
	}{
		{"a change is kept whole or not at all", wholeOrNot},
		{"batch numbers are small and never used twice", numbers},
		{"a number from another conversation does not exist here", elsewhere},
		{"an entry is struck out once and never deleted", strike},
		{"an event is remembered with its answer", remember},
		{"wanting again changes nothing", wantAgain},
		{"what is no longer wanted is dropped, what was said stays said", wantLess},
		{"a conversation's due chores are claimed together", together},
		{"urgent chores are claimed first", urgentFirst},
		{"a claim runs out", runsOut},
		{"what is claimed is not claimed again", notTwice},
		{"what was said is recorded whoever holds the lease", saidAnyway},
		{"releasing undoes a claim", release},
		{"a try that may have arrived keeps its message together", keepsMessage},
		{"a try that failed waits for its next", retried},
		{"what is given up is over", givenUp},
		{"a parked conversation is left alone until it speaks", park},
		{"a conversation moves once", move},
		{"two conversations become one", merge},
		{"messages stay behind when a chat moves", moveLosesMessages},
		{"a topic that goes on in its chat changes nothing there", topicTakenIn},
		{"a topic that goes on in its chat keeps its numbers if it can", topicKeepsNumbers},
		{"upcoming names each lane", upcoming},
	} {
		t.Run(part.name, func(t *testing.T) { part.run(&bench{T: t, Store: open(t)}) })
	}
}

// bench is a store on test, with helpers that stop the test on an error.
type bench struct {
	*testing.T
	Store
}

func (b *bench) must(err error) {
	b.Helper()
	if err != nil {
		b.Fatal(err)
	}
}

func (b *bench) update(now time.Time, fn func(*store.Tx) error) {
	b.Helper()
	b.must(b.Update(context.Background(), now, fn))
}

func (b *bench) conversation(at store.Address) (c store.Conversation) {
	b.Helper()
	b.update(Noon, func(tx *store.Tx) error {
		var err error
		c, err = tx.Conversation(at)
		if errors.Is(err, store.ErrNotFound) {
			c, err = tx.SaveConversation(store.Conversation{Address: at, Settings: store.Settings{Zone: "Europe/Berlin", PingHour: 480}})
		}
		return err
	})
	return c
}

func (b *bench) batch(c store.Conversation) (made store.Batch) {
	b.Helper()
	b.update(Noon, func(tx *store.Tx) error {
		made = b.made(tx, c)
		return nil
	})
	return made
}

func (b *bench) made(tx *store.Tx, c store.Conversation) store.Batch {
	b.Helper()
	m, err := tx.Member(c.ID, "ines", "Ines")
	b.must(err)
	made, err := tx.CreateBatch(store.Batch{Conversation: c.ID, Keeper: m.ID, Opened: Noon, Stage: "curing",
		Plan: store.Plan{Method: "dry", Days: 9}, Pieces: []store.Piece{{Letter: "a", Weight: 2268, Thickness: 38}, {Letter: "b", Weight: 1500}}})
	b.must(err)
	return made
}

func (b *bench) enqueue(c store.Conversation, slot string, due time.Time, urgency int) {
	b.Helper()
	b.update(Noon, func(tx *store.Tx) error { return tx.Enqueue(c.ID, "kind", slot, "", due, urgency) })
}

func (b *bench) claim(now time.Time, lane, lease string, limit int) []store.Chore {
	b.Helper()
	got, err := b.Claim(context.Background(), now, lane, lease, now.Add(time.Minute), limit)
	b.must(err)
	return got
}

func (b *bench) chores(of store.Batch) (list []store.Chore) {
	b.Helper()
	b.must(b.View(context.Background(), Noon, func(tx *store.Tx) error {
		var err error
		list, err = tx.Chores(of.ID)
		return err
	}))
	return list
}

func slots(chores []store.Chore) string {
	s := ""
	for i, c := range chores {
		if i > 0 {
			s += " "
		}
		s += c.Slot
	}
	return s
}

func (b *bench) same(what, got, want string) {
	b.Helper()
	if got != want {
		b.Errorf("%s: got %q, want %q", what, got, want)
	}
}
