package bot

import (
	"context"
	"fmt"
	"regexp"
	"strings"

	"larderhand/bot/reply"
	"larderhand/store"
)

var intoPlace = regexp.MustCompile(`(?i)(?:^|\s)(?:in|to)\s+(.+)$`)

// partWhere parts what is to be shared from the group it is to be shared in; where is
// empty if none is said. What is in quotes is a name, whatever it says.
func partWhere(args string) (what, where string) {
	args = strings.TrimSpace(args)
	rest := args
	if m := quoted.FindStringSubmatchIndex(args); m != nil {
		rest = args[m[4]:]
	}
	named := args[:len(args)-len(rest)]
	if m := intoPlace.FindStringSubmatchIndex(rest); m != nil {
		return strings.TrimSpace(named + rest[:m[0]]), strings.TrimSpace(rest[m[2]:m[3]])
	}
	return args, ""
}

// groupName is what people call a group, with the server or the group it is in: channels
// and topics of one name are everywhere.
func groupName(c store.Conversation) string {
	title, server := c.Settings.Named[titleSetting], c.Settings.Named[serverSetting]
	switch {
	case title == "" && server != "":
		return "a topic of " + server
	case title == "":
		return fmt.Sprintf("group #%d", c.ID)
	case server == "":
		return title
	}
	return title + " (" + server + ")"
}

// called picks the groups that go by a name, or the one with the number buttons carry.
// Where none does the name may be that of what they are all in.
func called(where string, groups []store.Conversation) []store.Conversation {
	if id, ok := strings.CutPrefix(strings.TrimSpace(where), "#"); ok {
		for _, c := range groups {
			if fmt.Sprint(c.ID) == id {
				return []store.Conversation{c}
			}
		}
	}
	said := fold(strings.Trim(where, "\"“”'#"))
	var out, within []store.Conversation
	for _, c := range groups {
		title, server := c.Settings.Named[titleSetting], c.Settings.Named[serverSetting]
		switch {
		case title != "" && fold(title) == said, title+server != "" && fold(groupName(c)) == said:
			out = append(out, c)
		case server != "" && fold(server) == said:
			within = append(within, c)
		}
	}
	if len(out) == 0 {
		return within
	}
	return out
}

// whichGroup asks which of some groups is meant. Those that go by one name are told
// apart by their number.
func whichGroup(line, why string, groups []store.Conversation) *Error {
	names := map[string]int{}
	for _, g := range groups {
		names[groupName(g)]++
	}
	e := &Error{Kind: BadInput, Why: why, Example: fmt.Sprintf("%s in #%d", line, groups[0].ID)}
	if title := groups[0].Settings.Named[titleSetting]; title != "" && len(called(title, groups)) == 1 {
		e.Example = line + " in " + title
	}
	for _, g := range groups[:min(len(groups), 5)] {
		label := groupName(g)
		if names[label] > 1 {
			label += fmt.Sprintf(" #%d", g.ID)
		}
		e.Buttons = append(e.Buttons, reply.Button{Label: label, Line: fmt.Sprintf("%s in #%d", line, g.ID)})
	}
	return e
}

// groupsOf are the groups a person has spoken in and that can be written to.
func groupsOf(tx Tx, lane, key string) ([]store.Conversation, error) {
	all, err := tx.ConversationsOf(lane, key)
	if err != nil {
		return nil, err
	}
	var out []store.Conversation
	for _, c := range all {
		if c.Settings.Named[directSetting] == "" && c.Parked == "" {
			out = append(out, c)
		}
	}
	return out, nil
}

// lookUpGroup asks the platform whether the sender is still in the group that a line
// names: having spoken there once is not enough.
func lookUpGroup(ctx context.Context, b *Bot, m Message, args string) (Message, error) {
	_, where := partWhere(args)
	if where == "" || b.Roll == nil {
		return m, nil
	}
	var meant []store.Conversation
	err := b.Ledger.View(ctx, m.At, func(tx Tx) error {
		groups, err := groupsOf(tx, m.Conversation.Lane(), m.Sender.Key)
		meant = called(where, groups)
		return err
	})
	if err != nil || len(meant) != 1 {
		return m, err
	}
	in, err := b.Roll.Inside(ctx, meant[0].Address, m.Sender.Key)
	if err != nil {
		b.Log.WarnContext(ctx, "could not look up whether somebody is in a group", "conversation", meant[0].Address, "error", err)
		return m, nil
	}
	m.inside = map[int64]bool{meant[0].ID: in}
	return m, nil
}

// into finds where to share: here in a group, or a group the sender has spoken in and
// still is in.
func (t *Turn) into(line, where string) (store.Conversation, error) {
	if where == "" && !t.Msg.Direct {
		return t.Conv, nil
	}
	groups, err := groupsOf(t.Tx, t.Conv.Address.Lane(), t.Me.Key)
	if err != nil {
		return store.Conversation{}, err
	}
	meant := called(where, groups)
	switch {
	case len(groups) == 0:
		return store.Conversation{}, &Error{Kind: NoSuch, Why: "I know of no group that you are in. Say something to me there first, such as hello.", Example: line}
	case where == "":
		return store.Conversation{}, whichGroup(line, "In which group?", groups)
	case len(meant) == 0:
		return store.Conversation{}, whichGroup(line, fmt.Sprintf("I know of no group “%s” that you are in. In which?", clip(where, 40)), groups)
	case len(meant) > 1:
		return store.Conversation{}, whichGroup(line, fmt.Sprintf("You are in %s that go by that name. In which?", count(len(meant), "group")), meant)
	}
	return meant[0], t.stillIn(meant[0], line)
}

// stillIn refuses to share into a group the sender is not in, or not known to be in.
func (t *Turn) stillIn(c store.Conversation, line string) error {
	in, known := t.Msg.inside[c.ID]
	switch {
	case c.ID == t.Conv.ID || in:
		return nil
	case known:
		return &Error{Kind: NotYours, Why: fmt.Sprintf("You are not in %s any more, so I put nothing up there for you.", groupName(c)), Example: "cards"}
	}
	return &Error{Kind: NotNow, Why: fmt.Sprintf("I couldn't find out just now whether you are in %s, so I put nothing up there; try again in a minute, or say it there instead.", groupName(c)),
		Example: fmt.Sprintf("%s in #%d", line, c.ID)}
}
