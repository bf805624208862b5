package discordtest

import (
	"strings"
	"time"
)

// Limits of events/gateway.mdx.
const (
	maxFrame      = 4096
	maxFrames     = 120
	framesWithin  = time.Minute
	maxStarts     = 1000
	startsWithin  = 24 * time.Hour
	identifyEvery = 5 * time.Second
)

// Close codes of topics/opcodes-and-status-codes.mdx.
const (
	closeUnknownOp   = 4001
	closeDecode      = 4002
	closeNoAuth      = 4003
	closeBadToken    = 4004
	closeAuthTwice   = 4005
	closeRateLimited = 4008
	closeBadShard    = 4010
	closeBadIntents  = 4013
	closePrivileged  = 4014
)

// received handles one frame of the client.
func (s *Server) received(k *socket, raw []byte) {
	if len(raw) > maxFrame {
		s.violate("gateway: a frame of %d bytes, more than %d", len(raw), maxFrame)
		k.shut(closeDecode, "Decode error")
		return
	}
	if !k.inLimit(time.Now()) {
		s.violate("gateway: more than %d frames in a minute", maxFrames)
		k.shut(closeRateLimited, "Rate limited")
		return
	}
	v, err := decode(raw)
	op, ok := whole(object(v)["op"])
	if err != nil || !ok {
		s.violate("gateway: a frame that is no payload: %.80s", raw)
		k.shut(closeDecode, "Decode error")
		return
	}
	d := object(v)["d"]
	switch op {
	case opHeartbeat:
		s.gateway.heartbeats++
		if !s.gateway.muted {
			k.send(frame{Op: opHeartbeatAck})
		}
	case opIdentify:
		s.identified(k, object(d))
	case opResume:
		s.resumed(k, object(d))
	case opPresence, opVoiceState, opRequestMembers:
		if k.session == nil {
			k.shut(closeNoAuth, "Not authenticated")
		}
	default:
		s.violate("gateway: opcode %d is not for clients to send", op)
		k.shut(closeUnknownOp, "Unknown opcode")
	}
}

// inLimit counts real time: it guards against a client gone wild.
func (k *socket) inLimit(now time.Time) bool {
	kept := k.received[:0]
	for _, t := range k.received {
		if now.Sub(t) < framesWithin {
			kept = append(kept, t)
		}
	}
	k.received = append(kept, now)
	return len(k.received) <= maxFrames
}

func sameToken(s *Server, d obj) bool {
	return strings.TrimPrefix(text(d["token"]), "Bot ") == s.opt.token
}

func (s *Server) identified(k *socket, d obj) {
	id := Identify{Shards: 1, Intents: number(d["intents"]), Properties: object(d["properties"]), At: s.now()}
	if shard := list(d["shard"]); len(shard) == 2 {
		id.Shard, id.Shards = number(shard[0]), number(shard[1])
	}
	defer func() { s.gateway.identifies = append(s.gateway.identifies, id) }()
	s.note("gateway: identify, shard %d of %d, intents %d", id.Shard, id.Shards, id.Intents)
	if no, why := s.refuseIdentify(k, d, id); no != 0 {
		k.shut(no, why)
		return
	}
	if s.gateway.tooSoon(id, s.opt.maxConcurrency) && s.opt.limitIdentify {
		k.send(frame{Op: opInvalidSession, D: false})
		return
	}
	if s.gateway.starts = recent(append(s.gateway.starts, s.now()), s.now(), startsWithin); len(s.gateway.starts) > maxStarts {
		s.violate("gateway: more than %d identifies in a day; the token would be reset", maxStarts)
	}
	k.identified, k.compress = true, truth(d["compress"])
	if s.sayFirst(k) {
		return
	}
	k.session = s.start(k, id)
	id.SessionID = k.session.id
}

// refuseIdentify is the close code for an identify that is not right.
func (s *Server) refuseIdentify(k *socket, d obj, id Identify) (code int, why string) {
	switch {
	case !sameToken(s, d):
		return closeBadToken, "Authentication failed."
	case k.identified:
		s.violate("gateway: identified twice on one connection")
		return closeAuthTwice, "Already authenticated."
	case id.Intents&^knownIntents != 0 || d["intents"] == nil:
		s.violate("gateway: intents %v are not valid", d["intents"])
		return closeBadIntents, "Invalid intent(s)."
	case id.Intents&privilegedIntents != 0:
		s.violate("gateway: intents %d ask for privileged ones (%d)", id.Intents, id.Intents&privilegedIntents)
		return closePrivileged, "Disallowed intent(s)."
	case id.Shard < 0 || id.Shard >= id.Shards:
		s.violate("gateway: shard %d of %d", id.Shard, id.Shards)
		return closeBadShard, "Invalid shard."
	}
	for _, key := range []string{"os", "browser", "device"} {
		// The library writes them with the $ of old API versions.
		if id.Properties[key] == nil && id.Properties["$"+key] == nil {
			s.violate("gateway: identify without properties.%s", key)
		}
	}
	return 0, ""
}

// tooSoon: max_concurrency shards may identify per 5 s, by rate limit key.
func (g *gatewayState) tooSoon(id Identify, concurrency int) bool {
	for _, before := range g.identifies {
		if before.Shard%concurrency == id.Shard%concurrency && before.SessionID != "" && id.At.Sub(before.At) < identifyEvery {
			return true
		}
	}
	return false
}

func (s *Server) resumed(k *socket, d obj) {
	r := Resume{SessionID: text(d["session_id"]), Seq: number(d["seq"]), OwnURL: k.resumeAddr}
	ss := s.gateway.sessions[r.SessionID]
	r.Accepted = ss != nil && sameToken(s, d) && r.Seq <= len(ss.log)
	s.gateway.resumes = append(s.gateway.resumes, r)
	s.note("gateway: resume of %s from %d, accepted %v", r.SessionID, r.Seq, r.Accepted)
	switch {
	case !sameToken(s, d):
		k.shut(closeBadToken, "Authentication failed.")
	case !r.Accepted:
		k.send(frame{Op: opInvalidSession, D: false})
	default:
		k.session, k.identified, k.compress = ss, true, ss.compress
		if s.sayFirst(k) {
			return
		}
		s.resume(ss, k, r.Seq)
	}
}

// sayFirst sends what a test put in place of READY or RESUMED.
func (s *Server) sayFirst(k *socket) bool {
	if len(s.gateway.first) == 0 {
		return false
	}
	op := s.gateway.first[0]
	s.gateway.first = s.gateway.first[1:]
	k.identified = false
	var d any
	if op == opInvalidSession {
		d = false
	}
	k.send(frame{Op: op, D: d})
	return true
}

func recent(ts []time.Time, now time.Time, within time.Duration) []time.Time {
	var out []time.Time
	for _, t := range ts {
		if now.Sub(t) < within {
			out = append(out, t)
		}
	}
	return out
}
