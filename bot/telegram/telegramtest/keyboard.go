package telegramtest

import (
	"encoding/json"
	"net/url"
	"unicode/utf8"

	"larderhand/bot/telegram/telegramtest/internal/markup"
)

// Button is a button under a message.
type Button struct {
	Label string
	Data  string // callback data, "" for other buttons
	URL   string
}

// replyMarkup is any of the four values of the parameter reply_markup.
type replyMarkup struct {
	raw     json.RawMessage
	inline  bool
	rows    [][]Button
	force   bool
	hint    string // input_field_placeholder
	keys    [][]string
	removes bool
}

type wireMarkup struct {
	Inline [][]map[string]any `json:"inline_keyboard"`
	Keys   [][]any            `json:"keyboard"`
	Force  bool               `json:"force_reply"`
	Remove bool               `json:"remove_keyboard"`
	Hint   *string            `json:"input_field_placeholder"`
}

// Keyboard sizes. Callback data is 1–64 bytes (Bot API, InlineKeyboardButton);
// the two counts are from memory.
const (
	dataMost    = 64
	buttonsMost = 100
	rowMost     = 8
	hintMost    = 64
)

// The fields of an inline button that say what it does; exactly one must be there
// (Bot API, InlineKeyboardButton).
var buttonActs = []string{"url", "callback_data", "web_app", "login_url", "switch_inline_query",
	"switch_inline_query_current_chat", "switch_inline_query_chosen_chat", "copy_text", "callback_game", "pay"}

func limitMarkup(s *Server, c *call) *refusal {
	text := c.params["reply_markup"]
	if text == "" {
		return nil
	}
	var in wireMarkup
	if err := json.Unmarshal([]byte(text), &in); err != nil {
		s.violate(c.rec.Method, "reply_markup: %v", err)
		return badRequest("can't parse reply keyboard markup JSON object")
	}
	m := &replyMarkup{raw: json.RawMessage(text), inline: in.Inline != nil, force: in.Force, removes: in.Remove}
	c.markup = m
	kinds := 0
	for _, is := range []bool{m.inline, in.Keys != nil, m.force, m.removes} {
		if is {
			kinds++
		}
	}
	if kinds != 1 {
		s.violate(c.rec.Method, "reply_markup has to be one of inline_keyboard, keyboard, force_reply, remove_keyboard: %s", text)
	}
	if in.Hint != nil {
		m.hint = *in.Hint
		if n := markup.Len(m.hint); n < 1 || n > hintMost {
			s.violate(c.rec.Method, "input_field_placeholder of %d characters, 1–%d are allowed", n, hintMost)
		}
	}
	m.keys = s.readKeys(c, in.Keys)
	return s.readInline(c, m, in.Inline)
}

func (s *Server) readInline(c *call, m *replyMarkup, rows [][]map[string]any) *refusal {
	var refused *refusal
	count := 0
	for _, row := range rows {
		if len(row) == 0 {
			s.violate(c.rec.Method, "an empty row of buttons")
			continue
		}
		if len(row) > rowMost {
			s.violate(c.rec.Method, "%d buttons in a row, %d fit", len(row), rowMost)
		}
		var out []Button
		for _, fields := range row {
			b, no := s.readButton(c, fields)
			if no != nil {
				refused = no
			}
			out = append(out, b)
		}
		count += len(out)
		m.rows = append(m.rows, out)
	}
	if count > buttonsMost {
		s.violate(c.rec.Method, "%d buttons, at most %d are allowed", count, buttonsMost)
		return badRequest("reply markup is too long")
	}
	return refused
}

func (s *Server) readButton(c *call, fields map[string]any) (Button, *refusal) {
	var b Button
	b.Label, _ = fields["text"].(string)
	b.Data, _ = fields["callback_data"].(string)
	b.URL, _ = fields["url"].(string)
	if b.Label == "" {
		s.violate(c.rec.Method, "a button without a text")
		return b, badRequest("inline keyboard button text must be non-empty")
	}
	acts := 0
	for _, name := range buttonActs {
		if _, ok := fields[name]; ok {
			acts++
		}
	}
	if acts != 1 {
		s.violate(c.rec.Method, "the button %q does %d things, it has to do exactly one", b.Label, acts)
	}
	if acts == 0 {
		return b, badRequest("can't parse inline keyboard button: Text buttons are unallowed in the inline keyboard")
	}
	if _, ok := fields["callback_data"]; ok {
		if n := len(b.Data); n < 1 || n > dataMost || !utf8.ValidString(b.Data) {
			s.violate(c.rec.Method, "the button %q has %d bytes of callback_data, 1–%d of UTF-8 are allowed", b.Label, n, dataMost)
			return b, badRequest("BUTTON_DATA_INVALID")
		}
	}
	if _, ok := fields["url"]; ok {
		u, err := url.Parse(b.URL)
		if err != nil || u.Host == "" || u.Scheme != "http" && u.Scheme != "https" && u.Scheme != "tg" {
			s.violate(c.rec.Method, "the button %q has no HTTP or tg:// address: %q", b.Label, b.URL)
			return b, badRequest("inline keyboard button URL '" + b.URL + "' is invalid: Wrong HTTP URL")
		}
	}
	return b, nil
}

// readKeys reads the labels of a reply keyboard, whose buttons are strings or
// objects.
func (s *Server) readKeys(c *call, rows [][]any) [][]string {
	var out [][]string
	for _, row := range rows {
		var labels []string
		for _, key := range row {
			label, _ := key.(string)
			if fields, ok := key.(map[string]any); ok {
				label, _ = fields["text"].(string)
			}
			if label == "" {
				s.violate(c.rec.Method, "a key without a text")
			}
			labels = append(labels, label)
		}
		out = append(out, labels)
	}
	return out
}

// empty tells an inline keyboard with no buttons in it, which takes a keyboard
// away.
func (m *replyMarkup) empty() bool { return m == nil || m.inline && len(m.rows) == 0 }
