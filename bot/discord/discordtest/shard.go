package discordtest

import "slices"

// Shard is one shard's side of the gateway, to make it go wrong.
type Shard struct {
	s *Server
	n int
}

// Opcodes for FirstFrame.
const (
	Reconnect      = opReconnect
	InvalidSession = opInvalidSession
)

// Shard is the shard with the given number.
func (s *Server) Shard(n int) *Shard { return &Shard{s, n} }

// Gateway is shard 0, the only one of a bot without shards.
func (s *Server) Gateway() *Shard { return s.Shard(0) }

func (h *Shard) live() *session {
	for _, ss := range h.s.gateway.sessions {
		if ss.shard == h.n && ss.socket != nil && ss.ready {
			return ss
		}
	}
	return nil
}

// WaitReady waits until a session of the shard is up.
func (h *Shard) WaitReady() {
	h.s.t.Helper()
	h.s.wait("shard "+itoa(h.n)+" to be up", func() bool { return h.live() != nil })
}

// WaitDown waits until no session of the shard is connected.
func (h *Shard) WaitDown() {
	h.s.t.Helper()
	h.s.wait("shard "+itoa(h.n)+" to be down", func() bool { return h.live() == nil })
}

// waitSession waits until there is a session that will get a channel's events,
// be it cut off at the moment.
func (s *Server) waitSession(c *Channel) {
	s.t.Helper()
	s.wait("the bot to be on the gateway", func() bool {
		for _, ss := range s.gateway.sessions {
			if ss.takes(c.guildID(), 0) {
				return true
			}
		}
		return false
	})
}

// Drop cuts the connection without a close frame.
func (h *Shard) Drop() { h.with(func(ss *session) { h.s.disconnect(ss); ss.socketCut() }) }

// CloseWith closes the connection with a code, such as 4000.
func (h *Shard) CloseWith(code int) {
	h.with(func(ss *session) {
		k := ss.socket
		h.s.disconnect(ss)
		k.shut(code, "")
	})
}

// AskReconnect sends op 7.
func (h *Shard) AskReconnect() { h.with(func(ss *session) { ss.socket.send(frame{Op: opReconnect}) }) }

// Invalidate sends op 9; a session that is not resumable is forgotten.
func (h *Shard) Invalidate(resumable bool) {
	h.with(func(ss *session) {
		k := ss.socket
		h.s.disconnect(ss)
		if !resumable {
			delete(h.s.gateway.sessions, ss.id)
		}
		// discordgo identifies again on the same connection, whatever the
		// documents say; it is let.
		k.session, k.identified = nil, false
		k.send(frame{Op: opInvalidSession, D: resumable})
	})
}

// AskHeartbeat sends op 1, which wants a heartbeat at once.
func (h *Shard) AskHeartbeat() { h.with(func(ss *session) { ss.socket.send(frame{Op: opHeartbeat}) }) }

// Expire forgets the shard's sessions, so that the next resume is refused with
// op 9; the connection stays.
func (h *Shard) Expire() {
	h.s.locked(func() {
		for id, ss := range h.s.gateway.sessions {
			if ss.shard == h.n {
				delete(h.s.gateway.sessions, id)
			}
		}
	})
}

// with runs f on the shard's session, which has to be up.
func (h *Shard) with(f func(*session)) {
	h.s.t.Helper()
	h.WaitReady()
	h.s.mu.Lock()
	defer h.s.mu.Unlock()
	if ss := h.live(); ss != nil {
		f(ss)
	}
	h.s.touch()
}

// HoldShut cuts the shard's connection and lets no new one in until LetIn:
// events in between wait for the resume. It holds for all shards.
func (h *Shard) HoldShut() {
	h.s.locked(func() {
		if h.s.gateway.door == nil {
			h.s.gateway.door = make(chan struct{})
		}
	})
	h.Drop()
}

// LetIn ends HoldShut.
func (h *Shard) LetIn() {
	h.s.locked(func() {
		if d := h.s.gateway.door; d != nil {
			h.s.gateway.door = nil
			close(d)
		}
	})
}

// MuteAcks stops the answers to heartbeats, as on a dead connection that still
// looks open; true again answers.
func (s *Server) MuteAcks(muted bool) { s.locked(func() { s.gateway.muted = muted }) }

// FirstFrame sends an opcode, Reconnect or InvalidSession, in place of the next
// READY or RESUMED.
func (s *Server) FirstFrame(op int) {
	s.locked(func() { s.gateway.first = append(s.gateway.first, op) })
}

// RepeatAtResume sends the last n events the bot already had once more at the
// next resume, as happens when the platform has lost count.
func (s *Server) RepeatAtResume(n int) { s.locked(func() { s.gateway.repeat = n }) }

// Identifies lists the op 2 frames so far.
func (s *Server) Identifies() []Identify {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.gateway.identifies)
}

// Resumes lists the op 6 frames so far.
func (s *Server) Resumes() []Resume {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.gateway.resumes)
}

// WaitIdentifies waits for n identifies.
func (s *Server) WaitIdentifies(n int) {
	s.t.Helper()
	s.wait(plural(n, "identify"), func() bool { return len(s.gateway.identifies) >= n })
}

// WaitResumes waits for n resumes that were accepted.
func (s *Server) WaitResumes(n int) {
	s.t.Helper()
	s.wait(plural(n, "resume"), func() bool {
		ok := 0
		for _, r := range s.gateway.resumes {
			if r.Accepted {
				ok++
			}
		}
		return ok >= n
	})
}

// WaitHeartbeats waits for n heartbeats since the start.
func (s *Server) WaitHeartbeats(n int) {
	s.t.Helper()
	s.wait(plural(n, "heartbeat"), func() bool { return s.gateway.heartbeats >= n })
}

// disconnect takes the socket from a session before the client notices, so
// that what happens next is kept for the resume.
func (s *Server) disconnect(ss *session) {
	ss.last, ss.socket, ss.ready = ss.socket, nil, false
}

func (ss *session) socketCut() {
	if ss.last != nil {
		ss.last.cut()
	}
}
