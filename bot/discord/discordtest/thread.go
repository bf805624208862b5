package discordtest

import "time"

type thread struct {
	ownerID   string
	archived  bool
	locked    bool
	invitable bool
	changed   time.Time
	hideAfter int // auto_archive_duration, in minutes
	members   map[string]bool
	sent      int
}

// StartThread makes a public thread by a person's hand.
func (c *Channel) StartThread(name string, by *Person) *Channel {
	var t *Channel
	c.s.locked(func() { t = c.startThread(c.s.newID(), name, publicThread, by) })
	return t
}

// StartPrivateThread makes a private thread by a person's hand, with the bot taken in.
func (c *Channel) StartPrivateThread(name string, by *Person) *Channel {
	var t *Channel
	c.s.locked(func() { t = c.startThread(c.s.newID(), name, privateThread, by, c.s.bot) })
	return t
}

// startThread makes a thread with some taken in and announces it to the bot.
func (c *Channel) startThread(id, name string, kind int, by *Person, with ...*Person) *Channel {
	if c.kind == announcements && kind == publicThread {
		kind = newsThread
	}
	t := &Channel{
		s: c.s, ID: id, name: name, kind: kind, guild: c.guild, parent: c,
		thread: &thread{ownerID: by.ID, changed: c.s.now(), hideAfter: 4320, members: map[string]bool{by.ID: true}},
	}
	for _, p := range with {
		t.thread.members[p.ID] = true
	}
	c.guild.channels = append(c.guild.channels, t)
	c.s.channels[t.ID] = t
	if t.permissions(c.s.bot).Has(ViewChannel) {
		o := t.json()
		o["newly_created"] = true
		c.s.emit("THREAD_CREATE", c.guild.ID, intentGuilds, o)
	}
	return t
}

// Archive closes a thread as idleness does; a message wakes it unless Lock
// was called.
func (c *Channel) Archive() { c.changeThread(func(t *thread) { t.archived = true }) }

// Unarchive opens a thread.
func (c *Channel) Unarchive() { c.changeThread(func(t *thread) { t.archived = false }) }

// Lock archives a thread and leaves opening it to thread managers.
func (c *Channel) Lock() { c.changeThread(func(t *thread) { t.archived, t.locked = true, true }) }

// Archived says whether a thread is archived.
func (c *Channel) Archived() bool {
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	return c.thread != nil && c.thread.archived
}

func (c *Channel) isLocked() bool {
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	return c.thread != nil && c.thread.locked
}

func (c *Channel) changeThread(f func(*thread)) {
	c.s.locked(func() { c.updateThread(f) })
}

func (c *Channel) updateThread(f func(*thread)) {
	f(c.thread)
	c.thread.changed = c.s.now()
	c.announce("THREAD_UPDATE")
}

// fill adds a thread's own fields. message_count leaves the first message out
// in the documents; here it counts what was sent in the thread.
func (t *thread) fill(c *Channel, o obj) {
	o["guild_id"], o["name"], o["parent_id"], o["owner_id"] = c.guild.ID, c.name, c.parent.ID, t.ownerID
	o["rate_limit_per_user"] = 0
	o["message_count"], o["total_message_sent"], o["member_count"] = t.sent, t.sent, len(t.members)
	meta := obj{
		"archived": t.archived, "locked": t.locked, "archive_timestamp": stamp(t.changed),
		"auto_archive_duration": t.hideAfter, "create_timestamp": stamp(t.changed),
	}
	if c.kind == privateThread {
		meta["invitable"] = t.invitable
	}
	o["thread_metadata"] = meta
	if t.members[c.s.bot.ID] {
		o["member"] = c.threadMember(c.s.bot)
	}
}

func (c *Channel) threadMember(p *Person) obj {
	return obj{"id": c.ID, "user_id": p.ID, "join_timestamp": stamp(c.thread.changed), "flags": 0}
}

// Threads lists the channel's threads that are still there, oldest first.
func (c *Channel) Threads() []*Channel {
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	var out []*Channel
	for _, t := range c.guild.channels {
		if t.parent == c && !t.deleted {
			out = append(out, t)
		}
	}
	return out
}
