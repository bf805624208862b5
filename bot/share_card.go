package bot

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"larderhand/bot/chart"
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
	if err != nil {
		return c, err
	}
	s.card.Shows = s.digest
	c.State = store.StateSent
	return c, d.Bot.Ledger.Update(ctx, now, func(tx Tx) error {
		if c.Kind == store.ChoreCardEnd {
			return toldFollowers(tx, s.card)
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

// toldFollowers lets followers go: they are told once.
func toldFollowers(tx Tx, c store.Card) error {
	list, err := tx.Voices(c.ID, store.Follows)
	if err != nil {
		return err
	}
	for _, v := range list {
		if _, err := tx.Speak(c.ID, store.Follows, v, false); err != nil {
			return err
		}
	}
	return nil
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

// composeCard writes a card from its batch as it is now. An empty reply means that
// there is nothing to say: it shows that already.
func (b *Bot) composeCard(ctx context.Context, tx Tx, now time.Time, c store.Chore) (shownCard, error) {
	var out shownCard
	id, err := strconv.ParseInt(c.Body, 10, 64)
	if err != nil {
		return out, store.ErrNotFound
	}
	if out.card, err = tx.Card(id); err != nil {
		return out, err
	}
	conv, err := tx.ConversationByID(out.card.Conversation)
	if err != nil {
		return out, err
	}
	out.at, out.digest = conv.Address, out.card.Shows
	t := b.at(ctx, tx, Message{Conversation: conv.Address, At: now}, conv)
	s, err := t.batchOf(out.card)
	if err != nil {
		return out, err
	}
	switch {
	case out.card.State == store.CardGone:
		return out, nil
	case out.card.State == store.CardDown:
		if c.Kind == store.ChoreCard {
			out.reply.Say(out.card.OwnerName, "'s card was taken down.")
		}
		return out, nil
	case c.Kind == store.ChoreCardEnd:
		out.reply, err = t.endText(s, out.card)
		return out, err
	}
	r, err := t.cardText(s, out.card)
	if err != nil {
		return out, err
	}
	text, err := json.Marshal(r)
	if err != nil {
		return out, err
	}
	sum := sha256.Sum256(text)
	if out.digest = hex.EncodeToString(sum[:8]); out.digest == out.card.Shows {
		return out, nil
	}
	file, err := t.cardPicture(s)
	if err != nil {
		return out, err
	}
	if file != nil {
		r.Files = []reply.File{*file}
	}
	out.reply = r
	return out, nil
}

// cardText says what a shared batch is and where it stands. Notes, remarks, costs
// and readings other than the last stay with its keeper.
func (t *Turn) cardText(s course.State, c store.Card) (reply.Reply, error) {
	var r reply.Reply
	r.Silent = true
	r.Say(reply.B(orElse(flavours(s), "Bacon")), ", ", t.units().meat(sum(s)), ", by ", c.OwnerName, ": ", stood(t.standing(s), s), fmt.Sprintf(". Card %d.", c.ID))
	r.Say(orElse(s.Plan.Method, "dry rub"), ", salt ", percent(s.Plan.Salt), ", sugar ", percent(s.Plan.Sugar), ", ", ppm(s.Pieces[0].Ingoing), " nitrite", orElse(byRecipe(s), ""), ".")
	if s.Stage() == course.InSmoke {
		if text := t.lastReading(s); text != "" {
			r.Say(text)
		}
	}
	if s.Stage() == course.Curing && len(s.Flips) > 0 {
		r.Say(count(len(s.Flips), "flip"), " so far.")
	}
	cheers, err := t.Tx.Voices(c.ID, store.Cheers)
	if err != nil {
		return r, err
	}
	follows, err := t.Tx.Voices(c.ID, store.Follows)
	if err != nil {
		return r, err
	}
	if len(cheers) > 0 {
		var names []string
		for _, v := range cheers[:min(len(cheers), 5)] {
			names = append(names, v.Name)
		}
		if n := len(cheers) - len(names); n > 0 {
			names = append(names, fmt.Sprintf("%d more", n))
		}
		r.Say("Cheers from ", strings.Join(names, ", "), ".")
	}
	if done(s) {
		r.Press(reply.Button{Label: "Cheer", Line: fmt.Sprintf("cheer card %d", c.ID)}, reply.Button{Label: "Ask", Line: fmt.Sprintf("ask card %d", c.ID), Ask: true})
		return r, nil
	}
	if len(follows) > 0 {
		r.Say(fmt.Sprint(len(follows)), " will be told when it is done.")
	}
	r.Press(reply.Button{Label: "Follow", Line: fmt.Sprintf("follow card %d", c.ID)}, reply.Button{Label: "Cheer", Line: fmt.Sprintf("cheer card %d", c.ID)},
		reply.Button{Label: "Ask", Line: fmt.Sprintf("ask card %d", c.ID), Ask: true})
	return r, nil
}

// stood is where a batch stands without the reason it ended for.
func stood(standing string, s course.State) string {
	if s.End != "" {
		return string(s.End)
	}
	return standing
}

func byRecipe(s course.State) string {
	if s.Plan.Recipe == "" {
		return ""
	}
	return ", by the recipe " + s.Plan.Recipe
}

func (t *Turn) lastReading(s course.State) string {
	for i := len(s.Log) - 1; i >= 0; i-- {
		if l := s.Log[i]; l.Kind == course.Reading {
			return readingText(l.Body, t.units()) + " at " + l.At.In(t.Loc).Format("15:04") + "."
		}
	}
	return ""
}

// cardPicture is the picture of where a batch stands: its smoke, its cure, or the
// time it has spent in its stages.
func (t *Turn) cardPicture(s course.State) (*reply.File, error) {
	file, err := t.smokePicture(s)
	if err == nil && file == nil && s.Stage() == course.Curing {
		file, err = t.curePicture(s, "")
	}
	if err != nil {
		return nil, err
	}
	if file == nil {
		png, err := chart.Calendar(chart.CalendarData{Now: t.Now, Rows: []chart.CalendarRow{{Batch: s.Number, Flavour: flavours(s), Spans: t.spans(s)}}}, t.style())
		if err != nil {
			return nil, err
		}
		file = &reply.File{Type: "image/png", Data: png}
	}
	file.Name, file.Caption = "card.png", ""
	return file, nil
}

// endText tells a card's followers that the batch is done; empty if nobody follows,
// or if it is not done after all.
func (t *Turn) endText(s course.State, c store.Card) (reply.Reply, error) {
	var r reply.Reply
	list, err := t.Tx.Voices(c.ID, store.Follows)
	if err != nil || len(list) == 0 || !done(s) {
		return r, err
	}
	line := []any{"For "}
	for i, v := range list {
		if i > 0 {
			line = append(line, ", ")
		}
		line = append(line, reply.Who(v.Key, v.Name))
		r.Mentions = append(r.Mentions, v.Key)
	}
	r.Say(append(line, ": ", reply.B(orElse(flavours(s), "the batch")), " of ", c.OwnerName, " is ", stood(t.standing(s), s), ". You asked to be told; that was it.")...)
	return r, nil
}
