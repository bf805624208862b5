package store

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// AsWanted is what Reconcile does: true exactly if it changes nothing.
func TestAsWantedIsWhatReconcileFinds(t *testing.T) {
	db, card := gallery(t, Memory)
	conv, batch := card.Conversation, card.Batch
	ctx := context.Background()
	kinds := []string{StateDue, StateRetry, StateClaimed, StateParked, StateSent, StateDropped, StateGivenUp}
	slot := rapid.SampledFrom([]string{"a", "b", "c"})
	minute := rapid.Map(rapid.IntRange(0, 2), func(m int) time.Time { return benchNow.Add(time.Duration(m) * time.Minute) })
	rapid.Check(t, func(t *rapid.T) {
		if _, err := db.write.ExecContext(ctx, "DELETE FROM chore"); err != nil {
			t.Fatal(err)
		}
		for _, s := range rapid.SliceOfNDistinct(slot, 0, 3, rapid.ID[string]).Draw(t, "have") {
			due, state := minute.Draw(t, "due").UnixMilli(), rapid.SampledFrom(kinds).Draw(t, "state")
			if _, err := db.write.ExecContext(ctx, `INSERT INTO chore (conversation_id, batch_id, kind, slot, due_at, try_at, state) VALUES (?, ?, 'flip', ?, ?, ?, ?)`,
				conv, batch, s, due, due, state); err != nil {
				t.Fatal(err)
			}
		}
		var wants []Want
		for _, s := range rapid.SliceOfNDistinct(slot, 0, 3, rapid.ID[string]).Draw(t, "want") {
			wants = append(wants, Want{Kind: "flip", Slot: s, Due: minute.Draw(t, "wanted")})
		}
		var before, after []Chore
		err := db.Update(ctx, benchNow, func(tx *Tx) error {
			var err1, err2, err3 error
			before, err1 = tx.Chores(batch)
			err2 = tx.Reconcile(conv, batch, before, wants)
			after, err3 = tx.Chores(batch)
			return errors.Join(err1, err2, err3)
		})
		if err != nil {
			t.Fatal(err)
		}
		if got, want := AsWanted(before, wants), reflect.DeepEqual(before, after); got != want {
			t.Errorf("as wanted %v, unchanged %v\nbefore %+v\nafter %+v\nwants %+v", got, want, before, after, wants)
		}
		if !AsWanted(after, wants) {
			t.Errorf("planned anew and still not as wanted: %+v, %+v", after, wants)
		}
	})
}

// Dropped chores are out of the index of what a conversation still has to be said,
// and back in it when they are wanted anew.
func TestDroppedChoresAreOver(t *testing.T) {
	db, card := gallery(t, Memory)
	ctx := t.Context()
	unsaid := func(now time.Time) int {
		t.Helper()
		n := 0
		if err := db.View(ctx, now, func(tx *Tx) error {
			return tx.one("SELECT count(*) FROM chore INDEXED BY chore_conversation WHERE conversation_id = ? AND sent_at = 0", []any{card.Conversation}, &n)
		}); err != nil {
			t.Fatal(err)
		}
		return n
	}
	for _, now := range []time.Time{{}, benchNow} { // the zero time too, which is kept as 0
		wants := make([]Want, 10)
		for i := range wants {
			wants[i] = Want{Kind: "flip", Slot: fmt.Sprint(i), Due: benchNow}
		}
		for _, n := range []int{10, 3, 10, 0} {
			if err := db.Update(ctx, now, func(tx *Tx) error { return planAnew(tx, card.Conversation, card.Batch, wants[:n]...) }); err != nil {
				t.Fatal(err)
			}
			if got := unsaid(now); got != n {
				t.Errorf("%d are to be said, want %d", got, n)
			}
		}
		if err := db.Update(ctx, now, func(tx *Tx) error { return planAnew(tx, card.Conversation, card.Batch, wants[:1]...) }); err != nil {
			t.Fatal(err)
		}
		got, err := db.Claim(ctx, benchNow, "lane", "lease", benchNow.Add(time.Minute), 10)
		if err != nil || len(got) != 1 {
			t.Fatal(got, err)
		}
		if err := db.Update(ctx, now, func(tx *Tx) error { return tx.MarkDropped(got[0]) }); err != nil {
			t.Fatal(err)
		}
		if n := unsaid(now); n != 0 {
			t.Errorf("dropped by its holder, %d are to be said", n)
		}
	}
}

func TestFailureOfAnyKindHasWords(t *testing.T) {
	for k := Unknown - 1; k <= Refused+1; k++ {
		f := &Failure{Kind: k, Cause: errors.New("the cause")}
		if got := f.Error(); !strings.Contains(got, k.String()) || !strings.Contains(got, "the cause") {
			t.Errorf("kind %d: %s", k, got)
		}
	}
}

func TestNewestPictures(t *testing.T) {
	db, card := gallery(t, Memory)
	err := db.Update(t.Context(), benchNow, func(tx *Tx) error {
		for i := range 8 {
			e, err := tx.Append(Entry{Batch: card.Batch, Kind: "note", At: benchNow, Member: 1})
			if err != nil {
				return err
			}
			if err := tx.SavePicture(Picture{Entry: e.ID, Name: fmt.Sprint(i), Type: "image/png", Data: []byte{byte(i)}}); err != nil {
				return err
			}
			if i == 6 {
				if err := tx.Strike(e.ID, 1); err != nil {
					return err
				}
			}
		}
		got, all, err := tx.Pictures(card.Batch, 3)
		if err != nil {
			return err
		}
		names := ""
		for _, p := range got {
			names += p.Name
		}
		if all != 7 || names != "457" {
			t.Errorf("%q of %d", names, all)
		}
		got, all, err = tx.Pictures(card.Batch+1, 3)
		if len(got) != 0 || all != 0 {
			t.Errorf("another batch has %d pictures of %d", len(got), all)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// planAnew makes the open chores of a batch those that are wanted.
func planAnew(tx *Tx, conversation, batch int64, wants ...Want) error {
	have, err := tx.Chores(batch)
	if err != nil {
		return err
	}
	return tx.Reconcile(conversation, batch, have, wants)
}
