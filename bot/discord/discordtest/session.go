package discordtest

import (
	"encoding/json"
	"time"
)

// Gateway opcodes of topics/opcodes-and-status-codes.mdx.
const (
	opDispatch       = 0
	opHeartbeat      = 1
	opIdentify       = 2
	opPresence       = 3
	opVoiceState     = 4
	opResume         = 6
	opReconnect      = 7
	opRequestMembers = 8
	opInvalidSession = 9
	opHello          = 10
	opHeartbeatAck   = 11
)

type frame struct {
	Op int    `json:"op"`
	D  any    `json:"d"`
	S  *int   `json:"s,omitempty"`
	T  string `json:"t,omitempty"`
}

// gatewayState is everything of the gateway; Server.mu guards it.
type gatewayState struct {
	sessions   map[string]*session
	sockets    map[*socket]bool
	identifies []Identify
	resumes    []Resume
	heartbeats int
	starts     []time.Time // of sessions, in the last day
	muted      bool        // no heartbeat acks
	first      []int       // opcodes to say in place of the next READY or RESUMED
	repeat     int         // events to send once more at the next resume
	door       chan struct{}
}

func (g *gatewayState) init() {
	g.sessions = map[string]*session{}
	g.sockets = map[*socket]bool{}
}

// session is what a resume takes up again.
type session struct {
	id       string
	shard    int
	shards   int
	intents  int
	compress bool
	log      []frame // log[i] has sequence number i+1
	socket   *socket // nil while disconnected
	last     *socket // the one before
	ready    bool    // READY or RESUMED has been sent on the socket
}

// Identify is an op 2 as the bot sent it.
type Identify struct {
	Shard      int
	Shards     int
	Intents    int
	Properties map[string]any
	SessionID  string // empty when it was refused
	At         time.Time
}

// Resume is an op 6 as the bot sent it.
type Resume struct {
	SessionID string
	Seq       int
	OwnURL    bool // came to resume_gateway_url, as documented
	Accepted  bool
}

func (ss *session) takes(guildID string, intent int) bool {
	return shardOf(guildID, ss.shards) == ss.shard && (intent == 0 || ss.intents&intent != 0)
}

// emit dispatches an event to every session it concerns. A session that is cut
// off keeps it for the resume. The payload is frozen here.
func (s *Server) emit(event, guildID string, intent int, data any) {
	frozen := recast(data)
	s.checkEvent(event, frozen)
	for _, ss := range s.gateway.sessions {
		if ss.takes(guildID, intent) {
			ss.dispatch(event, frozen)
		}
	}
	s.touch()
}

func (ss *session) dispatch(event string, data any) {
	seq := len(ss.log) + 1
	f := frame{Op: opDispatch, D: data, S: &seq, T: event}
	ss.log = append(ss.log, f)
	if ss.socket != nil && ss.ready {
		ss.socket.send(f)
	}
}

// start answers an identify with READY and a GUILD_CREATE for each guild.
func (s *Server) start(sock *socket, id Identify) *session {
	ss := &session{
		id: "session-" + s.newID(), shard: id.Shard, shards: id.Shards, intents: id.Intents,
		socket: sock, ready: true, compress: sock.compress,
	}
	s.gateway.sessions[ss.id] = ss
	guilds := []any{}
	var mine []*Guild
	for _, g := range s.guilds {
		if g.hasBot() && shardOf(g.ID, ss.shards) == ss.shard {
			guilds = append(guilds, obj{"id": g.ID, "unavailable": true})
			mine = append(mine, g)
		}
	}
	ready := obj{
		"v": 9, "user": s.bot.privateJSON(), "guilds": guilds, "session_id": ss.id,
		"resume_gateway_url": s.gatewayURL(resumePath), "application": obj{"id": s.appID, "flags": 0},
	}
	if ss.shards > 1 {
		ready["shard"] = []any{ss.shard, ss.shards}
	}
	frozen := recast(ready)
	s.checkEvent("READY", frozen)
	ss.dispatch("READY", frozen)
	if ss.intents&intentGuilds != 0 {
		for _, g := range mine {
			created := recast(g.createJSON())
			s.checkEvent("GUILD_CREATE", created)
			ss.dispatch("GUILD_CREATE", created)
		}
	}
	return ss
}

// resume replays what came after seq, then says RESUMED.
func (s *Server) resume(ss *session, sock *socket, seq int) {
	if ss.socket != nil {
		ss.socket.cut()
	}
	ss.socket, ss.ready = sock, true
	from := max(seq-s.gateway.repeat, 0)
	s.gateway.repeat = 0
	for _, f := range ss.log[from:] {
		sock.send(f)
	}
	ss.dispatch("RESUMED", obj{})
}

func (f frame) bytes() []byte {
	raw, err := json.Marshal(f)
	if err != nil {
		panic("discordtest: frame does not marshal: " + err.Error())
	}
	return raw
}
