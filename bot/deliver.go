package bot

import (
	"cmp"
	"context"
	"slices"
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
// stand now, and sends it under the key they were claimed with. It gives back the
// chores with what became of them: those no longer wanted are dropped unsaid. An
// error of the sender is handed on unchanged.
func (d Deliverer) Deliver(ctx context.Context, now time.Time, chores []store.Chore) ([]store.Chore, error) {
	if cards, rest := cardChores(chores); len(cards) > 0 {
		return d.deliverCards(ctx, now, cards, rest)
	}
	var (
		at places
		p  ping
	)
	err := d.Bot.Ledger.View(ctx, now, func(tx Tx) error {
		folders, err := foldersOf(tx, chores)
		if err != nil {
			return err
		}
		if at = placed(folders, chores); at.home() {
			p, err = d.Bot.compose(ctx, tx, now, folders, chores)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	if at.home() {
		return d.say(ctx, p, p.conv.Address, chores[0].Message)
	}
	left, done, remarks, err := d.deliverPlaced(ctx, now, at)
	if err != nil || len(left) == 0 {
		return done, err
	}
	said, err := d.deliverTo(ctx, now, "", left, remarks)
	if err != nil {
		return nil, err
	}
	return append(done, said...), nil
}

// deliverTo makes one message of chores and sends it to a place, or to their
// conversation, with remarks above it.
func (d Deliverer) deliverTo(ctx context.Context, now time.Time, place store.Address, chores []store.Chore, remarks reply.Reply) ([]store.Chore, error) {
	var p ping
	err := d.Bot.Ledger.View(ctx, now, func(tx Tx) error {
		folders, err := foldersOf(tx, chores)
		if err == nil {
			p, err = d.Bot.compose(ctx, tx, now, folders, chores)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	to, key := p.conv.Address, chores[0].Message
	if place != "" {
		to, key = place, key+"@"+string(place)
	}
	if !p.reply.Empty() {
		p.reply.Blocks = append(remarks.Blocks, p.reply.Blocks...)
	}
	return d.say(ctx, p, to, key)
}

// say sends what there is to say and gives back what became of its chores.
func (d Deliverer) say(ctx context.Context, p ping, to store.Address, key string) ([]store.Chore, error) {
	if p.reply.Empty() {
		return p.done, nil
	}
	if _, err := d.Sender.Send(ctx, to, key, p.reply); err != nil {
		return nil, err
	}
	return p.done, nil
}

// Settle records what became of chores and plants what comes next in their
// batches, in one transaction.
func (d Deliverer) Settle(ctx context.Context, now time.Time, chores []store.Chore) error {
	return d.Bot.Ledger.Update(ctx, now, func(tx Tx) error {
		for _, c := range chores {
			if err := mark(tx, c); err != nil {
				return err
			}
		}
		// What was said stays said even if what comes next cannot be planned.
		return d.Bot.replanTogether(ctx, tx, batchesOf(chores))
	})
}

func mark(tx Tx, c store.Chore) error {
	switch c.State {
	case store.StateSent:
		return tx.MarkSent(c)
	case store.StateGivenUp:
		return tx.MarkGivenUp(c)
	}
	return tx.MarkDropped(c)
}

// batchesOf lists the batches that chores are of, each once.
func batchesOf(chores []store.Chore) []int64 {
	var ids []int64
	for _, c := range chores {
		if c.Batch != 0 {
			ids = append(ids, c.Batch)
		}
	}
	slices.Sort(ids)
	return slices.Compact(ids)
}

// foldersOf reads all that is kept about the batches that chores are of, by their ids.
func foldersOf(tx Tx, chores []store.Chore) (map[int64]store.Folder, error) {
	list, err := tx.Folders(batchesOf(chores))
	if err != nil {
		return nil, err
	}
	out := make(map[int64]store.Folder, len(list))
	for _, f := range list {
		out[f.Batch.ID] = f
	}
	return out, nil
}

// ping is a message being made of chores.
type ping struct {
	conv  store.Conversation
	reply reply.Reply
	done  []store.Chore // with what becomes of them
}

// compose writes the message from the state as it is now.
func (b *Bot) compose(ctx context.Context, tx Tx, now time.Time, folders map[int64]store.Folder, chores []store.Chore) (ping, error) {
	var p ping
	conv := folders[chores[0].Batch].Conversation
	if conv.ID != chores[0].Conversation {
		var err error
		if conv, err = tx.ConversationByID(chores[0].Conversation); err != nil {
			return p, err
		}
	}
	p.conv = conv
	t := b.at(ctx, tx, Message{Conversation: conv.Address, At: now}, conv)
	var late time.Duration
	var said []store.Chore
	states := map[int64]course.State{}
	chores = slices.Clone(chores)
	slices.SortStableFunc(chores, func(a, b store.Chore) int {
		return cmp.Or(cmp.Compare(b.Urgency, a.Urgency), cmp.Compare(a.Batch, b.Batch))
	})
	for _, c := range chores {
		part, wanted, err := t.part(c, folders, states)
		if err != nil {
			return p, err
		}
		if !wanted {
			c.State = store.StateDropped
			p.done = append(p.done, c)
			continue
		}
		c.State = store.StateSent
		p.done = append(p.done, c)
		said = append(said, c)
		p.reply.Append(part)
		late = max(late, c.Late(now))
	}
	if len(said) == 0 {
		return p, nil
	}
	if l := plan.Late(now.Add(-late), now); l.Worth() {
		head := reply.Reply{}
		head.Say("Sorry, ", howLong(late), " late: I was not running or could not reach you.")
		p.reply.Blocks = append(head.Blocks, p.reply.Blocks...)
	}
	if t.units() == metric {
		metricReply(&p.reply)
	}
	t.pingButtons(&p.reply, said, states)
	if f, ok := folders[chores[0].Batch]; !ok || f.Members > 1 {
		if err := t.address(&p.reply, said, states); err != nil {
			return p, err
		}
	}
	quiet := plan.Quiet{From: plan.HourMinute(conv.Settings.QuietFrom), To: plan.HourMinute(conv.Settings.QuietTo)}
	p.reply.Silent = quiet.Contains(now, t.Loc)
	return p, nil
}

// part writes what one chore says; wanted is false if there is nothing to say any
// more.
func (t *Turn) part(c store.Chore, folders map[int64]store.Folder, states map[int64]course.State) (r reply.Reply, wanted bool, err error) {
	if c.Batch == 0 {
		return t.loosePart(c)
	}
	f, ok := folders[c.Batch]
	if !ok {
		return r, false, nil
	}
	s, ok := states[c.Batch]
	if !ok {
		s = course.Fold(f.Batch, f.Entries)
		states[c.Batch] = s
	}
	said := f.Chores
	for _, w := range course.Wants(s, rhythm(t.Conv.Settings, t.Loc, t.Now), said) {
		if w.Kind == c.Kind && w.Slot == c.Slot && w.Piece == c.Piece {
			if c.Kind == course.ComesBack {
				r, err := t.backText(s)
				return r, true, err
			}
			return t.pingText(c, s, said), true, nil
		}
	}
	return r, false, nil
}
