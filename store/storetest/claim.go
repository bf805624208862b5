package storetest

import (
	"context"
	"fmt"
	"time"

	"larderhand/store"
)

func together(b *bench) {
	one, two := b.conversation("lane:1"), b.conversation("lane:2")
	b.enqueue(one, "a", Noon.Add(-3*time.Hour), store.Routine)
	b.enqueue(two, "b", Noon.Add(-2*time.Hour), store.Routine)
	b.enqueue(one, "c", Noon.Add(-time.Hour), store.Routine)
	b.enqueue(one, "not yet", Noon.Add(time.Second), store.Routine)
	got := b.claim(Noon, "lane", "lease", 1)
	b.same("the first conversation", slots(got), "a c")
	if got[0].Message == "" || got[0].Message != got[1].Message {
		b.Errorf("messages %q and %q", got[0].Message, got[1].Message)
	}
	b.same("its address", string(got[0].Address), "lane:1")
	b.same("the second", slots(b.claim(Noon, "lane", "lease2", 1)), "b")
	b.same("another lane", slots(b.claim(Noon, "other", "lease3", 1)), "")
}

func urgentFirst(b *bench) {
	for i := range 5 {
		b.enqueue(b.conversation(store.Address(fmt.Sprintf("lane:%d", i))), "flip", Noon.Add(-time.Hour), store.Routine)
	}
	last := b.conversation("lane:9")
	b.enqueue(last, "soon", Noon.Add(-time.Minute), store.Soon)
	b.enqueue(last, "urgent", Noon, store.Urgent)
	got := b.claim(Noon, "lane", "lease", 2)
	b.same("first", slots(got), "urgent soon")
	if got := b.claim(Noon, "lane", "lease2", 10); len(got) != 5 {
		b.Errorf("then %d of 5", len(got))
	}
}

func runsOut(b *bench) {
	b.enqueue(b.conversation("lane:1"), "slot", Noon, store.Routine)
	first := b.claim(Noon, "lane", "lease", 10)
	b.same("before the end", slots(b.claim(Noon.Add(59*time.Second), "lane", "other", 10)), "")
	second := b.claim(Noon.Add(time.Minute), "lane", "other", 10)
	b.same("at the end", slots(second), "slot")
	if second[0].Attempts != 2 {
		b.Errorf("%d attempts", second[0].Attempts)
	}
	// Whoever held it first can no longer put it back.
	b.must(b.Retry(context.Background(), Noon.Add(time.Minute), first, Noon, "late", true))
	b.same("put back by the first", slots(b.claim(Noon.Add(90*time.Second), "lane", "third", 10)), "")
}

func notTwice(b *bench) {
	for i := range 30 {
		b.enqueue(b.conversation(store.Address(fmt.Sprintf("lane:%d", i))), "flip", Noon, store.Routine)
	}
	seen := map[int64]bool{}
	for i := range 10 {
		for _, c := range b.claim(Noon, "lane", fmt.Sprintf("lease%d", i), 4) {
			if seen[c.ID] {
				b.Errorf("chore %d was claimed twice", c.ID)
			}
			seen[c.ID] = true
		}
	}
	if len(seen) != 30 {
		b.Errorf("%d of 30 were claimed", len(seen))
	}
}

func saidAnyway(b *bench) {
	batch := b.batch(b.conversation("lane:1"))
	b.reconcile(batch, want("one", Noon))
	first := b.claim(Noon, "lane", "lease", 10)
	b.claim(Noon.Add(time.Hour), "lane", "other", 10)
	b.reconcile(batch) // and nobody wants it any more
	b.update(Noon.Add(time.Hour), func(tx *store.Tx) error { return tx.MarkSent(first[0]) })
	if list := b.chores(batch); list[0].State != store.StateSent || !list[0].Sent.Equal(Noon.Add(time.Hour)) {
		b.Errorf("it is %+v", list[0])
	}
	b.update(Noon.Add(2*time.Hour), func(tx *store.Tx) error { return tx.MarkSent(first[0]) })
	if list := b.chores(batch); !list[0].Sent.Equal(Noon.Add(time.Hour)) {
		b.Errorf("recorded twice: %v", list[0].Sent)
	}
}

func release(b *bench) {
	b.enqueue(b.conversation("lane:1"), "slot", Noon, store.Routine)
	first := b.claim(Noon, "lane", "one-is-the-lease", 10)
	b.must(b.Release(context.Background(), Noon, first, Noon.Add(3*time.Second)))
	b.same("before", slots(b.claim(Noon.Add(2*time.Second), "lane", "two-is-the-lease", 10)), "")
	again := b.claim(Noon.Add(3*time.Second), "lane", "three-is-the-lease", 10)
	b.same("then", slots(again), "slot")
	if again[0].Attempts != 1 || again[0].Message == first[0].Message {
		b.Errorf("%d attempts, message %q after %q", again[0].Attempts, again[0].Message, first[0].Message)
	}
}

func keepsMessage(b *bench) {
	c := b.conversation("lane:1")
	b.enqueue(c, "one", Noon, store.Routine)
	first := b.claim(Noon, "lane", "one-is-the-lease", 10)
	b.must(b.Retry(context.Background(), Noon, first, Noon.Add(5*time.Second), "timeout", false))
	b.enqueue(c, "two", Noon.Add(time.Second), store.Routine)
	again := b.claim(Noon.Add(6*time.Second), "lane", "two-is-the-lease", 10)
	b.same("both", slots(again), "one two")
	if again[0].Message != first[0].Message || again[1].Message == again[0].Message {
		b.Errorf("messages %q and %q after %q", again[0].Message, again[1].Message, first[0].Message)
	}
	// What certainly did not arrive joins the others, and so does what no platform
	// remembers any more.
	b.must(b.Retry(context.Background(), Noon, again[:1], Noon.Add(10*time.Second), "asked to wait", true))
	b.must(b.Retry(context.Background(), Noon, again[1:], Noon.Add(10*time.Second), "timeout", false))
	late := b.claim(Noon.Add(time.Hour), "lane", "three-is-the-lease", 10)
	b.same("late", slots(late), "one two")
	if late[0].Message != late[1].Message {
		b.Errorf("messages %q and %q", late[0].Message, late[1].Message)
	}
}

func park(b *bench) {
	c := b.conversation("lane:1")
	batch := b.batch(c)
	b.reconcile(batch, want("one", Noon))
	claimed := b.claim(Noon, "lane", "lease", 10)
	b.must(b.Park(context.Background(), Noon, c.ID, "blocked"))
	b.reconcile(batch, want("one", Noon), want("two", Noon))
	b.enqueue(c, "three", Noon, store.Urgent)
	b.same("while parked", slots(b.claim(Noon.Add(time.Hour), "lane", "other", 10)), "")
	b.must(b.Retry(context.Background(), Noon, claimed, Noon, "late word", false))
	b.same("after a late word", slots(b.claim(Noon.Add(time.Hour), "lane", "other", 10)), "")
	b.update(Noon, func(tx *store.Tx) error { return tx.Unpark(c.ID) })
	b.same("once it spoke", slots(b.claim(Noon.Add(time.Hour), "lane", "another", 10)), "three one two")
}

func upcoming(b *bench) {
	b.enqueue(b.conversation("one:1"), "slot", Noon.Add(time.Hour), store.Routine)
	b.enqueue(b.conversation("one:2"), "slot", Noon.Add(2*time.Hour), store.Urgent)
	b.enqueue(b.conversation("two:1"), "slot", Noon.Add(3*time.Hour), store.Soon)
	got, err := b.Upcoming(context.Background())
	b.must(err)
	if len(got) != 2 || !got["one"].Equal(Noon.Add(time.Hour)) || !got["two"].Equal(Noon.Add(3*time.Hour)) {
		b.Errorf("upcoming: %v", got)
	}
}
