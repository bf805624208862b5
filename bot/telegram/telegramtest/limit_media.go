package telegramtest

import (
	"bytes"
	"encoding/json"
	"image"
	_ "image/gif"
	_ "image/jpeg"
	_ "image/png"
	"strings"
)

// inputMedia is the file a call sends: a new one or one the server already has.
type inputMedia struct {
	photo  bool
	upload *upload
	fileID string
}

// Sizes of uploads and bounds of a picture (Bot API, sendPhoto and sendDocument).
const (
	photoBytesMost    = 10 << 20
	documentBytesMost = 50 << 20
	photoSidesMost    = 10000 // width and height together
	photoRatioMost    = 20
)

func limitMedia(s *Server, c *call) *refusal {
	field := strings.TrimPrefix(c.method, "send")
	m := &inputMedia{photo: field == "photo", upload: c.uploads[field], fileID: c.params[field]}
	c.media = m
	s.attach(c, m)
	return s.mediaSize(c, m)
}

// limitNewMedia reads the media of editMessageMedia, which carries its caption
// with it.
func limitNewMedia(s *Server, c *call) *refusal {
	var in struct {
		Type     string          `json:"type"`
		Media    string          `json:"media"`
		Caption  string          `json:"caption"`
		Mode     string          `json:"parse_mode"`
		Entities json.RawMessage `json:"caption_entities"`
	}
	if err := json.Unmarshal([]byte(c.params["media"]), &in); err != nil {
		s.violate(c.rec.Method, "media: %v", err)
		return badRequest("can't parse input media JSON object")
	}
	if in.Type != "photo" && in.Type != "document" {
		s.violate(c.rec.Method, "this fake does not model media of type %q", in.Type)
		return badRequest("can't parse InputMedia: type \"" + in.Type + "\" is unsupported")
	}
	c.media = &inputMedia{photo: in.Type == "photo", fileID: in.Media}
	s.attach(c, c.media)
	text, no := s.formatted(c, in.Caption, in.Mode, string(in.Entities))
	if no != nil {
		return no
	}
	c.caption = text
	if no := s.captionLength(c, text); no != nil {
		return no
	}
	return s.mediaSize(c, c.media)
}

// attach resolves attach://NAME to the uploaded part.
func (s *Server) attach(c *call, m *inputMedia) {
	part, ok := strings.CutPrefix(m.fileID, "attach://")
	if !ok {
		return
	}
	m.fileID = ""
	m.upload = c.uploads[part]
	if m.upload == nil {
		s.violate(c.rec.Method, "attach://%s names no uploaded part", part)
	}
}

func (s *Server) mediaSize(c *call, m *inputMedia) *refusal {
	if m.upload == nil {
		return s.knownFile(c, m)
	}
	n := len(m.upload.data)
	switch {
	case n == 0:
		s.violate(c.rec.Method, "an empty file")
		return badRequest("file must be non-empty")
	case m.photo && n > photoBytesMost:
		s.violate(c.rec.Method, "a photo of %d bytes, at most %d are allowed", n, photoBytesMost)
		return badRequest("file of size " + itoa(n) + " bytes is too big for a photo; the maximum size is " + itoa(photoBytesMost) + " bytes")
	case n > documentBytesMost:
		s.violate(c.rec.Method, "a file of %d bytes, at most %d are allowed", n, documentBytesMost)
		return &refusal{code: 413, text: "Request Entity Too Large"}
	case m.photo:
		return s.picture(c, m.upload.data)
	}
	return nil
}

func (s *Server) picture(c *call, data []byte) *refusal {
	cfg, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		s.violate(c.rec.Method, "a photo that is no PNG, JPEG or GIF: %v", err)
		return badRequest("IMAGE_PROCESS_FAILED")
	}
	long, short := max(cfg.Width, cfg.Height), min(cfg.Width, cfg.Height)
	if long+short > photoSidesMost || long > short*photoRatioMost {
		s.violate(c.rec.Method, "a photo of %d×%d: width and height together may be %d, one at most %d times the other", cfg.Width, cfg.Height, photoSidesMost, photoRatioMost)
		return badRequest("PHOTO_INVALID_DIMENSIONS")
	}
	return nil
}

// knownFile wants the identifier of a file the server has. The fake fetches no
// addresses.
func (s *Server) knownFile(c *call, m *inputMedia) *refusal {
	if m.fileID == "" {
		kind := "document"
		if m.photo {
			kind = "photo"
		}
		s.violate(c.rec.Method, "there is no %s in the call", kind)
		return badRequest("there is no " + kind + " in the request")
	}
	if s.file(m.fileID) == nil {
		s.violate(c.rec.Method, "%q is no file this server has, and it fetches no addresses", m.fileID)
		return badRequest("wrong remote file identifier specified: Wrong string length")
	}
	return nil
}
