package telegramtest

import (
	"strings"

	"larderhand/bot/telegram/telegramtest/internal/markup"
)

// Say types a text in the room. Whether the bot gets it is up to privacy mode.
func (r *Room) Say(u *User, text string) Message {
	r.s.t.Helper()
	return r.speak(u, nil, func(m *message) { m.text = typed(text) })
}

// Paste types a text of any length: an app sends what does not fit one message as
// several.
func (r *Room) Paste(u *User, text string) []Message {
	r.s.t.Helper()
	var out []Message
	for text != "" {
		part := markup.Prefix(text, textMost)
		text = text[len(part):]
		out = append(out, r.Say(u, part))
	}
	return out
}

// Reply types a text in answer to a message.
func (r *Room) Reply(u *User, to Message, text string) Message {
	r.s.t.Helper()
	return r.speak(u, nil, func(m *message) {
		m.replyTo = to.ID
		m.text = typed(text)
	})
}

// Start presses Start in a private chat, with the payload of a deep link or "". In
// a group it is the link with startgroup.
func (r *Room) Start(u *User, payload string) Message {
	r.s.t.Helper()
	command := "/start"
	if r.chat.kind != private {
		command += "@" + r.s.cfg.username
	}
	return r.Say(u, strings.TrimSpace(command+" "+payload))
}

// SayAnonymously types as an administrator who stays anonymous.
func (r *Room) SayAnonymously(text string) Message {
	r.s.t.Helper()
	return r.speak(r.s.people.anonymous, r.chat, func(m *message) { m.text = typed(text) })
}

// SayAs types in a group in the name of a channel.
func (r *Room) SayAs(from *Room, text string) Message {
	r.s.t.Helper()
	return r.speak(r.s.people.channelVoice, from.chat, func(m *message) { m.text = typed(text) })
}

// Post publishes in a channel. The message has no sender.
func (r *Room) Post(text string) Message {
	r.s.t.Helper()
	return r.speak(nil, r.chat, func(m *message) { m.text = typed(text) })
}

// ForwardPost is what happens to a post of a channel in the group linked to it.
func (r *Room) ForwardPost(from *Room, post Message) Message {
	r.s.t.Helper()
	return r.speak(r.s.people.platform, from.chat, func(m *message) {
		m.forward = from.chat.ever(post.ID)
		m.text = m.forward.text
	})
}

// Attachment is a file a person sends.
type Attachment struct {
	Name    string
	MIME    string
	Data    []byte
	Size    int // as told to the bot; 0 is the length of Data
	Caption string
	Photo   bool // sent as a picture, without a name
}

// Attach sends a file.
func (r *Room) Attach(u *User, a Attachment) Message {
	r.s.t.Helper()
	return r.speak(u, nil, func(m *message) {
		if a.Size == 0 {
			a.Size = len(a.Data)
		}
		m.caption = typed(a.Caption)
		m.photo = a.Photo
		m.file = r.s.store(a.Photo, a.Name, a.MIME, a.Data, a.Size)
	})
}

// Edit changes a text someone typed.
func (r *Room) Edit(said Message, text string) Message {
	r.s.t.Helper()
	s := r.s
	s.mu.Lock()
	defer s.mu.Unlock()
	m := r.chat.find(said.ID)
	if m == nil || m.mine {
		s.t.Fatalf("telegram: nobody can edit message %d", said.ID)
	}
	m.text = typed(text)
	m.edits++
	m.edited = s.date()
	s.deliver("edited_", m)
	return s.view(m)
}

// Delete takes a message away, the bot's or a person's. Bots are not told.
func (r *Room) Delete(said Message) {
	r.s.t.Helper()
	s := r.s
	s.mu.Lock()
	defer s.mu.Unlock()
	m := r.chat.find(said.ID)
	if m == nil {
		s.t.Fatalf("telegram: there is no message %d to delete", said.ID)
	}
	m.deleted = true
	s.touch()
}

func typed(text string) markup.Text {
	return markup.Text{Plain: text}.Trim().WithDetected()
}

func (r *Room) speak(u *User, as *chat, fill func(*message)) Message {
	s := r.s
	s.t.Helper()
	s.mu.Lock()
	defer s.mu.Unlock()
	m := &message{chat: r.chat, from: u, as: as}
	fill(m)
	if why := r.hinders(u, m); why != "" {
		s.t.Fatalf("telegram: nobody can say that there: %s", why)
	}
	if r.chat.kind == private {
		r.chat.started = true
	}
	m.place(r.thread)
	s.post(m)
	s.deliver("", m)
	return s.view(m)
}

// hinders tells why an app would not let someone write here.
func (r *Room) hinders(u *User, m *message) string {
	ch := r.chat
	switch t := ch.topics[r.thread]; {
	case ch.movedTo != 0:
		return "the group moved"
	case ch.dissolved:
		return "the chat is gone"
	case ch.blocked:
		return "the bot is blocked"
	case t != nil && t.deleted:
		return "the topic was deleted"
	case u != nil && m.as == nil && !ch.members[u.ID].in():
		return u.name() + " is not in the chat"
	case u == nil && ch.kind != channel, u != nil && ch.kind == channel:
		return "channels, and only they, have posts without a sender"
	case m.replyTo != 0 && ch.find(m.replyTo) == nil:
		return "the message to answer is not there"
	case m.text.Plain == "" && m.file == nil:
		return "there is nothing in it"
	case markup.Len(m.text.Plain) > textMost || markup.Len(m.caption.Plain) > captionMost:
		return "it is too long, an app would split it"
	}
	return ""
}
