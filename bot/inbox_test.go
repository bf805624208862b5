package bot_test

import (
	"context"
	"errors"
	"sync"
	"testing"

	"larderhand/bot"
	"larderhand/store"
)

func TestInboxKeepsOrderWithinAConversation(t *testing.T) {
	in := bot.NewInbox(4)
	var mu sync.Mutex
	got := map[store.Address][]int{}
	for i := range 500 {
		of := store.Address([]string{"a", "b", "c"}[i%3])
		err := in.Put(t.Context(), of, func(context.Context) {
			mu.Lock()
			defer mu.Unlock()
			got[of] = append(got[of], i)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	in.Stop(t.Context())
	n := 0
	for of, list := range got {
		for i := 1; i < len(list); i++ {
			if list[i] < list[i-1] {
				t.Errorf("%s: %d came after %d", of, list[i], list[i-1])
			}
		}
		n += len(list)
	}
	if n != 500 {
		t.Errorf("%d of 500 were worked off", n)
	}
	if err := in.Put(t.Context(), "a", func(context.Context) {}); !errors.Is(err, bot.ErrClosed) {
		t.Errorf("a closed inbox said %v", err)
	}
}

func TestInboxSlowConversationDelaysNoOther(t *testing.T) {
	in := bot.NewInbox(2)
	release, other := make(chan struct{}), make(chan struct{})
	for range 10 {
		if err := in.Put(t.Context(), "slow", func(context.Context) { <-release }); err != nil {
			t.Fatal(err)
		}
	}
	if err := in.Put(t.Context(), "quick", func(context.Context) { close(other) }); err != nil {
		t.Fatal(err)
	}
	<-other // would never come if the slow one held every worker
	close(release)
	in.Stop(t.Context())
}

func TestInboxStopEndsWhatHangs(t *testing.T) {
	in := bot.NewInbox(1)
	started := make(chan struct{})
	if err := in.Put(t.Context(), "a", func(ctx context.Context) { close(started); <-ctx.Done() }); err != nil {
		t.Fatal(err)
	}
	<-started
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	in.Stop(ctx) // returns only once the work has
}
