package discordtest

import "time"

// Message flags of resources/message.mdx.
const (
	flagSuppressEmbeds = 1 << 2
	flagHasThread      = 1 << 5
	flagEphemeral      = 1 << 6
	flagLoading        = 1 << 7
	flagSilent         = 1 << 12
	flagVoice          = 1 << 13
	flagComponentsV2   = 1 << 15
)

// Message types of the same page.
const (
	ordinaryMessage = 0
	replyMessage    = 19
	commandMessage  = 20
)

type message struct {
	id       string
	channel  *Channel
	author   *Person
	kind     int
	flags    int
	created  time.Time
	edited   time.Time
	edits    int
	deleted  bool
	onlyFor  *Person      // who sees an ephemeral message
	via      *interaction // what it answers
	replyTo  *message
	thread   *Channel
	nonce    any
	content  string
	embeds   []any
	parts    []any // components
	files    []*attachment
	allowed  any // allowed_mentions as last sent
	mentions mentions
}

// post puts a message into a channel and tells the sessions; the body has been
// checked before.
func (c *Channel) post(m *message) {
	m.id, m.channel, m.created = c.s.newID(), c, c.s.now()
	c.messages = append(c.messages, m)
	if c.thread != nil {
		c.thread.sent++
		c.thread.members[m.author.ID] = true
		if c.thread.archived && !c.thread.locked {
			c.updateThread(func(t *thread) { t.archived = false })
		}
	}
	c.s.emitMessage("MESSAGE_CREATE", m)
}

func (m *message) erase() {
	if m.deleted {
		return
	}
	m.deleted = true
	if m.onlyFor == nil {
		o := obj{"id": m.id, "channel_id": m.channel.ID}
		if g := m.channel.guild; g != nil {
			o["guild_id"] = g.ID
		}
		m.channel.s.emit("MESSAGE_DELETE", m.channel.guildID(), m.channel.messageIntent(), o)
	}
}

func (c *Channel) message(id string) *message {
	for _, m := range c.messages {
		if m.id == id && !m.deleted {
			return m
		}
	}
	return nil
}

// seenBy says whether a person's client shows the message.
func (m *message) seenBy(p *Person) bool {
	return !m.deleted && (m.onlyFor == nil || m.onlyFor == p)
}

func (m *message) loading() bool { return m.flags&flagLoading != 0 }

// json is the message as the API gives it, a reply with what it answers.
func (m *message) json() obj {
	o := m.bareJSON()
	if m.kind == replyMessage && m.replyTo != nil {
		o["referenced_message"] = nil
		if !m.replyTo.deleted {
			o["referenced_message"] = m.replyTo.bareJSON()
		}
	}
	return o
}

func (m *message) bareJSON() obj {
	files := []any{}
	for _, f := range m.files {
		files = append(files, f.json())
	}
	o := obj{
		"id": m.id, "channel_id": m.channel.ID, "type": m.kind, "author": m.author.json(),
		"content": m.content, "timestamp": stamp(m.created), "edited_timestamp": nil, "tts": false,
		"mention_everyone": m.mentions.everyone, "mentions": m.mentions.peopleJSON(),
		"mention_roles": m.mentions.rolesJSON(), "attachments": files, "embeds": m.shownEmbeds(),
		"components": orEmpty(m.parts), "pinned": false, "flags": m.flags,
	}
	if m.edits > 0 && !m.edited.IsZero() {
		o["edited_timestamp"] = stamp(m.edited)
	}
	if m.nonce != nil {
		o["nonce"] = m.nonce
	}
	if m.thread != nil && !m.thread.deleted {
		o["thread"] = m.thread.json()
	}
	if m.replyTo != nil {
		ref := obj{"type": 0, "channel_id": m.replyTo.channel.ID, "message_id": m.replyTo.id}
		if g := m.channel.guild; g != nil {
			ref["guild_id"] = g.ID
		}
		o["message_reference"] = ref
	}
	if m.via != nil {
		m.via.fillAnswer(m, o)
	}
	return o
}

func (m *message) shownEmbeds() []any {
	if m.flags&flagSuppressEmbeds != 0 {
		return []any{}
	}
	return orEmpty(m.embeds)
}

func orEmpty(l []any) []any {
	if l == nil {
		return []any{}
	}
	return l
}
