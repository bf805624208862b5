package convtest

import (
	"context"
	"fmt"
	"time"

	"larderhand/store"
)

// Mover is a channel where a group can become another, with another address, in
// mid-talk.
type Mover interface {
	// Moves reports whether the group of this talk can.
	Moves() bool
	// Move moves the group people are in. chats is to hear of it as it would of a
	// platform.
	Move(ctx context.Context, chats Chats) error
}

// Chats is where the addresses of chats are kept.
type Chats interface {
	MoveChat(ctx context.Context, now time.Time, from, to store.Address) error
}

func (d *desk) move(string) error {
	fmt.Fprintf(&d.talk, "(The group moves to another address.)\n\n")
	return d.ch.(Mover).Move(context.Background(), d.db)
}

// Moves is true: paper has groups of any address.
func (p *Paper) Moves() bool { return true }

// Move gives the group people are in another address.
func (p *Paper) Move(ctx context.Context, chats Chats) error {
	from := store.Address("paper:" + p.place + p.moved)
	p.moved += "'"
	return chats.MoveChat(ctx, p.now(), from, store.Address("paper:"+p.place+p.moved))
}
