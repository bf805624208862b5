package discordtest

import "time"

// Interaction types and callback types of
// interactions/receiving-and-responding.mdx.
const (
	commandUse      = 2
	componentUse    = 3
	autocompleteUse = 4
	modalUse        = 5

	pong            = 1
	replyNow        = 4
	replyLater      = 5
	updateLater     = 6
	updateNow       = 7
	autocompleteAck = 8
	showModal       = 9
)

// The published deadlines.
const (
	firstAnswerWithin = 3 * time.Second
	tokenGoodFor      = 15 * time.Minute
)

// interaction is one use of a command, button, menu or form.
type interaction struct {
	s       *Server
	id      string
	token   string
	kind    int
	born    time.Time
	person  *Person
	channel *Channel
	payload obj
	source  *message     // whose component it was
	opener  *interaction // what opened the modal

	name    string // of the command
	ack     int    // callback type, 0 while unanswered
	refused []int  // error codes of callbacks refused
	updated int    // edits of @original since the answer

	original  *message
	followUps []*message
	choices   []Choice
	modal     *Form
}

// newInteraction fills what all interactions have.
func (s *Server) newInteraction(kind int, p *Person, c *Channel) *interaction {
	i := &interaction{
		s: s, id: s.newID(), kind: kind, born: s.now(), person: p, channel: c,
	}
	i.token = "token-" + i.id
	owners := obj{"0": "0"}
	i.payload = obj{
		"id": i.id, "application_id": s.appID, "type": kind, "token": i.token, "version": 1,
		"channel_id": c.ID, "channel": c.json(), "locale": p.locale, "entitlements": []any{},
		"authorizing_integration_owners": owners, "attachment_size_limit": maxFile,
		"app_permissions": c.permissions(s.bot).String(), "context": 1,
	}
	if g := c.guild; g != nil {
		owners["0"] = g.ID
		i.payload["context"] = 0
		i.payload["guild_id"], i.payload["guild_locale"] = g.ID, g.locale
		i.payload["guild"] = obj{"id": g.ID, "locale": g.locale, "features": []any{}}
		m := g.members[p.ID].json()
		m["permissions"] = c.permissions(p).String()
		i.payload["member"] = m
	} else {
		i.payload["user"] = p.json()
	}
	s.interactions[i.id] = i
	return i
}

// send dispatches the interaction to the bot.
func (i *interaction) send() {
	i.s.emit("INTERACTION_CREATE", i.channel.guildID(), 0, i.payload)
}

// expired: the first answer has to come within three seconds.
func (i *interaction) expired() bool {
	return i.ack == 0 && i.s.now().Sub(i.born) > firstAnswerWithin
}

// metadata is interaction_metadata of a message (resources/message.mdx).
func (i *interaction) metadata() obj {
	o := obj{
		"id": i.id, "type": i.kind, "user": i.person.json(),
		"authorizing_integration_owners": i.payload["authorizing_integration_owners"],
	}
	switch {
	case i.kind == componentUse:
		o["interacted_message_id"] = i.source.id
	case i.kind == modalUse && i.opener != nil:
		o["triggering_interaction_metadata"] = i.opener.metadata()
	}
	return o
}

// fillAnswer adds to a message what shows that it answers an interaction.
func (i *interaction) fillAnswer(m *message, o obj) {
	o["application_id"], o["webhook_id"] = i.s.appID, i.s.appID
	meta := i.metadata()
	if i.original != nil && m != i.original {
		meta["original_response_message_id"] = i.original.id
	}
	o["interaction_metadata"] = meta
	if i.kind == commandUse && m == i.original {
		o["interaction"] = obj{"id": i.id, "type": i.kind, "name": i.name, "user": i.person.json()}
	}
}
