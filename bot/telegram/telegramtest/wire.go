package telegramtest

import "larderhand/bot/telegram/telegramtest/internal/markup"

// What the fake says about people, chats and messages, in the words of the Bot
// API.

func wireUser(u *User) object {
	o := object{"id": u.ID, "is_bot": u.IsBot, "first_name": u.FirstName}
	put(o, "last_name", u.LastName)
	put(o, "username", u.Username)
	put(o, "language_code", u.Language)
	return o
}

func put(o object, name, value string) {
	if value != "" {
		o[name] = value
	}
}

func wireChat(ch *chat) object {
	o := object{"id": ch.id, "type": ch.kind}
	put(o, "title", ch.title)
	put(o, "username", ch.username)
	if ch.person != nil {
		o["first_name"] = ch.person.FirstName
		put(o, "last_name", ch.person.LastName)
		put(o, "username", ch.person.Username)
	}
	if ch.forum {
		o["is_forum"] = true
	}
	return o
}

// wireMessage gives a message; the one it answers comes with it, once.
func (s *Server) wireMessage(m *message, withReply bool) object {
	o := object{"message_id": m.id, "chat": wireChat(m.chat), "date": m.date}
	if m.from != nil {
		o["from"] = wireUser(m.from)
	}
	if m.as != nil {
		o["sender_chat"] = wireChat(m.as)
	}
	if m.edited > 0 {
		o["edit_date"] = m.edited
	}
	if m.thread != 0 {
		o["message_thread_id"] = m.thread
	}
	if m.inTopic {
		o["is_topic_message"] = true
	}
	if withReply {
		if answered := m.answered(); answered != nil {
			o["reply_to_message"] = s.wireMessage(answered, false)
		}
	}
	if m.forward != nil {
		o["is_automatic_forward"] = true
		o["forward_origin"] = object{"type": "channel", "date": m.forward.date,
			"chat": wireChat(m.forward.chat), "message_id": m.forward.id}
	}
	putText(o, "text", "entities", m.text)
	putText(o, "caption", "caption_entities", m.caption)
	s.putFile(o, m)
	if m.markup != nil && m.markup.inline && len(m.markup.rows) > 0 {
		o["reply_markup"] = m.markup.raw
	}
	for k, v := range m.service {
		o[k] = v
	}
	return o
}

// answered is the message this one answers. In a topic every message that answers
// no other answers the one that opened the topic.
func (m *message) answered() *message {
	if m.replyTo != 0 {
		return m.chat.find(m.replyTo)
	}
	if m.inTopic && m.thread != m.id {
		return m.chat.find(m.thread)
	}
	return nil
}

func putText(o object, field, entities string, t markup.Text) {
	if t.Plain == "" {
		return
	}
	o[field] = t.Plain
	if len(t.Entities) > 0 {
		o[entities] = t.Entities
	}
}

func (s *Server) putFile(o object, m *message) {
	if m.file == nil {
		return
	}
	if m.photo {
		o["photo"] = m.file.sizes()
		return
	}
	o["document"] = m.file.document()
}

// wireMember gives a member with the fields of its status.
func wireMember(m *member) object {
	o := object{"status": m.status, "user": wireUser(m.user)}
	switch m.status {
	case owner:
		o["is_anonymous"] = false
	case administrator:
		for _, right := range []string{"can_be_edited", "is_anonymous", "can_promote_members", "can_post_stories", "can_edit_stories", "can_delete_stories"} {
			o[right] = false
		}
		for _, right := range []string{"can_manage_chat", "can_delete_messages", "can_manage_video_chats", "can_restrict_members", "can_change_info", "can_invite_users", "can_pin_messages", "can_manage_topics"} {
			o[right] = true
		}
	case restricted:
		for _, right := range memberRights {
			o[right] = false
		}
		o["is_member"] = true
		o["until_date"] = 0
	case banned:
		o["until_date"] = 0
	}
	return o
}

var memberRights = []string{"can_send_messages", "can_send_audios", "can_send_documents", "can_send_photos",
	"can_send_videos", "can_send_video_notes", "can_send_voice_notes", "can_send_polls", "can_send_other_messages",
	"can_add_web_page_previews", "can_react_to_messages", "can_edit_tag", "can_change_info", "can_invite_users",
	"can_pin_messages", "can_manage_topics"}
