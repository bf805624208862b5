package discordtest

import (
	"fmt"
	"strconv"
	"time"
)

// sentNonce remembers a message for enforce_nonce.
type sentNonce struct {
	message *message
	at      time.Time
}

// nonceMemory: the documents say "the past few minutes".
const nonceMemory = 5 * time.Minute

// visible finds a channel the bot may see.
func (c *call) visible() (*Channel, answer) {
	ch := c.s.channels[c.id("channel_id")]
	if ch == nil || ch.deleted {
		return nil, unknownChannel()
	}
	if !ch.permissions(c.s.bot).Has(ViewChannel) {
		return nil, missingAccess()
	}
	return ch, answer{}
}

// maySend says why the bot may not post, if so.
func (ch *Channel) maySend(files int, embeds int) answer {
	if ch.recipient != nil && !ch.recipient.reachable() {
		return refuse(403, 50007, "Cannot send messages to this user")
	}
	perms := ch.permissions(ch.s.bot)
	switch {
	case !perms.Has(ch.sendBit()):
		return missingPermission()
	case files > 0 && !perms.Has(AttachFiles):
		return missingPermission()
	case embeds > 0 && !perms.Has(EmbedLinks):
		return missingPermission()
	case ch.thread != nil && ch.thread.locked && !perms.Has(ManageThreads):
		return refuse(403, 160005, "Thread is locked")
	}
	return answer{}
}

func createMessage(c *call) answer {
	ch, no := c.visible()
	if ch == nil {
		return no
	}
	body := c.object()
	if no := ch.maySend(len(c.files), len(list(body["embeds"]))); no.status != 0 {
		return no
	}
	m := &message{author: c.s.bot, flags: number(body["flags"]), nonce: body["nonce"]}
	if ref := object(body["message_reference"]); ref != nil {
		if no := m.refer(ch, ref); no.status != 0 {
			return no
		}
	}
	key := fmt.Sprint(ch.ID, " ", body["nonce"])
	if truth(body["enforce_nonce"]) && body["nonce"] != nil {
		if was, ok := c.s.nonces[key]; ok && c.s.now().Sub(was.at) < nonceMemory {
			return done(was.message.json())
		}
	}
	m.channel = ch
	m.fill(c, body, regularRoom(ch, c.s.bot))
	ch.post(m)
	if m.nonce != nil {
		c.s.nonces[key] = sentNonce{m, c.s.now()}
	}
	return done(m.json())
}

// refer makes the message a reply.
func (m *message) refer(ch *Channel, ref obj) answer {
	if !ch.permissions(ch.s.bot).Has(ReadMessageHistory) {
		return refuse(403, 160002, "Cannot reply without permission to read message history")
	}
	m.replyTo = ch.message(text(ref["message_id"]))
	if m.replyTo != nil {
		m.kind = replyMessage
		return answer{}
	}
	if v, ok := ref["fail_if_not_exists"]; ok && !truth(v) {
		return answer{}
	}
	return invalidForm("message_reference: Unknown message")
}

// theMessage finds the message of the path; ephemeral ones are not reachable by
// these routes.
func (c *call) theMessage() (*message, answer) {
	ch, no := c.visible()
	if ch == nil {
		return nil, no
	}
	m := ch.message(c.id("message_id"))
	if m == nil || m.onlyFor != nil {
		return nil, unknownMessage()
	}
	return m, answer{}
}

func getMessage(c *call) answer {
	m, no := c.theMessage()
	if m == nil {
		return no
	}
	if !m.channel.permissions(c.s.bot).Has(ReadMessageHistory) {
		return missingAccess()
	}
	return done(c.s.asSeenByBot(m))
}

func listMessages(c *call) answer {
	ch, no := c.visible()
	if ch == nil {
		return no
	}
	limit := 50
	if n, err := strconv.Atoi(c.r.URL.Query().Get("limit")); err == nil {
		limit = n
	}
	out := []any{}
	if ch.permissions(c.s.bot).Has(ReadMessageHistory) {
		for i := len(ch.messages) - 1; i >= 0 && len(out) < limit; i-- {
			if m := ch.messages[i]; !m.deleted && m.onlyFor == nil {
				out = append(out, c.s.asSeenByBot(m))
			}
		}
	}
	return done(out)
}

func editMessage(c *call) answer {
	m, no := c.theMessage()
	if m == nil {
		return no
	}
	if m.author != c.s.bot {
		return refuse(403, 50005, "Cannot edit a message authored by another user")
	}
	if t := m.channel.thread; t != nil && t.archived {
		return refuse(400, 50083, "Thread is archived")
	}
	m.edit(c, c.object(), regularRoom(m.channel, c.s.bot))
	return done(m.json())
}

func (m *message) edit(c *call, body obj, room mentionRoom) {
	if v, ok := whole(body["flags"]); ok {
		const settable = flagSuppressEmbeds | flagComponentsV2
		m.flags = m.flags&^flagSuppressEmbeds | v&settable
	}
	m.fill(c, body, room)
	m.edits++
	m.edited = c.s.now()
	c.s.emitMessage("MESSAGE_UPDATE", m)
}

func deleteMessage(c *call) answer {
	m, no := c.theMessage()
	if m == nil {
		return no
	}
	if m.author != c.s.bot && !m.channel.permissions(c.s.bot).Has(ManageMessages) {
		return missingPermission()
	}
	m.erase()
	return noContent()
}

func typing(c *call) answer {
	ch, no := c.visible()
	if ch == nil {
		return no
	}
	if no := ch.maySend(0, 0); no.status != 0 {
		return no
	}
	return noContent()
}
