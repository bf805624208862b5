package telegramtest

import (
	"encoding/json"
	"strings"
)

func (s *Server) sendMessage(c *call) (any, *refusal) {
	m, no := s.draft(c, "text messages")
	if no != nil {
		return nil, no
	}
	m.text = c.text
	m.preview = !previewOff(c)
	return s.wireMessage(s.post(m), true), nil
}

func (s *Server) sendFile(c *call) (any, *refusal) {
	what := "documents"
	if c.media.photo {
		what = "photos"
	}
	m, no := s.draft(c, what)
	if no != nil {
		return nil, no
	}
	m.caption = c.caption
	m.photo = c.media.photo
	m.file = s.keep(c.media)
	return s.wireMessage(s.post(m), true), nil
}

// keep stores an upload, or finds the file sent again.
func (s *Server) keep(m *inputMedia) *storedFile {
	if m.upload == nil {
		return s.file(m.fileID)
	}
	return s.store(m.photo, m.upload.name, m.upload.mime, m.upload.data, len(m.upload.data))
}

// draft prepares a message of the bot: where it goes, what it answers, what hangs
// under it.
func (s *Server) draft(c *call, what string) (*message, *refusal) {
	ch, no := s.access(c, toWrite)
	if no != nil {
		return nil, no
	}
	if no := s.accessTopic(c, ch); no != nil {
		return nil, no
	}
	if no := s.mayPost(ch, what); no != nil {
		return nil, no
	}
	if ch.kind == channel && c.markup != nil && !c.markup.inline {
		s.violate(c.rec.Method, "only inline keyboards are allowed in a channel")
		return nil, badRequest("reply markup can't be used in channels")
	}
	m := &message{chat: ch, mine: true, from: s.bot, silent: c.flag("disable_notification"), markup: c.markup}
	if ch.kind == channel {
		m.from, m.as = nil, ch
	}
	if m.replyTo, no = s.replyTarget(c, ch); no != nil {
		return nil, no
	}
	m.place(int(c.integer("message_thread_id")))
	return m, nil
}

// replyTarget reads reply_parameters: the message answered, or 0.
func (s *Server) replyTarget(c *call, ch *chat) (int, *refusal) {
	if !c.has("reply_parameters") {
		return 0, nil
	}
	var in struct {
		MessageID int             `json:"message_id"`
		ChatID    json.RawMessage `json:"chat_id"`
		Anyway    bool            `json:"allow_sending_without_reply"`
	}
	if err := json.Unmarshal([]byte(c.params["reply_parameters"]), &in); err != nil {
		s.violate(c.rec.Method, "reply_parameters: %v", err)
		return 0, badRequest("can't parse reply parameters JSON object")
	}
	if in.ChatID != nil && strings.Trim(string(in.ChatID), `"`) != c.params["chat_id"] {
		s.violate(c.rec.Method, "this fake does not model replies to another chat")
	}
	if ch.find(in.MessageID) == nil {
		if in.Anyway {
			return 0, nil
		}
		return 0, badRequest("message to be replied not found")
	}
	return in.MessageID, nil
}

// previewOff reads link_preview_options.
func previewOff(c *call) bool {
	var in struct {
		Disabled bool `json:"is_disabled"`
	}
	return json.Unmarshal([]byte(c.params["link_preview_options"]), &in) == nil && in.Disabled
}

func (s *Server) sendChatAction(c *call) (any, *refusal) {
	ch, no := s.access(c, toWrite)
	if no != nil {
		return nil, no
	}
	if no := s.accessTopic(c, ch); no != nil {
		return nil, no
	}
	return true, nil
}
