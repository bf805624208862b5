package storetest

import (
	"context"
	"time"

	"larderhand/store"
)

func retried(b *bench) {
	batch := b.batch(b.conversation("lane:1"))
	b.reconcile(batch, want("one", Noon))
	first := b.claim(Noon, "lane", "one-is-the-lease", 10)
	b.must(b.Retry(context.Background(), Noon, first, Noon.Add(5*time.Second), "timeout", false))
	if c := b.chores(batch)[0]; c.State != store.StateRetry || c.Lease != "" || c.Attempts != 1 || !c.Sent.IsZero() || c.Message != first[0].Message {
		b.Errorf("it is %+v", c)
	}
	b.same("before its time", slots(b.claim(Noon.Add(4*time.Second), "lane", "two-is-the-lease", 10)), "")
	again := b.claim(Noon.Add(5*time.Second), "lane", "three-is-the-lease", 10)
	b.same("then", slots(again), "one")
	b.must(b.Retry(context.Background(), Noon.Add(5*time.Second), again, Noon.Add(time.Minute), "asked to wait", true))
	if c := b.chores(batch)[0]; c.State != store.StateRetry || c.Attempts != 2 || c.Message != "" {
		b.Errorf("what certainly did not arrive is %+v", c)
	}
}

func givenUp(b *bench) {
	batch := b.batch(b.conversation("lane:1"))
	b.reconcile(batch, want("one", Noon))
	stale := b.claim(Noon, "lane", "one-is-the-lease", 10)
	held := b.claim(Noon.Add(time.Minute), "lane", "two-is-the-lease", 10) // the first has run out
	over := Noon.Add(90 * time.Second)
	giveUp := func(c store.Chore) {
		b.Helper()
		c.State, c.Cause = store.StateGivenUp, "refused"
		b.update(over, func(tx *store.Tx) error { return tx.MarkGivenUp(c) })
	}
	giveUp(stale[0])
	if c := b.chores(batch)[0]; c.State != store.StateClaimed {
		b.Errorf("given up by who held it once, it is %+v", c)
	}
	giveUp(held[0])
	if c := b.chores(batch)[0]; c.State != store.StateGivenUp || !c.Sent.Equal(over) || c.Lease != "" {
		b.Errorf("it is %+v", c)
	}
	b.same("given up", slots(b.claim(Noon.Add(24*time.Hour), "lane", "three-is-the-lease", 10)), "")
	b.reconcile(batch, want("one", Noon))
	b.same("given up and wanted still", slots(b.claim(Noon.Add(24*time.Hour), "lane", "four-is-the-lease", 10)), "")
}
