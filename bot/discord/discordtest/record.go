package discordtest

import (
	"encoding/json"
	"path"
	"strings"
	"time"
)

// Request is a request the fake got, as recorded.
type Request struct {
	Method string
	Path   string // below /api/v9, such as "/channels/12/messages"
	Route  string // the path template, such as "/channels/{channel_id}/messages"
	Query  string
	Body   json.RawMessage // the JSON, also of a form
	Files  []File
	At     time.Time // on the server's clock
	Status int       // 0 while it is not answered, or when it never was
	Code   int       // the error code of the answer, 0 for none
}

func (s *Server) record(c *call) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	_, template, _ := strings.Cut(c.pattern, " ")
	req := Request{
		Method: c.r.Method, Path: c.path, Route: template, Query: c.r.URL.RawQuery,
		Body: c.raw, At: s.now(),
	}
	for _, f := range c.files {
		req.Files = append(req.Files, f.File)
	}
	s.requests = append(s.requests, req)
	s.touch()
	return len(s.requests) - 1
}

func (s *Server) answered(i int, a answer) {
	s.mu.Lock()
	defer s.mu.Unlock()
	r := &s.requests[i]
	r.Status, r.Code = a.status, number(object(a.body)["code"])
	s.note("%s %s -> %d%s", r.Method, r.Path, r.Status, codeNote(r.Code))
	s.touch()
}

func codeNote(code int) string {
	if code == 0 {
		return ""
	}
	return " code " + itoa(code)
}

// Requests lists the recorded requests whose method and path match; an empty
// method matches all, a * in the path one segment, an empty path all.
func (s *Server) Requests(method, glob string) []Request {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.matching(method, glob)
}

func (s *Server) matching(method, glob string) []Request {
	var out []Request
	for _, r := range s.requests {
		if (target{method, glob}).matches(r.Method, r.Path) {
			out = append(out, r)
		}
	}
	return out
}

// WaitRequests waits until n requests that match have been answered and returns
// all that match.
func (s *Server) WaitRequests(method, glob string, n int) []Request {
	s.t.Helper()
	var out []Request
	s.wait(plural(n, "request")+" "+method+" "+glob, func() bool {
		answered := 0
		out = s.matching(method, glob)
		for _, r := range out {
			if r.Status != 0 {
				answered++
			}
		}
		return answered >= n
	})
	return out
}

// target says which requests are meant.
type target struct{ method, glob string }

func (t target) matches(method, p string) bool {
	if t.method != "" && t.method != method {
		return false
	}
	if t.glob == "" {
		return true
	}
	ok, err := path.Match(t.glob, p)
	return ok && err == nil
}
