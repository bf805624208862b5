package storetest

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"time"

	"larderhand/store"
)

func wholeOrNot(b *bench) {
	stop := errors.New("stop")
	c := b.conversation("lane:1")
	err := b.Update(context.Background(), Noon, func(tx *store.Tx) error {
		if err := tx.Enqueue(c.ID, "kind", "slot", "", Noon, store.Routine); err != nil {
			return err
		}
		return stop
	})
	if !errors.Is(err, stop) {
		b.Errorf("gave %v", err)
	}
	func() {
		defer func() { _ = recover() }()
		_ = b.Update(context.Background(), Noon, func(tx *store.Tx) error {
			if err := tx.Enqueue(c.ID, "kind", "slot", "", Noon, store.Routine); err != nil {
				return err
			}
			panic("stop")
		})
	}()
	if got := b.claim(Noon, "lane", "lease", 10); len(got) != 0 {
		b.Errorf("kept %v of a change that failed", got)
	}
}

func numbers(b *bench) {
	c := b.conversation("lane:1")
	for want := 1; want <= 3; want++ {
		made := b.batch(c)
		if made.Number != want {
			b.Errorf("batch %d has number %d", want, made.Number)
		}
		made.Stage = "closed"
		b.update(Noon, func(tx *store.Tx) error { return tx.SaveBatch(made) })
		b.must(b.View(context.Background(), Noon, func(tx *store.Tx) error {
			got, err := tx.Batch(c.ID, want)
			if err == nil && !reflect.DeepEqual(got, made) {
				b.Errorf("kept %+v, want %+v", got, made)
			}
			return err
		}))
	}
}

func elsewhere(b *bench) {
	here, there := b.conversation("lane:1"), b.conversation("lane:2")
	b.batch(here)
	b.must(b.View(context.Background(), Noon, func(tx *store.Tx) error {
		if _, err := tx.Batch(there.ID, 1); !errors.Is(err, store.ErrNotFound) {
			b.Errorf("gave %v", err)
		}
		return nil
	}))
}

func strike(b *bench) {
	batch := b.batch(b.conversation("lane:1"))
	b.update(Noon, func(tx *store.Tx) error {
		e, err := tx.Append(store.Entry{Batch: batch.ID, Kind: "flip", At: Noon, Member: batch.Keeper})
		if err != nil {
			return err
		}
		if err := tx.Strike(e.ID, batch.Keeper); err != nil {
			return err
		}
		if err := tx.Strike(e.ID, batch.Keeper); !errors.Is(err, store.ErrNotFound) {
			b.Errorf("struck twice: %v", err)
		}
		list, err := tx.Entries(batch.ID)
		if err == nil && (len(list) != 1 || list[0].Struck.IsZero()) {
			b.Errorf("journal: %+v", list)
		}
		if err := tx.Unstrike(batch.ID+1, e.ID); !errors.Is(err, store.ErrNotFound) {
			b.Errorf("brought back in another batch: %v", err)
		}
		if err := tx.Unstrike(batch.ID, e.ID); err != nil {
			return err
		}
		if err := tx.Unstrike(batch.ID, e.ID); !errors.Is(err, store.ErrNotFound) {
			b.Errorf("brought back twice: %v", err)
		}
		if list, err = tx.Entries(batch.ID); err == nil && (len(list) != 1 || !list[0].Struck.IsZero()) {
			b.Errorf("journal after bringing back: %+v", list)
		}
		return err
	})
}

func remember(b *bench) {
	b.update(Noon, func(tx *store.Tx) error { return tx.Remember("event", "answer") })
	b.update(Noon, func(tx *store.Tx) error {
		got, err := tx.Recall("event")
		b.same("answer", got, "answer")
		if err != nil {
			return err
		}
		if _, err := tx.Recall("another"); !errors.Is(err, store.ErrNotFound) {
			b.Errorf("gave %v", err)
		}
		return tx.Forget(Noon.Add(time.Second))
	})
	b.update(Noon, func(tx *store.Tx) error {
		if _, err := tx.Recall("event"); !errors.Is(err, store.ErrNotFound) {
			b.Errorf("after forgetting: %v", err)
		}
		return nil
	})
}

func want(slot string, due time.Time) store.Want {
	return store.Want{Kind: "flip", Slot: slot, Due: due}
}

func (b *bench) reconcile(batch store.Batch, wants ...store.Want) {
	b.Helper()
	b.update(Noon, func(tx *store.Tx) error {
		have, err := tx.Chores(batch.ID)
		if err != nil {
			return err
		}
		return tx.Reconcile(batch.Conversation, batch.ID, have, wants)
	})
}

func wantAgain(b *bench) {
	batch := b.batch(b.conversation("lane:1"))
	b.reconcile(batch, want("one", Noon), want("two", Noon.Add(time.Hour)))
	before := b.chores(batch)
	b.reconcile(batch, want("one", Noon), want("two", Noon.Add(time.Hour)))
	if after := b.chores(batch); !reflect.DeepEqual(before, after) || len(after) != 2 {
		b.Errorf("%+v became %+v", before, after)
	}
	b.reconcile(batch, want("one", Noon), want("two", Noon.Add(2*time.Hour)))
	if list := b.chores(batch); !list[1].Due.Equal(Noon.Add(2 * time.Hour)) {
		b.Errorf("due %v", list[1].Due)
	}
}

func wantLess(b *bench) {
	batch := b.batch(b.conversation("lane:1"))
	b.reconcile(batch, want("one", Noon), want("two", Noon.Add(time.Hour)), want("three", Noon.Add(2*time.Hour)))
	said := b.claim(Noon, "lane", "lease", 10)
	b.update(Noon, func(tx *store.Tx) error { return tx.MarkSent(said[0]) })
	b.reconcile(batch, want("one", Noon.Add(5*time.Minute)), want("three", Noon.Add(2*time.Hour)))
	states := map[string]string{}
	for _, c := range b.chores(batch) {
		states[c.Slot] = c.State
	}
	b.same("states", fmt.Sprint(states), fmt.Sprint(map[string]string{"one": store.StateSent, "two": store.StateDropped, "three": store.StateDue}))
	// A change of mind brings the dropped one back.
	b.reconcile(batch, want("two", Noon.Add(time.Minute)), want("three", Noon.Add(2*time.Hour)))
	b.same("due later", slots(b.claim(Noon.Add(time.Hour), "lane", "other", 10)), "two")
}
