package telegramtest

import (
	"reflect"

	"larderhand/bot/telegram/telegramtest/internal/markup"
)

// editable finds the message an edit is about.
func (s *Server) editable(c *call) (*message, *refusal) {
	if c.markup != nil && !c.markup.inline {
		s.violate(c.rec.Method, "an edit takes an inline keyboard only")
		return nil, badRequest("inline keyboard expected")
	}
	ch, no := s.access(c, toEdit)
	if no != nil {
		return nil, no
	}
	m := ch.find(int(c.integer("message_id")))
	switch {
	case m == nil:
		return nil, badRequest("message to edit not found")
	case !m.mine, m.service != nil:
		return nil, badRequest("message can't be edited")
	case m.markup != nil && !m.markup.inline:
		// A message that came with a reply keyboard or a forced reply stays as it is.
		return nil, badRequest("message can't be edited")
	}
	return m, nil
}

const notModified = "message is not modified: specified new message content and reply markup are exactly the same as a current content and reply markup of the message"

// content is everything of a message an edit can change.
type content struct {
	text, caption markup.Text
	photo         bool
	file          *storedFile
	rows          [][]Button
}

func (m *message) content() content {
	return content{text: m.text, caption: m.caption, photo: m.photo, file: m.file, rows: m.inline()}
}

// apply puts new content in place of the old. A keyboard not given again is taken
// away.
func (s *Server) apply(c *call, m *message, now content) (any, *refusal) {
	now.rows = nil
	if c.markup != nil {
		now.rows = c.markup.rows
	}
	if reflect.DeepEqual(now, m.content()) {
		return nil, badRequest(notModified)
	}
	m.remember()
	m.text, m.caption, m.photo, m.file, m.markup = now.text, now.caption, now.photo, now.file, c.markup
	if m.markup.empty() {
		m.markup = nil
	}
	m.edits++
	m.edited = s.date()
	return s.wireMessage(m, true), nil
}

func (s *Server) editMessageText(c *call) (any, *refusal) {
	m, no := s.editable(c)
	if no != nil {
		return nil, no
	}
	if m.file != nil {
		return nil, badRequest("there is no text in the message to edit")
	}
	now := m.content()
	now.text = c.text
	result, no := s.apply(c, m, now)
	if no == nil {
		m.preview = !previewOff(c)
	}
	return result, no
}

func (s *Server) editMessageCaption(c *call) (any, *refusal) {
	m, no := s.editable(c)
	if no != nil {
		return nil, no
	}
	if m.file == nil {
		return nil, badRequest("there is no caption in the message to edit")
	}
	now := m.content()
	now.caption = c.caption
	return s.apply(c, m, now)
}

// editMessageMedia also turns a text message into one with a file.
func (s *Server) editMessageMedia(c *call) (any, *refusal) {
	m, no := s.editable(c)
	if no != nil {
		return nil, no
	}
	now := m.content()
	now.text = markup.Text{}
	now.caption = c.caption
	now.photo = c.media.photo
	now.file = s.keep(c.media)
	return s.apply(c, m, now)
}

func (s *Server) editMessageReplyMarkup(c *call) (any, *refusal) {
	m, no := s.editable(c)
	if no != nil {
		return nil, no
	}
	return s.apply(c, m, m.content())
}
