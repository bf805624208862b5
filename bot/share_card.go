package bot

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/store"
)

// Remover takes a message down that was sent before. One that is gone is no failure.
// A sender need not be one: then, or where it refuses, as for a message too old, the
// message is changed to say that it is taken down.
type Remover interface {
	Remove(ctx context.Context, to store.Address, ref string) error
}

// touchCards has a batch's cards brought up to date, and their followers told once it
// is done.
func touchCards(tx Tx, s course.State) error {
	list, err := tx.CardsOf(s.ID)
	if err != nil {
		return err
	}
	for _, c := range list {
		if err := tx.TouchCard(c, store.ChoreCard); err != nil {
			return err
		}
		if done(s) {
			if err := tx.TouchCard(c, store.ChoreCardEnd); err != nil {
				return err
			}
		}
	}
	return nil
}

func done(s course.State) bool { return s.End != "" || s.Stage() == course.Done }

// cardChores parts the chores of cards, each a message of its own, from the others.
func cardChores(chores []store.Chore) (cards, rest []store.Chore) {
	for _, c := range chores {
		if c.Kind == store.ChoreCard || c.Kind == store.ChoreCardEnd {
			cards = append(cards, c)
		} else {
			rest = append(rest, c)
		}
	}
	return cards, rest
}

// deliverCards says what else is due first and then brings the cards up to date, one
// message each. What was said is recorded before anything more is, since the rest may
// fail and come again.
func (d Deliverer) deliverCards(ctx context.Context, now time.Time, cards, rest []store.Chore) ([]store.Chore, error) {
	var all []store.Chore
	if len(rest) > 0 {
		said, err := d.Deliver(ctx, now, rest)
		if err != nil {
			return nil, err
		}
		if err := d.Settle(ctx, now, said); err != nil {
			return nil, err
		}
		all = said
	}
	for _, c := range cards {
		var f *store.Failure
		said, err := d.deliverCard(ctx, now, c)
		switch {
		case errors.As(err, &f) && f.Kind == store.Refused: // this card's alone
			c.State, c.Cause = store.StateGivenUp, f.Error()
			said = c
		case err != nil:
			return nil, err
		}
		all = append(all, said)
	}
	return all, nil
}

// shown is a card as it is to be.
type shownCard struct {
	card   store.Card
	at     store.Address
	reply  reply.Reply
	digest string
	told   []store.Voice // by the message that the batch is done
}

func (d Deliverer) deliverCard(ctx context.Context, now time.Time, c store.Chore) (store.Chore, error) {
	var s shownCard
	err := d.Bot.Ledger.View(ctx, now, func(tx Tx) error {
		var err error
		s, err = d.Bot.composeCard(ctx, tx, now, c)
		return err
	})
	if errors.Is(err, store.ErrNotFound) || err == nil && s.reply.Empty() && s.card.State != store.CardDown {
		c.State = store.StateDropped
		return c, nil
	}
	if err != nil {
		return c, err
	}
	key := fmt.Sprintf("%s/%s-%d", c.Message, strings.ReplaceAll(c.Kind, " ", "-"), s.card.ID)
	switch {
	case c.Kind == store.ChoreCardEnd:
		_, err = d.Sender.Send(ctx, s.at, key, s.reply)
	case s.card.State == store.CardDown:
		s.card, err = d.remove(ctx, s)
	case s.card.Ref == "":
		s.card.Ref, err = d.Sender.Send(ctx, s.at, key, s.reply)
	default:
		s.card, err = d.redraw(ctx, s)
	}
	var f *store.Failure
	if c.Kind == store.ChoreCardEnd && errors.As(err, &f) && (f.Kind == store.Refused || f.Kind == store.Gone) {
		if err := d.Bot.Ledger.Update(ctx, now, func(tx Tx) error { return handOn(tx, s.card, s.told) }); err != nil {
			return c, err
		}
	}
	if err != nil {
		return c, err
	}
	s.card.Shows = s.digest
	c.State = store.StateSent
	return c, d.Bot.Ledger.Update(ctx, now, func(tx Tx) error {
		if c.Kind == store.ChoreCardEnd {
			return toldFollowers(tx, s.card, s.told)
		}
		return keepCard(tx, s.card)
	})
}

// keepCard writes down what became of a card, unless it was taken down meanwhile.
func keepCard(tx Tx, c store.Card) error {
	now, err := tx.Card(c.ID)
	if err != nil {
		return err
	}
	if now.State == store.CardDown && c.State == store.CardUp {
		c.State = store.CardDown
	}
	return tx.SaveCard(c)
}

// redraw changes a card's message. One that someone deleted stays away.
func (d Deliverer) redraw(ctx context.Context, s shownCard) (store.Card, error) {
	e, ok := d.Sender.(Editor)
	if !ok {
		return s.card, nil
	}
	err := e.Edit(ctx, s.at, s.card.Ref, s.reply)
	var f *store.Failure
	if errors.As(err, &f) && f.Kind == store.Refused {
		s.card.State = store.CardGone
		return s.card, nil
	}
	return s.card, err
}

// remove takes a card's message down.
func (d Deliverer) remove(ctx context.Context, s shownCard) (store.Card, error) {
	c := s.card
	c.State = store.CardGone
	if c.Ref == "" {
		return c, nil
	}
	refused := func(err error) bool {
		var f *store.Failure
		return errors.As(err, &f) && f.Kind == store.Refused
	}
	if rm, ok := d.Sender.(Remover); ok {
		if err := rm.Remove(ctx, s.at, c.Ref); !refused(err) {
			return c, err
		}
	}
	if e, ok := d.Sender.(Editor); ok {
		if err := e.Edit(ctx, s.at, c.Ref, s.reply); err != nil && !refused(err) {
			return s.card, err
		}
	}
	return c, nil
}
