package discordtest_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/gorilla/websocket"

	"larderhand/bot/discord/discordtest"
)

// wire is a gateway client of a few lines, to say what the library never would.
type wire struct {
	t testing.TB
	c *websocket.Conn
}

type packet struct {
	Op int             `json:"op"`
	D  json.RawMessage `json:"d"`
	S  int             `json:"s"`
	T  string          `json:"t"`
}

func dial(t testing.TB, s *discordtest.Server, path string) wire {
	t.Helper()
	c, _, err := websocket.DefaultDialer.Dial("ws"+strings.TrimPrefix(s.URL(), "http")+path+"?v=9&encoding=json", nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	w := wire{t, c}
	if p := w.next(); p.Op != 10 {
		t.Fatalf("first packet %+v, want hello", p)
	}
	return w
}

func (w wire) say(op int, d any) {
	w.t.Helper()
	if err := w.c.WriteJSON(j{"op": op, "d": d}); err != nil {
		w.t.Error(err)
	}
}

func (w wire) next() packet {
	w.t.Helper()
	var p packet
	if err := w.c.ReadJSON(&p); err != nil {
		w.t.Fatal(err)
	}
	return p
}

// closed is the code the server closes with.
func (w wire) closed() int {
	for {
		_, _, err := w.c.ReadMessage()
		if ce, ok := err.(*websocket.CloseError); ok {
			return ce.Code
		}
		if err != nil {
			return 0
		}
	}
}

func identify(s *discordtest.Server) j {
	return j{"token": s.Token(), "intents": 1, "properties": j{"os": "linux", "browser": "test", "device": "test"}}
}

// The packets of events/gateway.mdx, in the order the documents give.
func TestProtocol(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	w := dial(t, s, "/gateway/")
	w.say(1, nil)
	if p := w.next(); p.Op != 11 {
		t.Errorf("after a heartbeat %+v, want an ack", p)
	}
	w.say(2, identify(s))
	var ready struct {
		SessionID string `json:"session_id"`
		ResumeURL string `json:"resume_gateway_url"`
	}
	p := w.next()
	if err := json.Unmarshal(p.D, &ready); err != nil || p.T != "READY" || p.S != 1 || !strings.HasSuffix(ready.ResumeURL, "/resume") {
		t.Fatalf("packet %s %d %s, %v", p.T, p.S, p.D, err)
	}
	if p := w.next(); p.T != "GUILD_CREATE" || p.S != 2 {
		t.Errorf("packet %s %d, want GUILD_CREATE 2", p.T, p.S)
	}
	w.c.Close()
	s.Gateway().WaitDown()
	c.guild.AddRole("flippers", 0)
	w = dial(t, s, "/resume/")
	w.say(6, j{"token": s.Token(), "session_id": ready.SessionID, "seq": 2})
	for _, want := range []string{"GUILD_ROLE_CREATE", "RESUMED"} {
		if p := w.next(); p.T != want {
			t.Errorf("packet %s, want %s", p.T, want)
		}
	}
	if r := s.Resumes(); len(r) != 1 || !r[0].Accepted || !r[0].OwnURL {
		t.Errorf("resumes %+v", r)
	}
	w = dial(t, s, "/resume/")
	w.say(6, j{"token": s.Token(), "session_id": "other", "seq": 2})
	if p := w.next(); p.Op != 9 || string(p.D) != "false" {
		t.Errorf("resume of nothing: %d %s, want op 9 false", p.Op, p.D)
	}
}

// topics/opcodes-and-status-codes.mdx, "Gateway Close Event Codes".
func TestCloseCodes(t *testing.T) {
	t.Parallel()
	for want, say := range map[int]func(*discordtest.Server, wire){
		4001: func(_ *discordtest.Server, w wire) { w.say(0, nil) },
		4002: func(_ *discordtest.Server, w wire) { w.c.WriteMessage(websocket.TextMessage, []byte("hello")) },
		4003: func(_ *discordtest.Server, w wire) { w.say(3, j{}) },
		4004: func(s *discordtest.Server, w wire) { d := identify(s); d["token"] = "x"; w.say(2, d) },
		4005: func(s *discordtest.Server, w wire) { w.say(2, identify(s)); w.say(2, identify(s)) },
		4008: func(_ *discordtest.Server, w wire) {
			for range 121 {
				w.say(1, nil)
			}
		},
		4010: func(s *discordtest.Server, w wire) { d := identify(s); d["shard"] = []int{2, 2}; w.say(2, d) },
		4013: func(s *discordtest.Server, w wire) { d := identify(s); d["intents"] = 1 << 18; w.say(2, d) },
		4014: func(s *discordtest.Server, w wire) { d := identify(s); d["intents"] = 1 << 15; w.say(2, d) },
	} {
		judged(t, nil, func(s *discordtest.Server) {
			w := dial(t, s, "/gateway/")
			say(s, w)
			if got := w.closed(); got != want {
				t.Errorf("closed with %d, want %d", got, want)
			}
		})
	}
}

func TestGatewayAddressIsChecked(t *testing.T) {
	t.Parallel()
	out := judged(t, nil, func(s *discordtest.Server) {
		c, _, err := websocket.DefaultDialer.Dial("ws"+strings.TrimPrefix(s.URL(), "http")+"/gateway/?v=6", nil)
		if err != nil {
			t.Error(err)
			return
		}
		c.Close()
	})
	if !strings.Contains(out.said(), "want v=9 or 10") {
		t.Errorf("said %q", out.said())
	}
}
