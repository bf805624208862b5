package bot

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

func handCommands() []Command {
	return []Command{
		{Name: "hand", Own: true, Group: groupTogether, Form: "hand 3 to @marit until Sunday", Help: "have someone look after a batch until a time", Example: "hand 1 to @marit until Sunday", Batch: true, Fields: []Field{{Name: "To", Prefix: "to", Example: "@marit"}, {Name: "Until", Prefix: "until", Example: "Sunday"}}, Run: (*Turn).hand},
		{Name: "accept", Group: groupTogether, Form: "accept 3", Help: "take a batch you were asked to look after", Example: "accept 1", Batch: true, Run: (*Turn).accept},
		{Name: "back", Also: []string{"decline"}, Group: groupTogether, Form: "back 3", Help: "give it back, take it back, or say no", Example: "back 1", Batch: true, Run: (*Turn).back},
		{Name: "allow", Group: groupTogether, Form: "allow 3 flips keeper / anyone", Help: "who may record a batch's flips", Example: "allow 1 flips anyone", Batch: true, Run: (*Turn).allow},
	}
}

// flipKeeper is what a batch's journal says when only those who look after it may
// record its flips.
const flipKeeper = "keeper"

var toUntil = regexp.MustCompile(`(?i)^(?:over\s+)?to\s+@?(.+?)\s+(?:until|till)\s+(.+)$`)

// longestHand is how long a batch can be handed over, longer than any cure: our own
// choice, common practice, no source.
const longestHand = 60 * 24 * time.Hour

// hand offers a batch to someone. Nothing changes until they accept.
func (t *Turn) hand(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("hand", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.permit(give, s); err != nil {
		return r, err
	}
	if err := ended(s); err != nil {
		return r, err
	}
	m := toUntil.FindStringSubmatch(p.Rest)
	if m == nil {
		return r, &Error{Kind: BadInput, Why: "To whom, and until when?", Understood: "hand over " + name(s), Example: t.handTo(s)}
	}
	who, err := t.someone(m[1])
	if err != nil {
		return r, err
	}
	if who.ID == s.Keeper {
		return r, &Error{Kind: BadInput, Why: fmt.Sprintf("%s keeps it already.", who.Name), Example: t.handTo(s)}
	}
	until, err := parse.ClockTime(m[2], t.Now)
	if err != nil {
		return r, err
	}
	if !until.After(t.Now) || until.Sub(t.Now) > longestHand {
		return r, &Error{Kind: BadInput, Why: "That is not within the next 60 days.", Understood: "until " + until.Format("Mon 2 Jan 2006 15:04"), Example: t.handTo(s)}
	}
	if s, err = t.record(s.Batch, "", course.Hand, t.Now, course.Body{Member: who.ID, Until: until.Unix()}); err != nil {
		return r, err
	}
	r.Say(reply.Who(who.Key, who.Name), ", will you look after ", reply.B(name(s)), " until ", t.dayHour(until), "? It is ", t.standing(s), ".")
	r.Say("You would get its pings and may record its steps; it goes back to ", t.Me.Name, " by itself.")
	r.Mentions = []string{who.Key}
	r.Press(reply.Button{Label: "Yes, I will", Line: fmt.Sprintf("accept %d", s.Number)}, reply.Button{Label: "Sorry, no", Line: fmt.Sprintf("back %d", s.Number)})
	return r, nil
}

// handTo is a line that hands a batch to a person who is there; with nobody to hand it
// to, one that shows it.
func (t *Turn) handTo(s course.State) string {
	if list, err := t.Tx.Members(t.Conv.ID); err == nil {
		for _, m := range list {
			if m.ID != t.Me.ID && m.ID != s.Keeper {
				return fmt.Sprintf("hand %d to @%s until Sunday", s.Number, m.Name)
			}
		}
	}
	return fmt.Sprintf("batch %d", s.Number)
}

// someone finds a member by the name or key they were called by.
func (t *Turn) someone(said string) (store.Member, error) {
	said = strings.TrimSpace(strings.Trim(said, "<@!>"))
	members, err := t.Tx.Members(t.Conv.ID)
	if err != nil {
		return store.Member{}, err
	}
	var names []string
	var found []store.Member
	for _, m := range members {
		if m.Key == said || strings.EqualFold(m.Name, said) {
			found = append(found, m)
		}
		if m.ID != t.Me.ID {
			names = append(names, m.Name)
		}
	}
	if len(found) == 1 {
		return found[0], nil
	}
	e := &Error{Kind: NoSuch, Why: fmt.Sprintf("I have not met anyone called “%s” here. They have to say something to me first.", clip(said, 40)), Example: "batches"}
	if len(names) > 0 {
		e.Example = fmt.Sprintf("hand 1 to @%s until Sunday", names[0])
	}
	if len(found) > 1 {
		e.Why = fmt.Sprintf("There are %d people called “%s” here; call them by the @name the chat uses.", len(found), clip(said, 40))
	} else if len(names) == 0 {
		e.Why = "Nobody else has spoken to me in this chat yet. In a group's chat a batch is handed to someone who has."
	} else {
		e.Why += " I know: " + strings.Join(names[:min(len(names), 8)], ", ") + "."
	}
	return store.Member{}, e
}

// accept takes up an offer; only whom it was made to may.
func (t *Turn) accept(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("accept", args, func(s course.State) bool { return s.Offer.Member == t.Me.ID })
	if err != nil {
		return r, err
	}
	s := p.State
	switch {
	case s.Offer.Member == 0 && s.Helper.Member == t.Me.ID && s.Helper.At(t.Now):
		r.Say("You look after ", reply.B(name(s)), " already, until ", t.dayHour(s.Helper.Until), ".")
		r.Private = true
		return r, nil
	case s.Offer.Member == 0:
		return r, &Error{Kind: NotNow, Why: name(s) + " is not on offer.", Example: fmt.Sprintf("batch %d", s.Number)}
	case s.Offer.Member != t.Me.ID:
		other, err := t.Tx.MemberByID(s.Offer.Member)
		if err != nil {
			return r, err
		}
		return r, &Error{Kind: NotYours, Why: fmt.Sprintf("%s was offered to %s, not to you.", name(s), other.Name), Example: fmt.Sprintf("batch %d", s.Number)}
	case !t.Now.Before(s.Offer.Until):
		return r, &Error{Kind: NotNow, Why: "That offer is over; it ran until " + s.Offer.Until.In(t.Loc).Format("Mon 2 Jan 15:04") + ".", Example: fmt.Sprintf("batch %d", s.Number)}
	}
	if s, err = t.record(s.Batch, "", course.Accept, t.Now, course.Body{}); err != nil {
		return r, err
	}
	owner, err := t.Tx.MemberByID(s.Keeper)
	if err != nil {
		return r, err
	}
	r.Replace = t.Msg.Press != nil
	r.Say(t.Me.Name, " looks after ", reply.B(name(s)), " for ", owner.Name, " until ", t.dayHour(s.Helper.Until), ". It is ", t.standing(s), ".")
	return r, t.sayNextPing(&r, s)
}

// back ends a hand-over: the keeper takes it back, the helper gives it back, or the
// one asked says no.
func (t *Turn) back(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("back", args, func(s course.State) bool { return s.Helper.Member != 0 || s.Offer.Member != 0 })
	if err != nil {
		return r, err
	}
	s := p.State
	accepted := s.Offer.Member == 0
	who := s.Offer
	if accepted {
		who = s.Helper
	}
	if who.Member == 0 || !t.Now.Before(who.Until) {
		return r, &Error{Kind: NotNow, Why: name(s) + " is with its keeper.", Example: t.handTo(s)}
	}
	if t.Me.ID != who.Member {
		if err := t.permit(give, s); err != nil {
			return r, err
		}
	}
	if s, err = t.record(s.Batch, "", course.Back, t.Now, course.Body{}); err != nil {
		return r, err
	}
	owner, err := t.Tx.MemberByID(s.Keeper)
	if err != nil {
		return r, err
	}
	r.Replace = t.Msg.Press != nil
	if accepted {
		r.Say(reply.B(name(s)), " is back with ", owner.Name, ": ", t.standing(s), ".")
	} else {
		r.Say(reply.B(name(s)), " stays with ", owner.Name, ".")
	}
	return r, nil
}

func (t *Turn) allow(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("allow", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.permit(give, s); err != nil {
		return r, err
	}
	words := strings.Fields(strings.ToLower(p.Rest))
	who := ""
	if len(words) > 0 {
		who = words[len(words)-1]
	}
	if who != "anyone" && who != flipKeeper {
		return r, &Error{Kind: BadInput, Why: "Flips can be recorded by anyone here, or only by those who look after the batch.", Example: fmt.Sprintf("allow %d flips anyone", s.Number)}
	}
	if who == "anyone" {
		who = ""
	}
	if s, err = t.record(s.Batch, "", course.Allow, t.Now, course.Body{Text: who}); err != nil {
		return r, err
	}
	if s.Flipper == flipKeeper {
		r.Say(reply.B(name(s)), ": only those who look after it may record its flips.")
	} else {
		r.Say(reply.B(name(s)), ": anyone here may record its flips.")
	}
	return r, nil
}

// addressee is who gets a batch's pings now: whom it was handed to, or its keeper.
func (t *Turn) addressee(s course.State) (store.Member, error) {
	if s.Helper.At(t.Now) {
		m, err := t.Tx.MemberByID(s.Helper.Member)
		if !errors.Is(err, store.ErrNotFound) { // someone gone since: the keeper hears of it
			return m, err
		}
	}
	return t.Tx.MemberByID(s.Keeper)
}

// address puts in front of a ping whom it is for, where several people could think
// it is not them, and lets it ping them and nobody else.
func (t *Turn) address(r *reply.Reply, said []store.Chore, states map[int64]course.State) error {
	members, err := t.Tx.Members(t.Conv.ID)
	if err != nil || len(members) < 2 {
		return err
	}
	line := reply.Line{{Text: "For "}}
	seen := map[int64]bool{}
	for _, c := range said {
		s, ok := states[c.Batch]
		if !ok {
			continue
		}
		m, err := t.addressee(s)
		if err != nil {
			return err
		}
		more, err := t.others(c, s)
		if err != nil {
			return err
		}
		for _, m := range append([]store.Member{m}, more...) {
			if seen[m.ID] {
				continue
			}
			if len(seen) > 0 {
				line = append(line, reply.Span{Text: ", "})
			}
			seen[m.ID] = true
			line = append(line, reply.Who(m.Key, m.Name))
			r.Mentions = append(r.Mentions, m.Key)
		}
	}
	if len(seen) > 0 {
		r.Blocks = append([]reply.Block{{Lines: []reply.Line{append(line, reply.Span{Text: ":"})}}}, r.Blocks...)
	}
	return nil
}
