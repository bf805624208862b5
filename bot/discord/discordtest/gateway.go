package discordtest

import (
	"net/http"
	"strings"
	"time"

	"github.com/gorilla/websocket"
)

const (
	gatewayPath = "/gateway/"
	resumePath  = "/resume/"
)

func (s *Server) gatewayURL(path string) string {
	return "ws" + strings.TrimPrefix(s.http.URL, "http") + strings.TrimSuffix(path, "/")
}

func getGateway(c *call) answer { return done(obj{"url": c.s.gatewayURL(gatewayPath)}) }

func getGatewayBot(c *call) answer {
	s := c.s
	return done(obj{
		"url": s.gatewayURL(gatewayPath), "shards": s.opt.shards,
		"session_start_limit": obj{
			"total": maxStarts, "remaining": max(maxStarts-len(s.gateway.starts), 0),
			"reset_after": int((24 * time.Hour).Milliseconds()), "max_concurrency": s.opt.maxConcurrency,
		},
	})
}

// serveGateway is one connection: hello, then what the client sends.
func (s *Server) serveGateway(w http.ResponseWriter, r *http.Request, resumeAddr bool) {
	if !s.passDoor(r) {
		return
	}
	q := r.URL.Query()
	if v := q.Get("v"); v != "9" && v != "10" || q.Get("encoding") != "json" {
		s.violate("gateway address %s: want v=9 or 10 and encoding=json", r.URL)
	}
	up := websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}
	conn, err := up.Upgrade(w, r, nil)
	if err != nil {
		return
	}
	k := newSocket(s, conn, resumeAddr)
	s.mu.Lock()
	select {
	case <-s.closing:
		s.mu.Unlock()
		conn.Close()
		return
	default:
	}
	s.gateway.sockets[k] = true
	s.sockets.Add(2)
	s.note("gateway: a connection")
	k.send(frame{Op: opHello, D: obj{"heartbeat_interval": s.opt.heartbeat.Milliseconds()}})
	s.touch()
	s.mu.Unlock()
	go func() { defer s.sockets.Done(); k.write() }()
	go func() { defer s.sockets.Done(); s.read(k) }()
}

// passDoor keeps a connection waiting while the gateway is held shut.
func (s *Server) passDoor(r *http.Request) bool {
	s.mu.Lock()
	door := s.gateway.door
	s.mu.Unlock()
	if door == nil {
		return true
	}
	select {
	case <-door:
		return true
	case <-s.closing:
	case <-r.Context().Done():
	}
	return false
}

// read takes the client's frames until the connection ends.
func (s *Server) read(k *socket) {
	code := websocket.CloseAbnormalClosure
	for {
		_, raw, err := k.conn.ReadMessage()
		if err != nil {
			if ce, ok := err.(*websocket.CloseError); ok {
				code = ce.Code
			}
			break
		}
		s.mu.Lock()
		s.received(k, raw)
		s.touch()
		s.mu.Unlock()
	}
	k.end()
	s.mu.Lock()
	defer s.mu.Unlock()
	s.left(k, code)
	s.touch()
}

// left: closing with 1000 or 1001 ends the session, anything else leaves it
// resumable (gateway.mdx, "Initiating a Disconnect").
func (s *Server) left(k *socket, code int) {
	delete(s.gateway.sockets, k)
	s.note("gateway: a connection ends (%d)", code)
	ss := k.session
	if ss == nil || ss.socket != k {
		return
	}
	ss.socket, ss.ready = nil, false
	if code == websocket.CloseNormalClosure || code == websocket.CloseGoingAway {
		delete(s.gateway.sessions, ss.id)
	}
}

func (s *Server) dropAll() {
	for k := range s.gateway.sockets {
		k.cut()
	}
	if d := s.gateway.door; d != nil {
		s.gateway.door = nil
		close(d)
	}
}
