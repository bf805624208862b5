package discordtest

import (
	"bytes"
	"compress/zlib"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// socket is one WebSocket connection. A goroutine of its own writes, so that a
// client that reads slowly holds nobody up.
type socket struct {
	s          *Server
	conn       *websocket.Conn
	resumeAddr bool

	session    *session
	compress   bool
	identified bool
	received   []time.Time // frames of the last minute, for the send limit

	mu     sync.Mutex
	queue  []func() error
	wake   chan struct{}
	closed bool
}

func newSocket(s *Server, conn *websocket.Conn, resumeAddr bool) *socket {
	return &socket{s: s, conn: conn, resumeAddr: resumeAddr, wake: make(chan struct{}, 1)}
}

// compressFrom is the size from which packets are compressed for a client that
// asked for payload compression; "not all payloads will be compressed"
// (gateway.mdx, "Payload Compression").
const compressFrom = 1024

func (k *socket) send(f frame) {
	raw, packed := f.bytes(), k.compress
	k.push(func() error {
		if packed && len(raw) >= compressFrom {
			return k.conn.WriteMessage(websocket.BinaryMessage, deflate(raw))
		}
		return k.conn.WriteMessage(websocket.TextMessage, raw)
	})
}

// shut sends a close frame and ends the connection.
func (k *socket) shut(code int, why string) {
	k.push(func() error {
		k.conn.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(code, why), time.Now().Add(time.Second))
		return k.conn.Close()
	})
	k.end()
}

// cut ends the connection without a word.
func (k *socket) cut() {
	k.end()
	k.conn.NetConn().Close()
}

func (k *socket) push(f func() error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.closed {
		return
	}
	k.queue = append(k.queue, f)
	k.signal()
}

func (k *socket) end() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.closed = true
	k.signal()
}

func (k *socket) signal() {
	select {
	case k.wake <- struct{}{}:
	default:
	}
}

// write runs until the socket is closed and its queue sent.
func (k *socket) write() {
	defer k.conn.Close()
	for range k.wake {
		for {
			k.mu.Lock()
			queue, closed := k.queue, k.closed
			k.queue = nil
			k.mu.Unlock()
			for _, f := range queue {
				if f() != nil {
					return
				}
			}
			if len(queue) == 0 {
				if closed {
					return
				}
				break
			}
		}
	}
}

func deflate(raw []byte) []byte {
	var out bytes.Buffer
	z := zlib.NewWriter(&out)
	z.Write(raw)
	z.Close()
	return out.Bytes()
}
