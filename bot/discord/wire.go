package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"math"
	"net"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/gorilla/websocket"
)

// rewrite sends what is meant for Discord's API to another base address, such as a
// fake one; what is meant for other hosts goes there.
type rewrite struct {
	base *url.URL
	next http.RoundTripper
}

// RoundTrip makes the request at the base address.
func (w rewrite) RoundTrip(r *http.Request) (*http.Response, error) {
	if r.URL.Host != "discord.com" {
		return w.next.RoundTrip(r)
	}
	r = r.Clone(r.Context())
	r.URL.Scheme, r.URL.Host, r.Host = w.base.Scheme, w.base.Host, w.base.Host
	r.URL.Path = strings.TrimRight(w.base.Path, "/") + r.URL.Path
	if r.URL.RawPath != "" {
		r.URL.RawPath = strings.TrimRight(w.base.EscapedPath(), "/") + r.URL.RawPath
	}
	return w.next.RoundTrip(r)
}

// noting tells a request's maker what the library keeps to itself of a 429: how
// long to wait to the millisecond, and whether all requests have to.
type noting struct{ next http.RoundTripper }

// limited is what a 429 said.
type limited struct {
	After  float64 `json:"retry_after"` // seconds
	Global bool    `json:"global"`
}

type limitedKey struct{}

// RoundTrip makes the request.
func (n noting) RoundTrip(r *http.Request) (*http.Response, error) {
	res, err := n.next.RoundTrip(r)
	said, wanted := r.Context().Value(limitedKey{}).(*limited)
	if err != nil || !wanted || res.StatusCode != http.StatusTooManyRequests {
		return res, err
	}
	raw, err := io.ReadAll(io.LimitReader(res.Body, 1<<16))
	if cerr := res.Body.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return nil, err
	}
	res.Body = io.NopCloser(bytes.NewReader(raw))
	_ = json.Unmarshal(raw, said) // what is no JSON the library complains of
	return res, nil
}

// after rounds up: too soon would only be refused again.
func (l limited) after() time.Duration {
	return time.Duration(math.Ceil(l.After*1000)) * time.Millisecond
}

// wire watches a session's connection from below, where no lock of the library's
// is in the way: it knows when last anything came in, and can cut it.
type wire struct {
	last atomic.Int64 // unix nanoseconds of the last bytes

	mu   sync.Mutex
	conn net.Conn
	cut  bool
}

// dialer dials connections that the wire watches.
func (w *wire) dialer() *websocket.Dialer {
	var d net.Dialer
	return &websocket.Dialer{Proxy: http.ProxyFromEnvironment, HandshakeTimeout: 20 * time.Second,
		NetDialContext: func(ctx context.Context, network, addr string) (net.Conn, error) {
			c, err := d.DialContext(ctx, network, addr)
			if err != nil {
				return nil, err
			}
			w.mu.Lock()
			defer w.mu.Unlock()
			if w.cut {
				_ = c.Close() // too late: nobody wants it any more
				return nil, net.ErrClosed
			}
			w.conn = c
			w.touch()
			return watched{c, w}, nil
		}}
}

func (w *wire) touch() { w.last.Store(time.Now().UnixNano()) }

// silent is for how long nothing has come in.
func (w *wire) silent() time.Duration { return time.Since(time.Unix(0, w.last.Load())) }

// drop closes the connection under the library, which then notices by itself.
func (w *wire) drop() {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.conn != nil {
		_ = w.conn.Close() // it is given up either way
	}
}

// abandon closes the connection and any that may still be dialled.
func (w *wire) abandon() {
	w.mu.Lock()
	w.cut = true
	w.mu.Unlock()
	w.drop()
}

type watched struct {
	net.Conn
	w *wire
}

func (c watched) Read(p []byte) (int, error) {
	n, err := c.Conn.Read(p)
	if n > 0 {
		c.w.touch()
	}
	return n, err
}
