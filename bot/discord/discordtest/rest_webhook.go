package discordtest

// theAnswers finds the interaction whose token a webhook address holds. Before
// the first answer, or after none came in time, there is no such webhook; after
// fifteen minutes the token is void.
func (c *call) theAnswers() (*interaction, answer) {
	var found *interaction
	for _, i := range c.s.interactions {
		if i.token == c.id("webhook_token") {
			found = i
		}
	}
	switch {
	case found == nil || c.id("webhook_id") != c.s.appID:
		return nil, refuse(404, 10015, "Unknown Webhook")
	case c.s.now().Sub(found.born) > tokenGoodFor:
		return nil, refuse(401, 50027, "Invalid Webhook Token")
	case found.ack == 0 || found.ack == autocompleteAck:
		return nil, refuse(404, 10015, "Unknown Webhook")
	}
	return found, answer{}
}

// followUp is "Create Followup Message". Right after a deferred reply it works
// as an edit of that, which is deprecated and held against the bot.
func followUp(c *call) answer {
	i, no := c.theAnswers()
	if i == nil {
		return no
	}
	body := c.object()
	if i.ack == replyLater && i.original != nil && i.original.loading() {
		c.breach("a follow-up after a deferred reply edits the loading message, which is deprecated: edit @original")
		i.original.flags &^= flagLoading
		i.original.edit(c, body, answerRoom(i.channel, c.s.bot))
		i.updated++
		return done(i.original.json())
	}
	m := i.newAnswer(number(body["flags"]))
	m.kind = replyMessage
	m.replyTo = i.original
	m.fill(c, body, answerRoom(i.channel, c.s.bot))
	i.followUps = append(i.followUps, m)
	i.channel.post(m)
	return done(m.json())
}

// theAnswer finds @original or one follow-up.
func (c *call) theAnswer() (*interaction, *message, answer) {
	i, no := c.theAnswers()
	if i == nil {
		return nil, nil, no
	}
	id := c.id("message_id")
	if id == "" || id == "@original" {
		if i.original == nil || i.original.deleted {
			return nil, nil, unknownMessage()
		}
		return i, i.original, answer{}
	}
	for _, m := range append(i.followUps, i.original) {
		if m != nil && m.id == id && !m.deleted {
			return i, m, answer{}
		}
	}
	return nil, nil, unknownMessage()
}

func getAnswer(c *call) answer {
	_, m, no := c.theAnswer()
	if m == nil {
		return no
	}
	return done(m.json())
}

func editAnswer(c *call) answer {
	i, m, no := c.theAnswer()
	if m == nil {
		return no
	}
	m.flags &^= flagLoading
	m.edit(c, c.object(), answerRoom(i.channel, c.s.bot))
	if m == i.original {
		i.updated++
	}
	return done(m.json())
}

func deleteAnswer(c *call) answer {
	_, m, no := c.theAnswer()
	if m == nil {
		return no
	}
	m.erase()
	return noContent()
}

func followUpLimits(c *call) {
	c.checkFlags(c.object(), flagSuppressEmbeds|flagEphemeral|flagSilent|flagVoice|flagComponentsV2)
	c.checkMessage(c.object(), true)
}

// answerEditLimits: an edit that fills a loading message is what people get to
// see first, so it has to say whom it pings, like a new message.
func answerEditLimits(c *call) {
	_, m, _ := c.theAnswer()
	c.checkMessage(c.object(), m != nil && m.loading())
}
