package bot

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/store"
)

// mostNamed is how many sorts of things are named when a batch is given back.
const mostNamed = 6

// backText tells both that a batch is its keeper's again, and what was done
// meanwhile.
func (t *Turn) backText(s course.State) (reply.Reply, error) {
	var r reply.Reply
	owner, err := t.Tx.MemberByID(s.Keeper)
	if err != nil {
		return r, err
	}
	other, err := t.Tx.MemberByID(s.Helper.Member)
	if err != nil {
		return r, err
	}
	did := other.Name + " recorded nothing meanwhile."
	if list := t.recordedBy(s, s.Helper); list != "" {
		did = "Meanwhile " + other.Name + " recorded: " + list + "; thank you."
	}
	r.Par(reply.B(name(s)), " is back with ", reply.Who(owner.Key, owner.Name), ". ", did, " It is ", t.standing(s), ".")
	return r, nil
}

// recordedBy lists what a helper recorded while they had a batch, in its order, what
// came again once with how often; empty if there was nothing.
func (t *Turn) recordedBy(s course.State, who course.Helper) string {
	var order []string
	often := map[string]int{}
	for _, l := range s.Log {
		if l.Member != who.Member || l.At.Before(who.Offered) {
			continue
		}
		switch l.Kind {
		case course.Accept, course.Undo, course.Later, course.Pings:
			continue
		}
		text := entryText(l, t)
		if l.Kind == course.Reading {
			text = "pit and core read"
		}
		if l.Piece != "" && l.Kind != course.Discard {
			text += " (" + l.Piece + ")"
		}
		if often[text]++; often[text] == 1 {
			order = append(order, text)
		}
	}
	more := len(order) - mostNamed
	var said []string
	for _, text := range order[:min(len(order), mostNamed)] {
		if n := often[text]; n > 1 {
			text += " " + times(n)
		}
		said = append(said, text)
	}
	if more > 0 {
		said = append(said, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(said, ", ")
}

// lastTurnedBy says who turned a batch last, where there is more than one who could
// have.
func (t *Turn) lastTurnedBy(s course.State) (string, error) {
	if members, err := t.Tx.Members(t.Conv.ID); err != nil || len(members) < 2 {
		return "", err
	}
	for _, l := range slices.Backward(s.Log) {
		if (l.Kind == course.Flip || l.Kind == course.Rub) && l.At.Equal(s.LastTurned()) {
			m, err := t.Tx.MemberByID(l.Member)
			if errors.Is(err, store.ErrNotFound) { // gone since
				return "", nil
			}
			return " by " + m.Name, err
		}
	}
	return "", nil
}
