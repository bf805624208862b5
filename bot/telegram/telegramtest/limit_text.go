package telegramtest

import (
	"encoding/json"
	"strings"
	"unicode/utf8"

	"larderhand/bot/telegram/telegramtest/internal/markup"
)

// Lengths in UTF-16 code units after entities parsing (Bot API, sendMessage,
// sendPhoto, sendDocument).
const (
	textMost    = 4096
	captionMost = 1024
	// entitiesMost is how many entities a message keeps; from memory.
	entitiesMost = 100
	// rawMost is the most bytes the server reads before parsing.
	rawMost = 1 << 15
)

func limitMessageText(s *Server, c *call) *refusal {
	if !c.has("text") || c.params["text"] == "" {
		s.violate(c.rec.Method, "an empty text, 1–%d are allowed", textMost)
		return badRequest("message text is empty")
	}
	text, no := s.formatted(c, c.params["text"], c.params["parse_mode"], c.params["entities"])
	if no != nil {
		return no
	}
	c.text = text
	switch n := markup.Len(text.Plain); {
	case n == 0:
		s.violate(c.rec.Method, "nothing is left of the text after parsing, 1–%d are allowed", textMost)
		return badRequest("text must be non-empty")
	case n > textMost:
		s.violate(c.rec.Method, "a text of %d UTF-16 units, at most %d are allowed", n, textMost)
		return badRequest("message is too long")
	}
	return nil
}

func limitCaption(s *Server, c *call) *refusal {
	text, no := s.formatted(c, c.params["caption"], c.params["parse_mode"], c.params["caption_entities"])
	if no != nil {
		return no
	}
	c.caption = text
	return s.captionLength(c, text)
}

func (s *Server) captionLength(c *call, text markup.Text) *refusal {
	if n := markup.Len(text.Plain); n > captionMost {
		s.violate(c.rec.Method, "a caption of %d UTF-16 units, at most %d are allowed", n, captionMost)
		return badRequest("message caption is too long")
	}
	return nil
}

// formatted turns a text as sent into the text as read.
func (s *Server) formatted(c *call, raw, mode, entities string) (markup.Text, *refusal) {
	if entities == "null" {
		entities = ""
	}
	if !utf8.ValidString(raw) {
		s.violate(c.rec.Method, "a text that is not UTF-8")
		return markup.Text{}, badRequest("strings must be encoded in UTF-8")
	}
	if len(raw) > rawMost {
		s.violate(c.rec.Method, "%d bytes of text before parsing, the server reads %d", len(raw), rawMost)
		return markup.Text{}, badRequest("text is too long")
	}
	text := markup.Text{Plain: raw}
	switch strings.ToLower(mode) {
	case "html":
		if entities != "" {
			s.violate(c.rec.Method, "both a parse mode and entities; the entities are ignored")
		}
		parsed, err := markup.ParseHTML(raw)
		if err != nil {
			s.violate(c.rec.Method, "can't parse entities: %v in %q", err, raw)
			return markup.Text{}, badRequest("can't parse entities: " + err.Error())
		}
		for _, slip := range parsed.Slips {
			s.violate(c.rec.Method, "%s in %q", slip, raw)
		}
		text = parsed.Text
	case "":
		if entities != "" {
			if err := json.Unmarshal([]byte(entities), &text.Entities); err != nil {
				return markup.Text{}, badRequest("can't parse entities JSON object")
			}
			for _, p := range markup.Check(raw, text.Entities) {
				s.violate(c.rec.Method, "%s in %q", p, raw)
			}
		}
	default:
		s.violate(c.rec.Method, "this fake reads only the parse mode HTML, not %q", mode)
		return markup.Text{}, badRequest("unsupported parse_mode")
	}
	if n := len(text.Entities); n > entitiesMost {
		s.violate(c.rec.Method, "%d entities, those past %d are dropped", n, entitiesMost)
	}
	return text.Trim().WithDetected(), nil
}
