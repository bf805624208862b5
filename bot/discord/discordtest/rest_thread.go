package discordtest

func startThreadFromMessage(c *call) answer {
	m, no := c.theMessage()
	if m == nil {
		return no
	}
	if m.thread != nil {
		return refuse(400, 160004, "A thread has already been created for this message")
	}
	a := startThread(c, m.channel, m.id, publicThread)
	if a.status == 201 {
		m.thread = c.s.channels[m.id]
		m.flags |= flagHasThread
		c.s.emitMessage("MESSAGE_UPDATE", m)
	}
	return a
}

// startThreadAlone: without a type a private thread comes out
// (resources/channel.mdx, "Start Thread without Message").
func startThreadAlone(c *call) answer {
	ch, no := c.visible()
	if ch == nil {
		return no
	}
	kind, ok := whole(c.object()["type"])
	if !ok {
		kind = privateThread
	}
	return startThread(c, ch, c.s.newID(), kind)
}

func startThread(c *call, ch *Channel, id string, kind int) answer {
	if ch.kind != textChannel && ch.kind != announcements {
		return refuse(400, 50024, "Cannot execute action on this channel type")
	}
	need := CreatePublicThreads
	if kind == privateThread {
		need = CreatePrivateThreads
	}
	if !ch.permissions(c.s.bot).Has(need) {
		return missingPermission()
	}
	body := c.object()
	t := ch.startThread(id, text(body["name"]), kind, c.s.bot)
	if n, ok := whole(body["auto_archive_duration"]); ok {
		t.thread.hideAfter = n
	}
	if v, ok := body["invitable"]; ok {
		t.thread.invitable = truth(v)
	}
	return answer{status: 201, body: t.json()}
}

func listArchived(c *call) answer {
	ch, no := c.visible()
	if ch == nil {
		return no
	}
	if !ch.permissions(c.s.bot).Has(ReadMessageHistory) {
		return missingAccess()
	}
	return done(ch.guild.threadList(func(t *Channel) bool {
		return t.parent == ch && t.kind != privateThread && t.thread.archived
	}))
}

func listActiveThreads(c *call) answer {
	g, no := c.theGuild()
	if g == nil {
		return no
	}
	return done(g.threadList(func(t *Channel) bool { return !t.thread.archived }))
}

func (g *Guild) threadList(want func(*Channel) bool) obj {
	threads, mine := []any{}, []any{}
	for _, t := range g.channels {
		if t.thread == nil || t.deleted || !want(t) || !t.permissions(g.s.bot).Has(ViewChannel) {
			continue
		}
		threads = append(threads, t.json())
		if t.thread.members[g.s.bot.ID] {
			mine = append(mine, t.threadMember(g.s.bot))
		}
	}
	return obj{"threads": threads, "members": mine, "has_more": false}
}

// theThread finds a thread that is open to changes of its members.
func (c *call) theThread() (*Channel, answer) {
	ch, no := c.visible()
	if ch == nil {
		return nil, no
	}
	if ch.thread == nil {
		return nil, refuse(400, 50024, "Cannot execute action on this channel type")
	}
	return ch, answer{}
}

func joinThread(c *call) answer { return c.changeMember(c.s.bot.ID, true) }
func quitThread(c *call) answer { return c.changeMember(c.s.bot.ID, false) }

func addThreadMember(c *call) answer { return c.changeMember(c.id("user_id"), true) }

func removeThreadMember(c *call) answer {
	ch, no := c.theThread()
	if ch == nil {
		return no
	}
	mine := ch.kind == privateThread && ch.thread.ownerID == c.s.bot.ID
	if !mine && !ch.permissions(c.s.bot).Has(ManageThreads) {
		return missingPermission()
	}
	return c.changeMember(c.id("user_id"), false)
}

func (c *call) changeMember(id string, in bool) answer {
	ch, no := c.theThread()
	if ch == nil {
		return no
	}
	if ch.thread.archived {
		return refuse(400, 50083, "Thread is archived")
	}
	p := c.s.people[id]
	if p == nil || ch.guild.members[id] == nil {
		return unknownMember()
	}
	if in && p != c.s.bot && !ch.permissions(c.s.bot).Has(ch.sendBit()) {
		return missingPermission()
	}
	if in {
		ch.thread.members[id] = true
	} else {
		delete(ch.thread.members, id)
	}
	return noContent()
}

func getThreadMember(c *call) answer {
	ch, no := c.theThread()
	if ch == nil {
		return no
	}
	id := c.id("user_id")
	if id == "@me" {
		id = c.s.bot.ID
	}
	if !ch.thread.members[id] {
		return unknownMember()
	}
	return done(ch.threadMember(c.s.people[id]))
}

// listThreadMembers needs the privileged GUILD_MEMBERS intent
// (topics/threads.mdx, "Syncing for other users"), which this bot has not got.
func listThreadMembers(*call) answer { return missingAccess() }
