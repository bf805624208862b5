package bot

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"

	"larderhand/bot/chart"
	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/store"
)

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
		out.reply, out.told, err = t.endText(s, out.card)
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
	r.Say(orElse(s.Plan.Method, "dry rub"), ", salt ", percent(s.Plan.Salt), ", sugar ", percent(s.Plan.Sugar), ", ", span(s.Pieces, ingoing, " ppm", 1), " nitrite", orElse(byRecipe(s), ""), ".")
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
		lookButton(&r, batchMark, c.Code)
		return r, nil
	}
	if len(follows) > 0 {
		r.Say(fmt.Sprint(len(follows)), " will be told when it is done.")
	}
	r.Press(reply.Button{Label: "Follow", Line: fmt.Sprintf("follow card %d", c.ID)}, reply.Button{Label: "Cheer", Line: fmt.Sprintf("cheer card %d", c.ID)},
		reply.Button{Label: "Ask", Line: fmt.Sprintf("ask card %d", c.ID), Ask: true})
	lookButton(&r, batchMark, c.Code)
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
	file, err := t.smokePicture(s, false)
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
