package bot

import (
	"context"
	"errors"
	"fmt"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/scheduler/plan"
	"larderhand/store"
)

// Deliverer says what is due in a conversation.
type Deliverer struct {
	Bot    *Bot
	Sender Sender
}

// Deliver makes one message of the chores due in one conversation, as things
// stand now, sends it and records it, with the next chores, in one transaction.
// A chore that is no longer wanted is dropped unsaid. An error of the sender is
// handed on unchanged, and then nothing is recorded.
func (d Deliverer) Deliver(ctx context.Context, now time.Time, chores []store.Chore) error {
	if len(chores) == 0 {
		return nil
	}
	var p ping
	err := d.Bot.Ledger.View(ctx, now, func(tx Tx) error {
		var err error
		p, err = d.Bot.compose(ctx, tx, now, chores)
		return err
	})
	if err != nil {
		return err
	}
	if !p.reply.Empty() {
		if _, err := d.Sender.Send(ctx, p.conv.Address, fmt.Sprintf("chore-%d", p.said[0].ID), p.reply); err != nil {
			return err
		}
	}
	return d.Bot.Ledger.Update(ctx, now, func(tx Tx) error { return p.settle(tx, d.Bot.Zone) })
}

// ping is a message being made of chores.
type ping struct {
	conv    store.Conversation
	reply   reply.Reply
	said    []store.Chore
	dropped []store.Chore
}

// settle records what was said and plants what comes next.
func (p ping) settle(tx Tx, zone *time.Location) error {
	for _, c := range p.said {
		if err := tx.MarkSent(c); err != nil {
			return err
		}
	}
	for _, c := range p.dropped {
		if err := tx.MarkDropped(c); err != nil {
			return err
		}
	}
	loc := location(p.conv.Settings, zone)
	done := map[int64]bool{0: true}
	for _, c := range append(p.said[:len(p.said):len(p.said)], p.dropped...) {
		if done[c.Batch] {
			continue
		}
		done[c.Batch] = true
		b, err := tx.BatchByID(c.Batch)
		if errors.Is(err, store.ErrNotFound) {
			continue
		}
		if err != nil {
			return err
		}
		if _, err := replan(tx, p.conv, loc, b); err != nil {
			return err
		}
	}
	return nil
}

// compose writes the message from the state as it is now.
func (b *Bot) compose(ctx context.Context, tx Tx, now time.Time, chores []store.Chore) (ping, error) {
	var p ping
	conv, err := tx.ConversationByID(chores[0].Conversation)
	if err != nil {
		return p, err
	}
	p.conv = conv
	t := b.at(ctx, tx, Message{Conversation: conv.Address, At: now}, conv)
	var late time.Duration
	states := map[int64]course.State{}
	for _, c := range chores {
		part, wanted, err := t.part(c, states)
		if err != nil {
			return p, err
		}
		if !wanted {
			p.dropped = append(p.dropped, c)
			continue
		}
		p.said = append(p.said, c)
		p.reply.Append(part)
		late = max(late, now.Sub(c.Due))
	}
	if len(p.said) == 0 {
		return p, nil
	}
	if l := plan.Late(now.Add(-late), now); l.Worth() {
		head := reply.Reply{}
		head.Say("Sorry, ", howLong(late), " late: I was not running or could not reach you.")
		p.reply.Blocks = append(head.Blocks, p.reply.Blocks...)
	}
	t.pingButtons(&p.reply, p.said, states)
	quiet := plan.Quiet{From: plan.HourMinute(conv.Settings.QuietFrom), To: plan.HourMinute(conv.Settings.QuietTo)}
	p.reply.Silent = quiet.Contains(now, t.Loc)
	return p, nil
}

// part writes what one chore says; wanted is false if there is nothing to say any
// more.
func (t *Turn) part(c store.Chore, states map[int64]course.State) (r reply.Reply, wanted bool, err error) {
	s, ok := states[c.Batch]
	if !ok {
		b, err := t.Tx.BatchByID(c.Batch)
		if errors.Is(err, store.ErrNotFound) {
			return r, false, nil
		}
		if err != nil {
			return r, false, err
		}
		if s, err = load(t.Tx, b); err != nil {
			return r, false, err
		}
		states[c.Batch] = s
	}
	said, err := t.Tx.Chores(s.ID)
	if err != nil {
		return r, false, err
	}
	for _, w := range course.Wants(s, rhythm(t.Conv.Settings, t.Loc), said) {
		if w.Kind == c.Kind && w.Slot == c.Slot && w.Piece == c.Piece {
			return t.pingText(c, s, said), true, nil
		}
	}
	return r, false, nil
}
