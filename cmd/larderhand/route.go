package main

import (
	"context"
	"fmt"
	"strings"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

// senders hands a reply to the platform its address names before the first colon.
type senders map[string]bot.Sender

// Send delivers a reply. A platform that is not served now is out of reach.
func (s senders) Send(ctx context.Context, to store.Address, key string, r reply.Reply) (string, error) {
	lane, _, _ := strings.Cut(string(to), ":")
	one, ok := s[lane]
	if !ok {
		return "", &store.Failure{Kind: store.Gone, Cause: fmt.Errorf("%q is not served by this process", lane)}
	}
	return one.Send(ctx, to, key, r)
}

// Edit changes a message sent before, where the platform can.
func (s senders) Edit(ctx context.Context, to store.Address, ref string, r reply.Reply) error {
	e, ok := s[to.Lane()].(bot.Editor)
	if !ok {
		return &store.Failure{Kind: store.Refused, Cause: fmt.Errorf("no message can be changed on %q", to.Lane())}
	}
	return e.Edit(ctx, to, ref, r)
}

// Remove takes a message down that was sent before, where the platform can.
func (s senders) Remove(ctx context.Context, to store.Address, ref string) error {
	r, ok := s[to.Lane()].(bot.Remover)
	if !ok {
		return &store.Failure{Kind: store.Refused, Cause: fmt.Errorf("no message can be taken down on %q", to.Lane())}
	}
	return r.Remove(ctx, to, ref)
}

// Inside asks the platform of a group who is in it.
func (s senders) Inside(ctx context.Context, group store.Address, key string) (bool, error) {
	r, ok := s[group.Lane()].(bot.Roll)
	if !ok {
		return false, fmt.Errorf("%q can't say who is in a group", group.Lane())
	}
	return r.Inside(ctx, group, key)
}
