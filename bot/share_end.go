package bot

import (
	"slices"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/store"
)

// endText tells a card's followers that the batch is done, and gives whom; empty if
// nobody is to be told by this card, or if it is not done after all.
func (t *Turn) endText(s course.State, c store.Card) (r reply.Reply, list []store.Voice, err error) {
	list, err = toTell(t.Tx, c)
	if err != nil || len(list) == 0 || !done(s) {
		return r, nil, err
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
	return r, list, nil
}

// toTell are the followers of a card it tells. Whoever follows several cards of one
// batch, in several groups, is told by the first of them that can be reached.
func toTell(tx Tx, c store.Card) ([]store.Voice, error) {
	list, err := tx.Voices(c.ID, store.Follows)
	if err != nil || len(list) == 0 {
		return nil, err
	}
	others, err := sameFollowing(tx, c)
	if err != nil {
		return nil, err
	}
	elsewhere := map[string]bool{}
	for _, o := range others {
		if o.ID > c.ID {
			continue
		}
		there, err := tx.Voices(o.ID, store.Follows)
		if err != nil {
			return nil, err
		}
		for _, v := range there {
			elsewhere[v.Key] = true
		}
	}
	var out []store.Voice
	for _, v := range list {
		if !elsewhere[v.Key] {
			out = append(out, v)
		}
	}
	return out, nil
}

// sameFollowing are the other cards of a card's batch that can tell the same people:
// those up on the same platform, where the bot can speak.
func sameFollowing(tx Tx, c store.Card) ([]store.Card, error) {
	home, err := tx.ConversationByID(c.Conversation)
	if err != nil {
		return nil, err
	}
	list, err := tx.CardsOf(c.Batch)
	if err != nil {
		return nil, err
	}
	var out []store.Card
	for _, o := range list {
		conv, err := tx.ConversationByID(o.Conversation)
		if err != nil {
			return nil, err
		}
		if o.ID != c.ID && conv.Parked == "" && conv.Address.Lane() == home.Address.Lane() {
			out = append(out, o)
		}
	}
	return out, nil
}

// toldFollowers lets those go whom a card told, from all cards of its batch: they are
// told once. Who came to follow it meanwhile is told by another message.
func toldFollowers(tx Tx, c store.Card, told []store.Voice) error {
	others, err := sameFollowing(tx, c)
	if err != nil {
		return err
	}
	for _, o := range append(others, c) {
		for _, v := range told {
			if _, err := tx.Speak(o.ID, store.Follows, v, false); err != nil {
				return err
			}
		}
	}
	if late, err := toTell(tx, c); err != nil || len(late) == 0 {
		return err
	}
	return tx.TouchCard(c, store.ChoreCardEnd)
}

// handOn has the next card tell those whom a card was to tell and could not. Who
// follows no other stays with it.
func handOn(tx Tx, c store.Card, untold []store.Voice) error {
	others, err := sameFollowing(tx, c)
	if err != nil {
		return err
	}
	for _, o := range others {
		there, err := tx.Voices(o.ID, store.Follows)
		if err != nil {
			return err
		}
		touch := false
		for _, v := range untold {
			if !slices.ContainsFunc(there, func(w store.Voice) bool { return w.Key == v.Key }) {
				continue
			}
			if _, err := tx.Speak(c.ID, store.Follows, v, false); err != nil {
				return err
			}
			touch = true
		}
		if touch {
			if err := tx.TouchCard(o, store.ChoreCardEnd); err != nil {
				return err
			}
		}
	}
	return nil
}
