package bot

import (
	"fmt"
	"regexp"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

func shareCommands() []Command {
	card := []Field{{Name: "Card or batch", Example: "3"}}
	return []Command{
		{Name: "share", Group: groupTogether, Form: `share 3 / share 3 in club / share "winter juniper"`, Help: "show a batch in a group, or let others take a recipe", Example: "share 1",
			Fields: []Field{{Name: "Batch or recipe", Example: "3"}, {Name: "Where", Prefix: "in", Example: "club", Optional: true}}, Run: (*Turn).share},
		{Name: "unshare", Group: groupTogether, Form: `unshare 3 / unshare "winter juniper"`, Help: "take its card down, or a recipe back", Example: "unshare 1",
			Fields: []Field{{Name: "Batch or recipe", Example: "3"}}, Run: (*Turn).unshare},
		{Name: "cards", Group: groupTogether, Form: "cards", Help: "what is shared here", Example: "cards", Reads: true, Run: (*Turn).cards},
		{Name: "shared", Group: groupTogether, Form: "shared CODE", Help: "look at what someone shared, by its code", Example: "cards", Reads: true, Fields: []Field{{Name: "Code", Example: "b_…"}}, Run: (*Turn).shared},
		{Name: "follow", Group: groupTogether, Form: "follow 3", Help: "be told once when a shared batch is done", Example: "follow 1", Fields: card, Run: func(t *Turn, args string) (reply.Reply, error) { return t.voice(store.Follows, true, args) }},
		{Name: "unfollow", Group: groupTogether, Form: "unfollow 3", Help: "don't be told", Example: "unfollow 1", Fields: card, Run: func(t *Turn, args string) (reply.Reply, error) { return t.voice(store.Follows, false, args) }},
		{Name: "cheer", Group: groupTogether, Form: "cheer 3", Help: "cheer for a shared batch", Example: "cheer 1", Fields: card, Run: func(t *Turn, args string) (reply.Reply, error) { return t.voice(store.Cheers, true, args) }},
		{Name: "ask", Group: groupTogether, Form: "ask 3 which wood?", Help: "ask whose batch it is", Example: "ask 1 which wood?", Fields: []Field{{Name: "Card or batch", Example: "3"}, {Name: "Question", Example: "which wood?"}}, Run: (*Turn).askKeeper},
		{Name: "remove", Group: groupTogether, Form: "remove card 7", Help: "take a card down: your own, or any as a group admin", Example: "remove card 7", Fields: card, Run: (*Turn).removeCard},
	}
}

// namesRecipe says whether what is to be shared is called by a name and not by a
// batch's number.
func namesRecipe(args string) bool {
	_, _, ok, err := parse.Batch(args)
	return strings.TrimSpace(args) != "" && (err != nil || !ok)
}

var intoPlace = regexp.MustCompile(`(?i)(?:^|\s)(?:in|to)\s+(.+)$`)

// share shows a batch in a group, or lets the group take a recipe.
func (t *Turn) share(args string) (reply.Reply, error) {
	where := ""
	if m := intoPlace.FindStringSubmatchIndex(args); m != nil && !strings.HasSuffix(strings.TrimSpace(args), `"`) {
		args, where = strings.TrimSpace(args[:m[0]]), args[m[2]:m[3]]
	}
	if namesRecipe(args) {
		kept, _, err := t.findRecipe("share", args)
		if err != nil {
			return reply.Reply{}, err
		}
		into, err := t.into("share "+strings.TrimSpace(args), where)
		if err != nil {
			return reply.Reply{}, err
		}
		return t.shareRecipe(kept, into, true)
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

// into finds where to share: here in a group; from a private chat a group the sender
// has spoken in.
func (t *Turn) into(line, where string) (store.Conversation, error) {
	if where == "" && !t.Msg.Direct {
		return t.Conv, nil
	}
	all, err := t.Tx.ConversationsOf(t.Conv.Address.Lane(), t.Me.Key)
	if err != nil {
		return store.Conversation{}, err
	}
	said := fold(strings.Trim(where, "\"“”'#"))
	var groups []store.Conversation
	for _, c := range all {
		if c.Settings.Named[directSetting] != "" || c.Parked != "" {
			continue
		}
		if said != "" && (fold(c.Settings.Named[titleSetting]) == said || fmt.Sprint(c.ID) == said && strings.Contains(where, "#")) {
			return c, nil
		}
		groups = append(groups, c)
	}
	e := &Error{Kind: NoSuch, Why: "I know of no group that you are in. Say something to me there first, such as hello.", Example: line}
	if len(groups) > 0 {
		e.Kind, e.Why, e.Example = BadInput, "In which group?", line+" in "+orElse(groups[0].Settings.Named[titleSetting], fmt.Sprintf("#%d", groups[0].ID))
		if where != "" {
			e.Why = fmt.Sprintf("I know of no group “%s” that you are in. In which?", clip(where, 40))
		}
		for _, g := range groups[:min(len(groups), 5)] {
			e.Buttons = append(e.Buttons, reply.Button{Label: orElse(g.Settings.Named[titleSetting], fmt.Sprintf("group #%d", g.ID)), Line: fmt.Sprintf("%s in #%d", line, g.ID)})
		}
	}
	return store.Conversation{}, e
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
	c, err := t.Tx.AddCard(store.Card{Batch: s.ID, Conversation: into.ID, Owner: t.Me.Key, OwnerName: t.Me.Name, Code: t.bot.Code()})
	if err != nil {
		return r, err
	}
	if err := t.Tx.TouchCard(c, store.ChoreCard); err != nil {
		return r, err
	}
	where := "here"
	if into.ID != t.Conv.ID {
		where = "in " + orElse(into.Settings.Named[titleSetting], "that group")
	}
	r.Say(reply.B(name(s)), " is shared ", where, " as card ", fmt.Sprint(c.ID), ": stage, picture and what it is. Your notes stay with you.")
	r.Say("Take it down: ", reply.Type(fmt.Sprintf("unshare %d", s.Number)))
	r.Private = true
	return r, nil
}

// unshare takes all cards of a batch down, or a recipe back.
func (t *Turn) unshare(args string) (reply.Reply, error) {
	var r reply.Reply
	if namesRecipe(args) {
		kept, _, err := t.findRecipe("unshare", args)
		if err != nil {
			return r, err
		}
		return t.shareRecipe(kept, t.Conv, false)
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
	for _, c := range list {
		if err := t.takeDown(c); err != nil {
			return r, err
		}
	}
	r.Say(reply.B(name(s)), " is private again; ", count(len(list), "card"), " will be taken down.")
	r.Private = true
	return r, nil
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
