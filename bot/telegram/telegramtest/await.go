package telegramtest

import (
	"context"
	"fmt"
	"strings"
)

// Await waits until the bot has said so many things in the room and returns all it
// said there.
func (r *Room) Await(n int) []Message {
	r.s.t.Helper()
	var out []Message
	r.s.must(fmt.Sprintf("%d messages of the bot", n), func() bool {
		out = r.seen(true)
		return len(out) >= n
	})
	return out
}

// Wait is Await for a caller with a context of its own.
func (r *Room) Wait(ctx context.Context, n int) ([]Message, error) {
	var out []Message
	err := r.s.until(ctx, func() bool {
		out = r.seen(true)
		return len(out) >= n
	})
	return out, err
}

// AwaitAfter waits for the first thing the bot says after a message.
func (r *Room) AwaitAfter(said Message) Message {
	r.s.t.Helper()
	return r.first("something said after message "+itoa(said.ID), func(m Message) bool { return m.ID > said.ID })
}

// AwaitText waits for something the bot says that has a text in it.
func (r *Room) AwaitText(part string) Message {
	r.s.t.Helper()
	return r.first(fmt.Sprintf("a message with %q in it", part), func(m Message) bool { return strings.Contains(m.Text, part) })
}

// AwaitEdit waits until the bot has edited a message once more than when it was
// read.
func (r *Room) AwaitEdit(read Message) Message {
	r.s.t.Helper()
	return r.first("an edit of message "+itoa(read.ID), func(m Message) bool { return m.ID == read.ID && m.Edits > read.Edits })
}

// AwaitDeleted waits until a message is gone.
func (r *Room) AwaitDeleted(read Message) {
	r.s.t.Helper()
	r.s.must("message "+itoa(read.ID)+" deleted", func() bool { return r.chat.find(read.ID) == nil })
}

func (r *Room) first(what string, fits func(Message) bool) Message {
	r.s.t.Helper()
	var found Message
	r.s.must(what, func() bool {
		for _, m := range r.seen(true) {
			if fits(m) {
				found = m
				return true
			}
		}
		return false
	})
	return found
}

// Press presses a button by its label. A button an edit has taken away can still
// be pressed, by an app that has not caught up.
func (r *Room) Press(u *User, on Message, label string) *Press {
	r.s.t.Helper()
	s := r.s
	s.mu.Lock()
	defer s.mu.Unlock()
	m := r.chat.ever(on.ID)
	if m == nil {
		s.t.Fatalf("telegram: there never was a message %d", on.ID)
	}
	data := ""
	for _, row := range append(append([][]Button(nil), m.past...), m.inline()...) {
		for _, b := range row {
			if b.Label == label && b.Data != "" {
				data = b.Data // the latest wins
			}
		}
	}
	if data == "" {
		s.t.Fatalf("telegram: message %d never had a button %q to press:\n%s", on.ID, label, s.view(m))
	}
	return s.press(u, m, data)
}

// PressData sends the bot any callback data at all from a message, as a patched
// app could.
func (r *Room) PressData(u *User, on Message, data string) *Press {
	r.s.t.Helper()
	s := r.s
	s.mu.Lock()
	defer s.mu.Unlock()
	m := r.chat.ever(on.ID)
	if m == nil {
		s.t.Fatalf("telegram: there never was a message %d", on.ID)
	}
	return s.press(u, m, data)
}
