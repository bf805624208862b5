package telegram_test

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"sync"
	"testing"
	"time"

	"larderhand/bot/convtest"
	"larderhand/store"
)

// grows reports whether the group of a talk becomes a supergroup.
func grows(tb testing.TB, file string) bool {
	tb.Helper()
	body, err := os.ReadFile(filepath.Join("../testdata", file))
	if err != nil {
		tb.Fatal(err)
	}
	return regexp.MustCompile(`(?m)^move$`).Match(body)
}

// Moves is true of a plain group.
func (c *club) Moves() bool { return c.kind == "group" && c.grows }

// Move makes a supergroup of the group people are in.
func (c *club) Move(_ context.Context, to convtest.Chats) error {
	c.chats.mu.Lock()
	c.chats.to = to
	c.chats.mu.Unlock()
	c.room = c.room.Migrate(c.people[c.owner])
	c.rig.settle()
	c.read() // what is said of the move
	return nil
}

// chats hears of a group that moved once its talk says where that is kept; none is
// ever closed.
type chats struct {
	mu sync.Mutex
	to convtest.Chats
}

func (c *chats) MoveChat(ctx context.Context, now time.Time, from, to store.Address) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.to == nil {
		return nil
	}
	return c.to.MoveChat(ctx, now, from, to)
}

func (*chats) ParkChat(context.Context, time.Time, store.Address, string) error { return nil }
func (*chats) UnparkChat(context.Context, time.Time, store.Address) error       { return nil }
