package discordtest

func getChannel(c *call) answer {
	ch, no := c.visible()
	if ch == nil {
		return no
	}
	return done(ch.json())
}

// patchChannel follows resources/channel.mdx, "Modify Channel".
func patchChannel(c *call) answer {
	ch, no := c.visible()
	if ch == nil {
		return no
	}
	body := c.object()
	if ch.thread != nil {
		return patchThread(c, ch, body)
	}
	if ch.guild == nil {
		return refuse(403, 50003, "Cannot execute action on a DM channel")
	}
	if !ch.permissions(c.s.bot).Has(ManageChannels) {
		return missingPermission()
	}
	if name := text(body["name"]); name != "" {
		ch.name = name
	}
	if v, ok := body["topic"]; ok {
		ch.topic = text(v)
	}
	ch.announce("CHANNEL_UPDATE")
	return done(ch.json())
}

// patchThread: unarchiving a thread that is not locked takes the permission to
// send; everything else takes MANAGE_THREADS or being its creator, and an open
// thread. Locking always takes MANAGE_THREADS (topics/threads.mdx, "Editing &
// Deleting Threads").
func patchThread(c *call, ch *Channel, body obj) answer {
	t, perms := ch.thread, ch.permissions(c.s.bot)
	manager := perms.Has(ManageThreads)
	own := t.ownerID == c.s.bot.ID
	archived, touchesArchived := body["archived"]
	wakes := touchesArchived && !truth(archived)
	for key := range body {
		switch {
		case manager:
		case key == "archived" && wakes && !t.locked && perms.Has(ch.sendBit()):
		case key == "locked" || key == "rate_limit_per_user":
			return missingPermission()
		case !own:
			return missingPermission()
		}
	}
	if t.locked && wakes && !manager {
		return missingPermission()
	}
	if t.archived && !wakes {
		return refuse(400, 50083, "Thread is archived")
	}
	ch.updateThread(func(t *thread) {
		if touchesArchived {
			t.archived = truth(archived)
		}
		if v, ok := body["locked"]; ok {
			t.locked = truth(v)
		}
		if v, ok := whole(body["auto_archive_duration"]); ok {
			t.hideAfter = v
		}
		if v, ok := body["invitable"]; ok {
			t.invitable = truth(v)
		}
		if name := text(body["name"]); name != "" {
			ch.name = name
		}
	})
	return done(ch.json())
}

func removeChannel(c *call) answer {
	ch, no := c.visible()
	if ch == nil {
		return no
	}
	if ch.guild == nil {
		return done(ch.json()) // closing a direct message loses nothing
	}
	need := ManageChannels
	if ch.thread != nil {
		need = ManageThreads
	}
	if !ch.permissions(c.s.bot).Has(need) {
		return missingPermission()
	}
	ch.delete()
	return done(ch.json())
}
