package discordtest

import (
	"net/http"
	"strings"
)

// handler serves the API under /api/v9 and /api/v10, the gateway's two
// addresses and the files of attachments.
func (s *Server) handler() http.Handler {
	api := http.NewServeMux()
	for _, rt := range routes {
		api.HandleFunc(rt.pattern, func(w http.ResponseWriter, r *http.Request) { s.serve(w, r, rt) })
	}
	api.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		s.violate("%s %s: no such route in the fake", r.Method, r.URL.Path)
		refuse(404, 0, "404: Not Found").write(w)
	})
	root := http.NewServeMux()
	root.Handle("/api/v9/", http.StripPrefix("/api/v9", api))
	root.Handle("/api/v10/", http.StripPrefix("/api/v10", api))
	root.HandleFunc(gatewayPath, func(w http.ResponseWriter, r *http.Request) { s.serveGateway(w, r, false) })
	root.HandleFunc(resumePath, func(w http.ResponseWriter, r *http.Request) { s.serveGateway(w, r, true) })
	root.HandleFunc("GET /attachments/{id}/{name}", s.serveFile)
	root.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		s.violate("%s %s: not an address of the fake", r.Method, r.URL.Path)
		http.NotFound(w, r)
	})
	return root
}

func (s *Server) serve(w http.ResponseWriter, r *http.Request, rt route) {
	c := &call{s: s, r: r, path: r.URL.Path, pattern: rt.pattern}
	if err := c.read(); err != nil {
		return // the client went away
	}
	c.checkHeaders()
	s.checkRequest(c)
	var a answer
	rec := s.record(c)
	fault := s.faultFor(c)
	if fault != nil && !fault.kind.after {
		if !fault.play(s, r, w) {
			return
		}
		a = fault.kind.answer()
	}
	if a.status == 0 {
		a = s.act(c, rt)
	}
	s.answered(rec, a)
	if fault != nil && fault.kind.after && !fault.play(s, r, w) {
		return
	}
	s.checkAnswer(c, a)
	withLimits(a).write(w)
}

// act runs the route on the model.
func (s *Server) act(c *call, rt route) (a answer) {
	s.mu.Lock()
	defer s.mu.Unlock()
	defer s.touch()
	if !rt.open && c.r.Header.Get("Authorization") != "Bot "+s.opt.token {
		return refuse(401, 0, "401: Unauthorized")
	}
	if c.size > maxRequest {
		return refuse(413, 40005, "Request entity too large")
	}
	if rt.limits != nil {
		rt.limits(c)
	}
	if len(c.broke) > 0 {
		return invalidForm(strings.Join(c.broke, "; "))
	}
	return rt.act(c)
}

// checkHeaders: a valid User-Agent is required (reference.mdx, "User Agent").
func (c *call) checkHeaders() {
	if ua := c.r.UserAgent(); !strings.HasPrefix(ua, "DiscordBot (") {
		c.breach("User-Agent %q, want DiscordBot (url, version)", ua)
	}
}

// withLimits adds the rate limit headers of an ordinary answer, far from the
// limit (topics/rate-limits.mdx).
func withLimits(a answer) answer {
	if a.header == nil && a.status < 429 {
		a.header = http.Header{
			"X-Ratelimit-Limit": {"50"}, "X-Ratelimit-Remaining": {"49"},
			"X-Ratelimit-Reset-After": {"1"}, "X-Ratelimit-Bucket": {"fake"},
		}
	}
	return a
}
