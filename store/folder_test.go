package store

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"testing"
	"time"
)

// Folders holds what each of its queries gives by itself, for batches of several
// conversations at once.
func TestFoldersAreWhatIsKept(t *testing.T) {
	db, err := Open(context.Background(), Memory)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	now := time.Date(2027, 3, 1, 8, 0, 0, 0, time.UTC)
	var ids []int64
	err = db.Update(t.Context(), now, func(tx *Tx) error {
		for _, at := range []Address{"x:1", "x:2"} {
			c, err := tx.SaveConversation(Conversation{Address: at, Settings: Settings{Zone: "Europe/Berlin"}})
			if err != nil {
				return err
			}
			m, err := tx.Member(c.ID, "ines", "Ines")
			if err != nil {
				return err
			}
			for pieces := range 3 {
				b := Batch{Conversation: c.ID, Keeper: m.ID, Opened: now, Stage: "curing", Plan: Plan{Days: 9}}
				for _, letter := range []string{"a", "b"}[:min(pieces, 2)] {
					b.Pieces = append(b.Pieces, Piece{Letter: letter, Weight: 2300})
				}
				if b, err = tx.CreateBatch(b); err != nil {
					return err
				}
				ids = append(ids, b.ID)
				for i := range 2 - pieces {
					if _, err := tx.Append(Entry{Batch: b.ID, Kind: "note", At: now.Add(time.Duration(i)), Member: m.ID}); err != nil {
						return err
					}
				}
				wants := []Want{{Kind: "flip", Slot: "2", Due: now.Add(2 * time.Hour)}, {Kind: "flip", Slot: "1", Due: now.Add(time.Hour)}}[:pieces]
				if err := tx.Reconcile(c.ID, b.ID, nil, wants); err != nil {
					return err
				}
				if pieces == 1 {
					if err := tx.SetPlace(b.ID, Address(fmt.Sprint("x:", b.ID, "/thread"))); err != nil {
						return err
					}
				}
				k, err := tx.AddCard(Card{Batch: b.ID, Conversation: c.ID, Owner: "ines", OwnerName: "Ines"})
				if err != nil {
					return err
				}
				if k.State = "gone"; pieces > 0 {
					if err := tx.SaveCard(k); err != nil {
						return err
					}
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	err = db.View(t.Context(), now, func(tx *Tx) error {
		got, err := tx.Folders(append(slices.Clone(ids), 999))
		if err != nil {
			return err
		}
		var want []Folder
		for _, id := range ids {
			f := Folder{}
			if f.Batch, err = tx.BatchByID(id); err != nil {
				return err
			}
			if f.Conversation, err = tx.ConversationByID(f.Batch.Conversation); err != nil {
				return err
			}
			if f.Entries, err = tx.Entries(id); err != nil {
				return err
			}
			if f.Chores, err = tx.Chores(id); err != nil {
				return err
			}
			cards, err := tx.CardsOf(id)
			if err != nil {
				return err
			}
			f.Shown = len(cards) > 0
			if f.Place, err = tx.Place(id); err != nil && !errors.Is(err, ErrNotFound) {
				return err
			}
			members, err := tx.Members(f.Conversation.ID)
			if err != nil {
				return err
			}
			f.Members = len(members)
			want = append(want, f)
		}
		if len(got) != len(want) {
			t.Fatalf("%d folders, want %d", len(got), len(want))
		}
		for i, w := range want {
			g := got[i]
			if !reflect.DeepEqual(g.Batch, w.Batch) || !reflect.DeepEqual(g.Conversation, w.Conversation) || g.Shown != w.Shown || g.Place != w.Place || g.Members != w.Members ||
				!slices.Equal(g.Entries, w.Entries) || !slices.Equal(g.Chores, w.Chores) {
				t.Errorf("batch %d: %+v, want %+v", w.Batch.ID, g, w)
			}
		}
		if n := len(want[0].Entries) + len(want[1].Chores) + len(want[2].Chores) + len(want[2].Batch.Pieces); n != 7 || !want[0].Shown || want[1].Shown || want[1].Place == "" || want[2].Place != "" {
			t.Errorf("%d things compared, want 7", n)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
