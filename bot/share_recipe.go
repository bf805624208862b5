package bot

import (
	"fmt"
	"slices"
	"strings"

	"larderhand/bot/reply"
	"larderhand/store"
)

// shareRecipe lets others in a conversation take a recipe of the sender's.
func (t *Turn) shareRecipe(kept store.Recipe, into store.Conversation) (reply.Reply, error) {
	var r reply.Reply
	if err := t.ownRecipe(kept); err != nil {
		return r, err
	}
	code, err := t.Tx.ShareRecipe(into.ID, kept, t.bot.Code())
	if err != nil {
		return r, err
	}
	rec, err := readRecipe(kept)
	if err != nil {
		return r, err
	}
	where := ""
	if into.ID != t.Conv.ID {
		where = " in " + groupName(into)
	}
	r.Say(t.Me.Name, " shares the recipe ", reply.B(title(kept)), where, ":")
	t.sayRecipe(&r, rec)
	r.Press(reply.Button{Label: "Take it", Line: fmt.Sprintf(`take "%s"`, kept.Name)}, reply.Button{Label: "Use it", Line: fmt.Sprintf(`use "%s"`, kept.Name), Ask: true})
	lookButton(&r, recipeMark, code)
	return r, nil
}

// ownRecipe refuses to share or take back what is somebody else's.
func (t *Turn) ownRecipe(kept store.Recipe) error {
	if kept.Owner == t.Me.Key {
		return nil
	}
	return &Error{Kind: NotYours, Why: fmt.Sprintf("“%s” is %s's to share. Take it, and what you make of it is yours.", kept.Name, kept.OwnerName), Example: fmt.Sprintf(`take "%s"`, kept.Name)}
}

// unshareRecipe takes a recipe of the sender's back: from the group that is named, from
// this one, or, said in private, from wherever it is shared. Whoever left a group takes
// it back all the same.
func (t *Turn) unshareRecipe(args, where string) (reply.Reply, error) {
	var r reply.Reply
	kept, _, err := t.findRecipe("unshare", args)
	if err != nil {
		return r, err
	}
	if err := t.ownRecipe(kept); err != nil {
		return r, err
	}
	from, err := t.Tx.RecipeShares(kept)
	if err != nil {
		return r, err
	}
	line := fmt.Sprintf(`unshare "%s"`, kept.Name)
	all := len(from)
	switch {
	case where != "":
		if from = called(where, from); len(from) > 1 {
			return r, whichGroup(line, fmt.Sprintf("It is shared in %s that go by that name. In which?", count(len(from), "group")), from)
		}
	case !t.Msg.Direct:
		from = slices.DeleteFunc(from, func(c store.Conversation) bool { return c.ID != t.Conv.ID })
	}
	if len(from) == 0 {
		e := &Error{Kind: NotNow, Why: fmt.Sprintf("Your “%s” is not shared here.", kept.Name), Example: "recipes"}
		if where != "" || t.Msg.Direct {
			e.Why = fmt.Sprintf("Your “%s” is not shared there.", kept.Name)
		}
		switch { // where else is nobody's business in a group
		case all > 0 && t.Msg.Direct:
			e.Why, e.Example = e.Why+" It is shared elsewhere.", line
		case all > 0:
			e.Why += " It is shared elsewhere: said to me in private, this takes it back everywhere."
			e.Example = line
		case t.Msg.Direct:
			e.Why = fmt.Sprintf("Your “%s” is shared nowhere.", kept.Name)
		}
		return r, e
	}
	var names []string
	for _, c := range from {
		if err := t.Tx.UnshareRecipe(c.ID, kept); err != nil {
			return r, err
		}
		if c.ID != t.Conv.ID {
			names = append(names, groupName(c))
		}
	}
	in := ""
	if len(names) > 0 {
		in = " in " + strings.Join(names, ", ")
	}
	r.Say(reply.B(kept.Name), " is no longer shared", in, ". What others took stays theirs.")
	return r, nil
}
