package discordtest

import "slices"

// allowedAcks is which callback types each interaction type takes.
func (i *interaction) allowedAcks() []int {
	switch i.kind {
	case autocompleteUse:
		return []int{autocompleteAck}
	case componentUse:
		return []int{replyNow, replyLater, updateLater, updateNow, showModal}
	case modalUse:
		if i.source != nil {
			return []int{replyNow, replyLater, updateLater, updateNow}
		}
		return []int{replyNow, replyLater}
	}
	return []int{replyNow, replyLater, showModal}
}

// theInteraction finds the interaction a callback is for; a wrong token is no
// better than a wrong id.
func (c *call) theInteraction() *interaction {
	i := c.s.interactions[c.id("interaction_id")]
	if i == nil || i.token != c.id("interaction_token") {
		return nil
	}
	return i
}

// answerInteraction is "Create Interaction Response".
func answerInteraction(c *call) answer {
	i := c.theInteraction()
	switch {
	case i == nil:
		return refuse(404, 10062, "Unknown interaction")
	case i.ack != 0:
		i.refused = append(i.refused, 40060)
		return refuse(400, 40060, "Interaction has already been acknowledged.")
	case i.expired():
		i.refused = append(i.refused, 10062)
		return refuse(404, 10062, "Unknown interaction")
	}
	body := c.object()
	i.ack = number(body["type"])
	data := object(body["data"])
	switch i.ack {
	case replyNow, replyLater:
		i.reply(c, data)
	case updateNow:
		i.original = i.source
		i.source.edit(c, data, answerRoom(i.channel, c.s.bot))
		i.updated++
	case updateLater:
		i.original = i.source
	case autocompleteAck:
		i.choices = readChoices(data)
	case showModal:
		i.modal = &Form{s: c.s, opener: i, data: data}
		i.modal.read()
	}
	if !flagged(c.r.URL.Query(), "with_response") {
		return noContent()
	}
	return done(i.callbackJSON())
}

// reply posts the answer, or the loading message that stands for it.
func (i *interaction) reply(c *call, data obj) {
	m := i.newAnswer(number(data["flags"]))
	if i.source != nil && i.kind == componentUse {
		m.kind, m.replyTo = replyMessage, i.source
	}
	if i.ack == replyLater {
		m.flags |= flagLoading
	} else {
		m.fill(c, data, answerRoom(i.channel, c.s.bot))
	}
	i.original = m
	i.channel.post(m)
}

func (i *interaction) newAnswer(flags int) *message {
	m := &message{author: i.s.bot, kind: commandMessage, flags: flags, via: i, channel: i.channel}
	if flags&flagEphemeral != 0 {
		m.onlyFor = i.person
	}
	return m
}

func (i *interaction) callbackJSON() obj {
	in := obj{"id": i.id, "type": i.kind}
	o := obj{"interaction": in}
	if m := i.original; m != nil {
		in["response_message_id"] = m.id
		in["response_message_loading"] = m.loading()
		in["response_message_ephemeral"] = m.onlyFor != nil
		if i.ack == replyNow || i.ack == updateNow {
			o["resource"] = obj{"type": i.ack, "message": m.json()}
		}
	}
	return o
}

// callbackLimits holds a callback to its type's rules.
func callbackLimits(c *call) {
	body := c.object()
	kind, ok := whole(body["type"])
	if !ok {
		c.breach("a callback without a type")
		return
	}
	if i := c.theInteraction(); i != nil && !slices.Contains(i.allowedAcks(), kind) {
		c.breach("callback type %d does not answer an interaction of type %d", kind, i.kind)
		return
	}
	data := object(body["data"])
	switch kind {
	case replyNow:
		c.checkFlags(data, flagSuppressEmbeds|flagEphemeral|flagSilent|flagVoice|flagComponentsV2)
		c.checkMessage(data, true)
	case replyLater:
		c.checkFlags(data, flagEphemeral)
		if text(data["content"]) != "" || len(list(data["embeds"])) > 0 || len(c.files) > 0 {
			c.breach("a deferred reply carries content; it may carry only the ephemeral flag")
		}
	case updateNow:
		c.checkMessage(data, false)
	case updateLater:
	case autocompleteAck:
		c.checkChoices(data)
	case showModal:
		c.checkModal(data)
	default:
		c.breach("callback type %d is not for this bot", kind)
	}
}
