package discordtest

import (
	"bytes"
	"image/png"
	"net/http"
	"net/url"
)

// File is a file on its way: in an upload of the bot or of a person.
type File struct {
	Name string
	Type string // media type
	Data []byte
	Size int // what its attachment says; 0: as long as it is
}

type attachment struct {
	File
	id          string
	url         string
	description string
	only        bool // ephemeral
}

// store keeps a file's bytes where the address in its attachment serves them.
func (s *Server) store(f File, description string) *attachment {
	id := s.newID()
	if f.Type == "" {
		f.Type = "application/octet-stream"
	}
	s.files[id] = f
	return &attachment{
		File: f, id: id, description: description,
		url: s.URL() + "/attachments/" + id + "/" + url.PathEscape(f.Name),
	}
}

func (a *attachment) json() obj {
	size := len(a.Data)
	if a.Size > 0 {
		size = a.Size
	}
	o := obj{
		"id": a.id, "filename": a.Name, "size": size, "url": a.url, "proxy_url": a.url,
		"content_type": a.Type,
	}
	if a.description != "" {
		o["description"] = a.description
	}
	if a.only {
		o["ephemeral"] = true
	}
	if a.Type == "image/png" {
		if pic, err := png.DecodeConfig(bytes.NewReader(a.Data)); err == nil {
			o["width"], o["height"] = pic.Width, pic.Height
		}
	}
	return o
}

func (s *Server) serveFile(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	f, ok := s.files[r.PathValue("id")]
	s.fetched++
	s.mu.Unlock()
	if !ok {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", f.Type)
	w.Write(f.Data)
}

// Fetched counts the times the file of an attachment was asked for.
func (s *Server) Fetched() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.fetched
}

// fillFiles adds the uploads of a request. An edit that names attachments keeps
// only those (reference.mdx, "Editing Message Attachments").
func (m *message) fillFiles(c *call, body obj) {
	named := map[string]obj{}
	if v, ok := body["attachments"]; ok && v != nil {
		for _, a := range list(v) {
			named[idOf(object(a)["id"])] = object(a)
		}
		var kept []*attachment
		for _, f := range m.files {
			if a, ok := named[f.id]; ok {
				if d, ok := a["description"]; ok {
					f.description = text(d)
				}
				kept = append(kept, f)
			}
		}
		m.files = kept
	}
	for _, up := range c.files {
		a := named[up.index]
		f := up.File
		if n := text(a["filename"]); n != "" {
			f.Name = n
		}
		stored := c.s.store(f, text(a["description"]))
		stored.only = m.onlyFor != nil
		m.files = append(m.files, stored)
	}
}
