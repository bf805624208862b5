package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/course"
)

// What a person can be to a batch. One may be several of these.
type role int

const (
	anyone role = iota
	helper      // it was handed to them, and they took it, until a time
	keeper      // who opened it
	admin       // who manages the group
)

// act is something done to a batch or a conversation.
type act string

const (
	read   act = "read"
	flip   act = "flip"
	note   act = "note"
	logs   act = "log"    // steps, readings, weights
	change act = "change" // undo, skip, longer, thickness
	end    act = "end"    // close, discard
	give   act = "hand over"
	set    act = "settings of a group"
)

// may is the table of who may do what. It is the only one: a button, a slash
// command and a typed line all end here.
func may(a act) []role {
	switch a {
	case read, note:
		return []role{anyone, helper, keeper, admin}
	case flip:
		return []role{anyone, helper, keeper, admin} // narrowed by the keeper, see mayFlip
	case logs, change:
		return []role{helper, keeper, admin}
	case end, give:
		return []role{keeper, admin}
	case set:
		return []role{admin}
	}
	return nil
}

// roles are what the sender is to a batch.
func (t *Turn) roles(s course.State) []role {
	list := []role{anyone}
	if t.Me.ID == s.Keeper {
		list = append(list, keeper)
	}
	if t.Me.ID == s.Helper.Member && s.Helper.At(t.Now) {
		list = append(list, helper)
	}
	if t.Msg.Sender.Admin {
		list = append(list, admin)
	}
	return list
}

func (t *Turn) is(s course.State, allowed []role) bool {
	for _, have := range t.roles(s) {
		for _, want := range allowed {
			if have == want {
				return true
			}
		}
	}
	return false
}

// permit refuses what the sender may not do to a batch.
func (t *Turn) permit(a act, s course.State) error {
	allowed := may(a)
	if a == flip && s.Flipper == flipKeeper {
		allowed = []role{helper, keeper, admin}
	}
	if t.is(s, allowed) {
		return nil
	}
	k, err := t.Tx.MemberByID(s.Keeper)
	if err != nil {
		return err
	}
	e := &Error{Kind: NotYours, Why: fmt.Sprintf("%s is %s's; only the keeper, whom they handed it to, or a group admin may do that. You can record a flip.", name(s), k.Name),
		Example: fmt.Sprintf("flip %d", s.Number)}
	switch {
	case a != flip && s.Flipper == flipKeeper:
		e.Why, e.Example = strings.TrimSuffix(e.Why, " You can record a flip."), fmt.Sprintf("batch %d", s.Number)
	case a == flip:
		e.Why, e.Example = fmt.Sprintf("%s lets only those who look after %s record its flips.", k.Name, name(s)), fmt.Sprintf("batch %d", s.Number)
	}
	return e
}

// mayChange says whether the sender may change a batch.
func (t *Turn) mayChange(s course.State) error { return t.permit(change, s) }

// maySet says whether the sender may change the settings all here share.
func (t *Turn) maySet() error {
	if t.Msg.Direct || t.Msg.Sender.Admin {
		return nil
	}
	return &Error{Kind: NotYours, Why: "These settings are the whole group's; a group admin can change them.", Example: "set"}
}
