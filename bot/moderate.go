package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

func moderateCommands() []Command {
	return []Command{
		{Name: "keeper", Group: groupTogether, Form: "keeper 3 @marit", Help: "give a batch to another keeper for good", Example: "keeper 1 @marit", Batch: true, Fields: []Field{{Name: "To whom", Example: "@marit"}}, Run: (*Turn).keeper},
		{Name: "opening", Group: groupSet, Form: "opening admins / opening anyone", Help: "in a group: who may open batches", Example: "opening admins",
			Fields: []Field{{Name: "Who", Example: "admins", Choices: []string{"admins", "anyone"}}}, Run: (*Turn).opening},
	}
}

// keeper gives a batch to someone else for good: by its keeper, or by a group admin
// when the keeper is gone. It is not taken back by undo but by giving it back.
func (t *Turn) keeper(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("keeper", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.permit(give, s); err != nil {
		return r, err
	}
	if strings.TrimSpace(p.Rest) == "" {
		return r, &Error{Kind: BadInput, Why: "To whom?", Understood: "a new keeper for " + name(s), Example: fmt.Sprintf("keeper %d @marit", s.Number)}
	}
	who, err := t.someone(strings.TrimPrefix(strings.TrimSpace(p.Rest), "to "))
	if err != nil {
		return r, err
	}
	if who.ID == s.Keeper {
		r.Say(who.Name, " keeps ", reply.B(name(s)), " already.")
		r.Private = true
		return r, nil
	}
	was := t.memberName(s.Keeper)
	if s.Helper.Member != 0 { // whoever minds it does so for its keeper, who changes
		if err := t.write(s.Batch, "", course.Back, t.Now, course.Body{}); err != nil {
			return r, err
		}
	}
	b := s.Batch
	b.Keeper = who.ID
	if err := t.Tx.SaveBatch(b); err != nil {
		return r, err
	}
	if err := t.Tx.OwnCards(b.ID, who.Key, who.Name); err != nil {
		return r, err
	}
	if s, err = t.record(b, "", course.Keeper, t.Now, course.Body{Member: who.ID, Text: "from " + was}); err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), " is kept by ", reply.Who(who.Key, who.Name), " now; ", was, " kept it before. It is ", t.standing(s), ".")
	r.Mentions = []string{who.Key}
	return r, t.sayNextPing(&r, s)
}

// openingSetting is the name of the setting that says who may open batches in a
// group: "admins", or unset for anyone.
const openingSetting = "opening"

func (t *Turn) opening(args string) (reply.Reply, error) {
	var r reply.Reply
	who := strings.ToLower(strings.TrimSpace(args))
	if who != "admins" && who != "anyone" {
		now := "Anyone here may open a batch."
		if t.Conv.Settings.Named[openingSetting] == "admins" {
			now = "Only group admins may open a batch here."
		}
		return r, &Error{Kind: BadInput, Why: now, Example: "opening admins"}
	}
	if err := t.maySet(); err != nil {
		return r, err
	}
	t.name(openingSetting, map[string]string{"admins": "admins"}[who])
	conv, err := t.Tx.SaveConversation(t.Conv)
	if err != nil {
		return r, err
	}
	t.Conv = conv
	if who == "admins" {
		r.Say("From now on only group admins open batches here. Sums are for everyone, and running batches go on.")
	} else {
		r.Say("Anyone here may open a batch.")
	}
	return r, nil
}

// name sets a named setting, or unsets it.
func (t *Turn) name(setting, value string) {
	named := map[string]string{}
	for k, v := range t.Conv.Settings.Named {
		named[k] = v
	}
	named[setting] = value
	if value == "" {
		delete(named, setting)
	}
	t.Conv.Settings.Named = named
}

// mayOpen says whether the sender may open a batch here.
func (t *Turn) mayOpen() error {
	if t.Conv.Settings.Named[openingSetting] != "admins" || t.Msg.Direct || t.Msg.Sender.Admin {
		return nil
	}
	return &Error{Kind: NotYours, Why: "In this group only admins open batches. The sum stands; a batch of your own you can open with me in private.", Example: "5 lb juniper"}
}
