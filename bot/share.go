package bot

import (
	"fmt"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

func shareCommands() []Command {
	card := []Field{{Name: "Card or batch", Example: "3"}}
	return []Command{
		{Name: "share", Own: true, Group: groupTogether, Form: `share 3 / share 3 in club / share "winter juniper"`, Help: "show a batch in a group, or let others take a recipe", Example: "share 1",
			Fields: []Field{{Name: "Batch or recipe", Example: "3"}, {Name: "Where", Prefix: "in", Example: "club", Optional: true}}, Ahead: lookUpGroup, Run: (*Turn).share},
		{Name: "unshare", Own: true, Group: groupTogether, Form: `unshare 3 / unshare "winter juniper"`, Help: "take its card down, or a recipe back", Example: "unshare 1",
			Fields: []Field{{Name: "Batch or recipe", Example: "3"}}, Run: (*Turn).unshare},
		{Name: "cards", Group: groupTogether, Form: "cards", Help: "what is shared here", Example: "cards", Reads: true, Run: (*Turn).cards},
		{Name: "shared", Group: groupTogether, Form: "shared CODE", Help: "look at what someone shared, by its code", Example: "cards", Reads: true, Fields: []Field{{Name: "Code", Example: "b_…"}}, Run: (*Turn).shared},
		{Name: "follow", Group: groupTogether, Form: "follow 3", Help: "be told once when a shared batch is done", Example: "follow 1", Fields: card, Run: func(t *Turn, args string) (reply.Reply, error) { return t.voice(store.Follows, true, args) }},
		{Name: "unfollow", Group: groupTogether, Form: "unfollow 3", Help: "don't be told", Example: "unfollow 1", Fields: card, Run: func(t *Turn, args string) (reply.Reply, error) { return t.voice(store.Follows, false, args) }},
		{Name: "cheer", Group: groupTogether, Form: "cheer 3", Help: "cheer for a shared batch", Example: "cheer 1", Fields: card, Run: func(t *Turn, args string) (reply.Reply, error) { return t.voice(store.Cheers, true, args) }},
		{Name: "ask", Own: true, Group: groupTogether, Form: "ask 3 which wood?", Help: "ask whose batch it is", Example: "ask 1 which wood?", Fields: []Field{{Name: "Card or batch", Example: "3"}, {Name: "Question", Example: "which wood?"}}, Run: (*Turn).askKeeper},
		{Name: "remove", Group: groupTogether, Form: "remove card 7", Help: "take a card down: your own, or any as a group admin", Example: "remove card 7", Fields: card, Run: (*Turn).removeCard},
	}
}

// namesRecipe says whether what is to be shared is called by a name and not by a
// batch's number.
func namesRecipe(args string) bool {
	_, _, ok, err := parse.Batch(args)
	return strings.TrimSpace(args) != "" && (err != nil || !ok)
}

// share shows a batch in a group, or lets the group take a recipe.
func (t *Turn) share(args string) (reply.Reply, error) {
	args, where := partWhere(args)
	if namesRecipe(args) {
		kept, _, err := t.findRecipe("share", args)
		if err != nil {
			return reply.Reply{}, err
		}
		into, err := t.into("share "+strings.TrimSpace(args), where)
		if err != nil {
			return reply.Reply{}, err
		}
		return t.shareRecipe(kept, into)
	}
	p, err := t.which("share", args, nil)
	if err != nil {
		return reply.Reply{}, err
	}
	s := p.State
	if err := t.permit(give, s); err != nil {
		return reply.Reply{}, err
	}
	if s.End == course.Discarded {
		return reply.Reply{}, &Error{Kind: NotNow, Why: name(s) + " was thrown away; there is nothing to show.", Example: "batches"}
	}
	into, err := t.into(fmt.Sprintf("share %d", s.Number), where)
	if err != nil {
		return reply.Reply{}, err
	}
	return t.putUp(s, into)
}

// putUp has a batch's card posted.
func (t *Turn) putUp(s course.State, into store.Conversation) (reply.Reply, error) {
	var r reply.Reply
	had, err := t.Tx.CardsOf(s.ID)
	if err != nil {
		return r, err
	}
	for _, c := range had {
		if c.Conversation == into.ID {
			r.Say(reply.B(name(s)), " is shared there already, as card ", fmt.Sprint(c.ID), ".")
			r.Private = true
			return r, nil
		}
	}
	k, err := t.Tx.MemberByID(s.Keeper)
	if err != nil {
		return r, err
	}
	if k.ID != t.Me.ID && into.ID != t.Conv.ID {
		return r, &Error{Kind: NotYours, Why: fmt.Sprintf("%s is %s's; only they can show it in another group.", name(s), k.Name), Example: fmt.Sprintf("share %d", s.Number)}
	}
	c, err := t.Tx.AddCard(store.Card{Batch: s.ID, Conversation: into.ID, Owner: k.Key, OwnerName: k.Name, Code: t.bot.Code()})
	if err != nil {
		return r, err
	}
	if err := t.Tx.TouchCard(c, store.ChoreCard); err != nil {
		return r, err
	}
	where := "here"
	if into.ID != t.Conv.ID {
		where = "in " + groupName(into)
	}
	if k.ID == t.Me.ID {
		r.Say(reply.B(name(s)), " is shared ", where, " as card ", fmt.Sprint(c.ID), ": stage, picture and what it is. Your notes stay with you.")
	} else {
		r.Say(reply.B(name(s)), " is shared ", where, " as ", k.Name, "'s card ", fmt.Sprint(c.ID), ", by you: stage, picture and what it is. Their notes stay with them.")
	}
	r.Say("Take it down: ", reply.Type(fmt.Sprintf("unshare %d", s.Number)))
	r.Private = true
	return r, nil
}

// unshare takes all cards of a batch down, or a recipe back.
func (t *Turn) unshare(args string) (reply.Reply, error) {
	var r reply.Reply
	args, where := partWhere(args)
	if namesRecipe(args) {
		return t.unshareRecipe(args, where)
	}
	p, err := t.which("unshare", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.permit(give, s); err != nil {
		return r, err
	}
	list, err := t.Tx.CardsOf(s.ID)
	if err != nil {
		return r, err
	}
	if len(list) == 0 {
		return r, &Error{Kind: NotNow, Why: name(s) + " is not shared.", Example: fmt.Sprintf("share %d", s.Number)}
	}
	if where != "" {
		if list, err = t.cardsThere(list, fmt.Sprintf("unshare %d", s.Number), where); err != nil {
			return r, err
		}
	}
	for _, c := range list {
		if err := t.takeDown(c); err != nil {
			return r, err
		}
	}
	left, err := t.Tx.CardsOf(s.ID)
	if err != nil {
		return r, err
	}
	if len(left) > 0 {
		r.Say("One card of ", reply.B(name(s)), " will be taken down; it stays shared in ", count(len(left), "other group"), ".")
	} else {
		r.Say(reply.B(name(s)), " is private again; ", count(len(list), "card"), " will be taken down.")
	}
	r.Private = true
	return r, nil
}

// cardsThere is the card among some that is in a group called so.
func (t *Turn) cardsThere(list []store.Card, line, where string) ([]store.Card, error) {
	var groups []store.Conversation
	for _, c := range list {
		conv, err := t.Tx.ConversationByID(c.Conversation)
		if err != nil {
			return nil, err
		}
		groups = append(groups, conv)
	}
	meant := called(where, groups)
	switch {
	case len(meant) > 1:
		return nil, whichGroup(line, fmt.Sprintf("%s go by that name. In which?", count(len(meant), "group")), meant)
	case len(meant) == 0 && t.Msg.Direct:
		return nil, whichGroup(line, fmt.Sprintf("It is not shared in “%s”. In which is it to be taken down?", clip(where, 40)), groups)
	case len(meant) == 0:
		return nil, &Error{Kind: NotNow, Why: fmt.Sprintf("It is not shared in “%s”.", clip(where, 40)), Example: line}
	}
	return slices.DeleteFunc(list, func(c store.Card) bool { return c.Conversation != meant[0].ID }), nil
}

func (t *Turn) takeDown(c store.Card) error {
	c.State = store.CardDown
	if err := t.Tx.SaveCard(c); err != nil {
		return err
	}
	return t.Tx.TouchCard(c, store.ChoreCard)
}

// cards lists what is shared here.
func (t *Turn) cards(string) (reply.Reply, error) {
	var r reply.Reply
	list, err := t.Tx.CardsIn(t.Conv.ID)
	if err != nil {
		return r, err
	}
	if len(list) == 0 {
		r.Say("Nothing is shared here. Show a batch: ", reply.Type("share 1"))
		return r, nil
	}
	for _, c := range list {
		s, err := t.batchOf(c)
		if err != nil {
			return r, err
		}
		r.Say("Card ", reply.B(fmt.Sprint(c.ID)), ": ", orElse(flavours(s), "plain"), ", by ", c.OwnerName, ": ", stood(t.standing(s), s), ".")
	}
	return r, nil
}

// removeCard takes a card down where it is shown.
func (t *Turn) removeCard(args string) (reply.Reply, error) {
	var r reply.Reply
	c, _, err := t.findCard("remove", args)
	if err != nil {
		return r, err
	}
	if c.Owner != t.Me.Key && !t.Msg.Sender.Admin {
		return r, &Error{Kind: NotYours, Why: fmt.Sprintf("Card %d is %s's; they or a group admin can take it down.", c.ID, c.OwnerName), Example: "cards"}
	}
	if err := t.takeDown(c); err != nil {
		return r, err
	}
	r.Say("Card ", fmt.Sprint(c.ID), " will be taken down. The batch goes on as before.")
	r.Private = true
	return r, nil
}
