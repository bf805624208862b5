package bot

import (
	"strings"

	"larderhand/bot/reply"
)

func moderateCommands() []Command {
	return []Command{{Name: "opening", Group: groupSet, Form: "opening admins / opening anyone", Help: "in a group: who may open batches", Example: "opening admins",
		Fields: []Field{{Name: "Who", Example: "admins", Choices: []string{"admins", "anyone"}}}, Run: (*Turn).opening}}
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
