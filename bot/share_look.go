package bot

import (
	"errors"
	"fmt"
	"regexp"

	"larderhand/bot/reply"
	"larderhand/store"
)

// What a code begins with that stands for a shared batch or a shared recipe; the
// adapters make links of such codes.
const (
	batchMark  = "b_"
	recipeMark = "r_"
)

var sharedCode = regexp.MustCompile(`^\s*([br]_)([A-Za-z0-9_-]{1,62})\s*$`)

// lookButton lets something shared be opened in private. What was shared before there
// were codes has none.
func lookButton(r *reply.Reply, mark, code string) {
	if code != "" {
		r.Press(reply.Button{Label: "Open in private", Line: "shared " + mark + code})
	}
}

// shared shows what someone shared to whoever was given its code: as much of it as
// its card shows where it was put up, and no more.
func (t *Turn) shared(args string) (reply.Reply, error) {
	r := reply.Reply{Private: true}
	m := sharedCode.FindStringSubmatch(args)
	if m == nil {
		return r, &Error{Kind: BadInput, Why: "A code of something shared begins with b_ or r_; press Open in private under a card to have it used.", Example: "cards"}
	}
	if m[1] == recipeMark {
		return t.sharedRecipe(m[2])
	}
	c, err := t.Tx.CardByCode(m[2], t.Conv.Address.Lane())
	if errors.Is(err, store.ErrNotFound) {
		return r, t.noLongerShared()
	}
	if err != nil {
		return r, err
	}
	s, err := t.batchOf(c)
	if err != nil {
		return r, err
	}
	r, err = t.cardText(s, c)
	if err != nil {
		return r, err
	}
	r.Private, r.Silent, r.Buttons = true, false, nil // the buttons find their card only where it is
	file, err := t.cardPicture(s)
	if err != nil {
		return r, err
	}
	if file != nil {
		r.Files = []reply.File{*file}
	}
	t.whatIDo(&r)
	return r, nil
}

func (t *Turn) sharedRecipe(code string) (reply.Reply, error) {
	r := reply.Reply{Private: true}
	kept, err := t.recipeOffered(code)
	if err != nil {
		return r, err
	}
	rec, err := readRecipe(kept)
	if err != nil {
		return r, err
	}
	r.Say("The recipe ", reply.B(title(kept)), " of ", kept.OwnerName, ":")
	t.sayRecipe(&r, rec)
	if kept.Owner == t.Me.Key {
		r.Say("It is yours: ", reply.Type(fmt.Sprintf(`use "%s" %s`, kept.Name, t.exampleWeight())))
		return r, nil
	}
	r.Press(reply.Button{Label: "Take it", Line: "take " + recipeMark + code})
	t.whatIDo(&r)
	return r, nil
}

// offered finds the recipe to take: by its code, which means that one and no other, or
// by its name among those shared here.
func (t *Turn) offered(args string) (kept store.Recipe, byCode bool, err error) {
	if m := sharedCode.FindStringSubmatch(args); m != nil && m[1] == recipeMark {
		kept, err = t.recipeOffered(m[2])
		return kept, true, err
	}
	kept, _, err = t.findRecipe("take", args)
	return kept, false, err
}

func (t *Turn) recipeOffered(code string) (store.Recipe, error) {
	kept, err := t.Tx.RecipeByCode(code, t.Conv.Address.Lane())
	if errors.Is(err, store.ErrNotFound) {
		err = t.noLongerShared()
	}
	return kept, err
}

func (t *Turn) noLongerShared() error {
	e := &Error{Kind: NoSuch, Why: "That is not shared any more, or the link is cut short.", Example: "cards"}
	if t.Msg.Direct {
		e.Example = "hello"
	}
	return e
}

// whatIDo is for someone who came by a link and has not met the bot.
func (t *Turn) whatIDo(r *reply.Reply) {
	if t.Msg.Direct {
		r.Press(reply.Button{Label: "What I do", Line: "hello"})
	}
}
