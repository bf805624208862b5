package discordtest

import (
	"strings"
	"time"
)

// Seat is a person looking at a channel: it does what their client lets them
// do and reads what it shows them.
type Seat struct {
	s       *Server
	person  *Person
	channel *Channel
}

// At sits a person down in a channel or thread.
func (p *Person) At(c *Channel) *Seat { return &Seat{s: p.s, person: p, channel: c} }

// DM is the direct message between the person and the bot.
func (p *Person) DM() *Seat {
	var c *Channel
	p.s.locked(func() { c = p.dm() })
	return p.At(c)
}

// Channel is where the person sits.
func (a *Seat) Channel() *Channel { return a.channel }

// mustSee ends the test when the person's client could not do this here.
func (a *Seat) mustSee(deed string, need Permissions) {
	a.s.t.Helper()
	a.s.mu.Lock()
	defer a.s.mu.Unlock()
	perms := a.channel.permissions(a.person)
	switch {
	case a.channel.deleted:
		a.fail("%s: the channel is gone", deed)
	case !perms.Has(ViewChannel):
		a.fail("%s: %s does not see this channel", deed, a.person.Name)
	case !perms.Has(need):
		a.fail("%s: %s may not", deed, a.person.Name)
	}
}

// fail ends the test; s.mu is held and let go of by the caller's defer.
func (a *Seat) fail(format string, args ...any) {
	a.s.t.Helper()
	a.s.t.Fatalf("discordtest: "+format, args...)
}

// Messages is what the channel shows the person, oldest first.
func (a *Seat) Messages() []Message {
	a.s.mu.Lock()
	defer a.s.mu.Unlock()
	return a.seen()
}

func (a *Seat) seen() []Message {
	if !a.channel.permissions(a.person).Has(ViewChannel) {
		return nil
	}
	var out []Message
	for _, m := range a.channel.messages {
		if m.seenBy(a.person) {
			out = append(out, m.view())
		}
	}
	return out
}

// WaitMessage waits for a message that fits and returns the latest that does.
func (a *Seat) WaitMessage(what string, fits func(Message) bool) Message {
	a.s.t.Helper()
	var found Message
	a.s.wait("a message: "+what, func() bool {
		seen := a.seen()
		for i := len(seen) - 1; i >= 0; i-- {
			if fits(seen[i]) {
				found = seen[i]
				return true
			}
		}
		return false
	})
	return found
}

// WaitText waits for a finished message of the bot that holds a text.
func (a *Seat) WaitText(part string) Message {
	a.s.t.Helper()
	return a.WaitMessage("\""+part+"\"", func(m Message) bool {
		return m.Author == a.s.bot.Name && !m.Loading && strings.Contains(m.Text, part)
	})
}

// WaitCount waits until the bot has n finished messages here and returns them.
func (a *Seat) WaitCount(n int) []Message {
	a.s.t.Helper()
	var mine []Message
	a.s.wait(plural(n, "message")+" of the bot", func() bool {
		mine = nil
		for _, m := range a.seen() {
			if m.Author == a.s.bot.Name && !m.Loading {
				mine = append(mine, m)
			}
		}
		return len(mine) >= n
	})
	return mine
}

// Reload is the message as it stands now; false when it is gone.
func (a *Seat) Reload(m Message) (Message, bool) {
	a.s.mu.Lock()
	defer a.s.mu.Unlock()
	now := a.channel.message(m.ID)
	if now == nil || !now.seenBy(a.person) {
		return Message{}, false
	}
	return now.view(), true
}

// WaitEdit waits until a message has been edited since m was read.
func (a *Seat) WaitEdit(m Message) Message {
	a.s.t.Helper()
	return a.WaitMessage("an edit of "+m.ID, func(now Message) bool { return now.ID == m.ID && now.Edits > m.Edits })
}

// Say writes a message, with files if any, and sends its event to the bot.
func (a *Seat) Say(content string, files ...File) Message {
	a.s.t.Helper()
	return a.write(content, nil, files)
}

// Tell mentions the bot in front of the text.
func (a *Seat) Tell(content string, files ...File) Message {
	a.s.t.Helper()
	return a.write(a.s.bot.Mention()+" "+content, nil, files)
}

// ReplyTo answers a message, mentioning its author as clients do by default.
func (a *Seat) ReplyTo(m Message, content string) Message {
	a.s.t.Helper()
	return a.write(content, &m, nil)
}

func (a *Seat) write(content string, to *Message, files []File) Message {
	a.s.t.Helper()
	need := a.channel.sendBit()
	if a.channel.isLocked() {
		need |= ManageThreads
	}
	a.mustSee("write", need)
	a.s.waitSession(a.channel)
	var out Message
	a.s.locked(func() {
		m := &message{author: a.person, content: content, channel: a.channel, created: time.Time{}}
		m.mentions = readMentions(content, nil, regularRoom(a.channel, a.person))
		if to != nil {
			m.kind, m.replyTo = replyMessage, a.channel.message(to.ID)
			if m.replyTo != nil && m.replyTo.author == a.s.bot && len(m.mentions.people) == 0 {
				m.mentions.people = []*Person{a.s.bot}
			}
		}
		for _, f := range files {
			m.files = append(m.files, a.s.store(f, ""))
		}
		a.channel.post(m)
		a.s.note("%s writes in %s: %s", a.person.Name, a.channel.name, content)
		out = m.view()
	})
	return out
}

// Remove deletes a message by the person's hand.
func (a *Seat) Remove(m Message) {
	a.s.locked(func() {
		if now := a.channel.message(m.ID); now != nil {
			now.erase()
		}
	})
}
