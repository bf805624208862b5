package bot

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"larderhand/bot/reply"
	"larderhand/store"
)

// A batch may live in a place of its own, such as a thread: its pings go there, and
// what is said there without a number is about it. Its conversation stays the one it
// was opened in.

func placeCommands() []Command {
	return []Command{{Name: "thread", Group: groupSet, Form: "thread 3 / thread 3 off", Help: "give a batch a thread of its own, where its pings go", Example: "thread 1", Batch: true,
		Fields: []Field{{Name: "Off", Example: "off", Optional: true, Choices: []string{"off"}}}, Run: (*Turn).thread}}
}

func (t *Turn) thread(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("thread", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.permit(change, s); err != nil {
		return r, err
	}
	had, err := t.Tx.Place(s.ID)
	has := err == nil
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		return r, err
	}
	if strings.EqualFold(strings.TrimSpace(p.Rest), "off") {
		if !has {
			r.Say(reply.B(name(s)), " has no thread of its own.")
			r.Private = true
			return r, nil
		}
		if err := t.Tx.SetPlace(s.ID, ""); err != nil {
			return r, err
		}
		r.Say(reply.B(name(s)), ": its pings go to the channel again.")
		return r, nil
	}
	if err := ended(s); err != nil {
		return r, err
	}
	if !t.Msg.Places {
		return r, &Error{Kind: NotNow, Why: "This chat has no threads I could open.", Example: fmt.Sprintf("batch %d", s.Number)}
	}
	if has {
		r.Say(reply.B(name(s)), " has its thread already; its pings go there.")
		r.Place = &reply.Place{In: string(t.Conv.Address), Batch: s.Number, Is: string(had)}
		r.Private = true
		return r, nil
	}
	title := fmt.Sprintf("Batch %d", s.Number)
	if f := flavours(s); f != "" {
		title += " · " + f
	}
	r.Say(reply.B(name(s)), " has a thread of its own now; its pings go there.")
	r.Place = &reply.Place{In: string(t.Conv.Address), Batch: s.Number, Name: clip(title, 100)}
	return r, nil
}

// PlaceOf is the place a batch of a conversation has of its own, or
// store.ErrNotFound.
func (b *Bot) PlaceOf(ctx context.Context, at store.Address, number int) (store.Address, error) {
	var place store.Address
	err := b.Ledger.View(ctx, b.Clock.Now(), func(tx Tx) error {
		batch, err := numbered(tx, at, number)
		if err != nil {
			return err
		}
		place, err = tx.Place(batch.ID)
		return err
	})
	return place, err
}

// SetPlace gives a batch of a conversation a place of its own; "" takes it away.
func (b *Bot) SetPlace(ctx context.Context, at store.Address, number int, place store.Address) error {
	return b.Ledger.Update(ctx, b.Clock.Now(), func(tx Tx) error {
		batch, err := numbered(tx, at, number)
		if err != nil {
			return err
		}
		return tx.SetPlace(batch.ID, place)
	})
}

func numbered(tx Tx, at store.Address, number int) (store.Batch, error) {
	conv, err := tx.Conversation(at)
	if err != nil {
		return store.Batch{}, err
	}
	return tx.Batch(conv.ID, number)
}

// home takes a message said in a batch's own place to the batch's conversation.
func home(tx Tx, m Message) (Message, error) {
	batch, err := tx.PlacedAt(m.Conversation)
	if errors.Is(err, store.ErrNotFound) {
		return m, nil
	}
	if err != nil {
		return m, err
	}
	conv, err := tx.ConversationByID(batch.Conversation)
	if err != nil {
		return m, err
	}
	m.Conversation, m.here = conv.Address, batch.Number
	return m, nil
}

// inPlace is the batch in whose own place a line was said that names none.
func (t *Turn) inPlace(args string) (pick, bool, error) {
	if t.Msg.here == 0 {
		return pick{}, false, nil
	}
	b, err := t.Tx.Batch(t.Conv.ID, t.Msg.here)
	if err != nil {
		return pick{}, false, err
	}
	s, err := load(t.Tx, b)
	return pick{State: s, Rest: args}, err == nil, err
}

// places are chores by the place their batch has of its own, in order; those at home
// come under "".
type places struct {
	order []store.Address
	of    map[store.Address][]store.Chore
}

// home says that all of them belong in the conversation itself.
func (p places) home() bool { return len(p.order) == 1 && p.order[0] == "" }

func placed(folders map[int64]store.Folder, chores []store.Chore) places {
	p := places{of: map[store.Address][]store.Chore{}}
	for _, c := range chores {
		place := folders[c.Batch].Place
		if len(p.of[place]) == 0 {
			p.order = append(p.order, place)
		}
		p.of[place] = append(p.of[place], c)
	}
	return p
}

// deliverPlaced delivers what is due in the places batches have of their own, and
// gives back what is left for the conversation itself: chores that belong there, and
// those whose place is gone, with what to say about that. What was said is recorded
// before anything more is, since the rest may fail and come again.
func (d Deliverer) deliverPlaced(ctx context.Context, now time.Time, at places) (left []store.Chore, done []store.Chore, remarks reply.Reply, err error) {
	left = at.of[""]
	for _, place := range at.order {
		if place == "" {
			continue
		}
		said, err := d.deliverTo(ctx, now, place, at.of[place], reply.Reply{})
		var f *store.Failure
		switch {
		case err == nil:
			if err := d.Settle(ctx, now, said); err != nil {
				return nil, nil, remarks, err
			}
			done = append(done, said...)
		case errors.As(err, &f) && f.Kind == store.Gone:
			if err := d.leavePlace(ctx, now, at.of[place][0].Batch, &remarks); err != nil {
				return nil, nil, remarks, err
			}
			left = append(left, at.of[place]...)
		default:
			return nil, nil, remarks, err
		}
	}
	return left, done, remarks, nil
}

// leavePlace takes a batch's place away and says so.
func (d Deliverer) leavePlace(ctx context.Context, now time.Time, id int64, r *reply.Reply) error {
	return d.Bot.Ledger.Update(ctx, now, func(tx Tx) error {
		b, err := tx.BatchByID(id)
		if err != nil {
			return err
		}
		s, err := load(tx, b)
		if err != nil {
			return err
		}
		r.Say("The thread of ", reply.B(name(s)), " is gone or closed to me, so its pings come here from now on.")
		return tx.SetPlace(id, "")
	})
}
