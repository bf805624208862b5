package bot

import (
	"errors"
	"fmt"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

// findCard finds a card that is up here by the number of its batch or its own.
func (t *Turn) findCard(cmd, args string) (store.Card, string, error) {
	args = strings.TrimSpace(args)
	own := false
	if word, rest := firstWord(args); strings.EqualFold(word, "card") {
		args, own = rest, true
	}
	list, err := t.Tx.CardsIn(t.Conv.ID)
	if err != nil {
		return store.Card{}, "", err
	}
	ref, rest, ok, err := parse.Batch(args)
	if err != nil {
		return store.Card{}, "", err
	}
	if !ok && len(list) == 1 {
		return list[0], args, nil
	}
	if ok && !own {
		b, err := t.Tx.Batch(t.Conv.ID, ref.Number)
		if err != nil && !errors.Is(err, store.ErrNotFound) {
			return store.Card{}, "", err
		}
		for _, c := range list {
			if err == nil && c.Batch == b.ID {
				return c, rest, nil
			}
		}
	}
	for _, c := range list {
		if ok && c.ID == int64(ref.Number) {
			return c, rest, nil
		}
	}
	e := &Error{Kind: NoSuch, Why: "Nothing is shared here.", Example: "share 1"}
	if len(list) > 0 {
		var numbers []string
		for _, c := range list {
			numbers = append(numbers, fmt.Sprintf("%d (%s's)", c.ID, c.OwnerName))
		}
		e.Why, e.Example = "There is no such card here. There are: "+strings.Join(numbers, ", ")+".", fmt.Sprintf("%s card %d", cmd, list[0].ID)
	}
	return store.Card{}, "", e
}

// voice follows a card, or cheers.
func (t *Turn) voice(kind string, on bool, args string) (reply.Reply, error) {
	var r reply.Reply
	c, _, err := t.findCard(kind, args)
	if err != nil {
		return r, err
	}
	s, err := t.batchOf(c)
	if err != nil {
		return r, err
	}
	changed, err := t.Tx.Speak(c.ID, kind, store.Voice{Key: t.Me.Key, Name: t.Me.Name}, on)
	if err != nil {
		return r, err
	}
	if changed {
		if err := t.Tx.TouchCard(c, store.ChoreCard); err != nil {
			return r, err
		}
	}
	r.Private = true
	what := fmt.Sprintf("%s of %s", orElse(flavours(s), "the batch"), c.OwnerName)
	switch {
	case kind == store.Cheers && changed:
		r.Say("You cheer for ", what, ".")
	case kind == store.Cheers:
		r.Say("You cheered for it already; once is plenty.")
	case on && changed:
		r.Say("I'll tell you once, when ", what, " is done. Not any more: ", reply.Type(fmt.Sprintf("unfollow card %d", c.ID)))
	case on:
		r.Say("You follow it already.")
	case changed:
		r.Say("You no longer follow it.")
	default:
		r.Say("You don't follow it.")
	}
	return r, nil
}

func (t *Turn) batchOf(c store.Card) (course.State, error) {
	b, err := t.Tx.BatchByID(c.Batch)
	if err != nil {
		return course.State{}, err
	}
	return load(t.Tx, b)
}

// askKeeper passes a question on to whose batch it is, where all can read it.
func (t *Turn) askKeeper(args string) (reply.Reply, error) {
	var r reply.Reply
	c, question, err := t.findCard("ask", args)
	if err != nil {
		return r, err
	}
	question = clip(question, 500)
	if question == "" {
		return r, &Error{Kind: BadInput, Why: "Ask what?", Example: fmt.Sprintf("ask card %d which wood?", c.ID)}
	}
	s, err := t.batchOf(c)
	if err != nil {
		return r, err
	}
	r.Say(reply.Who(c.Owner, c.OwnerName), ", ", t.Me.Name, " asks about ", orElse(flavours(s), "your batch"), ": ", question)
	r.Mentions = []string{c.Owner}
	return r, nil
}
