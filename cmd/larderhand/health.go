package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"time"

	"github.com/prometheus/client_golang/prometheus/promhttp"
)

// health answers whether the program lives, whether it can do its work, and with
// its metrics. It tells nothing about anybody's batches.
type health struct {
	*metrics
	broken func() error // why the store can't be written, or nil
	now    func() time.Time
}

// stale is after how long without a look at what is due the program is not well.
const stale = 3 * time.Minute

func (h *health) ready() error {
	if err := h.broken(); err != nil {
		return err
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	switch since := h.now().Sub(h.ticked); {
	case h.failed != nil:
		return fmt.Errorf("the last look at what is due failed: %w", h.failed)
	case h.ticked.IsZero():
		return errors.New("starting")
	case since > stale:
		return fmt.Errorf("nobody looked at what is due for %v", since.Round(time.Second))
	}
	return nil
}

// ServeHTTP answers /live, /ready and /metrics.
func (h *health) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	switch r.URL.Path {
	case "/live":
		answer(w, http.StatusOK, "alive\n")
	case "/ready":
		if err := h.ready(); err != nil {
			answer(w, http.StatusServiceUnavailable, err.Error()+"\n")
			return
		}
		answer(w, http.StatusOK, "ready\n")
	case "/metrics":
		promhttp.HandlerFor(h.registry, promhttp.HandlerOpts{}).ServeHTTP(w, r)
	default:
		http.NotFound(w, r)
	}
}

func answer(w http.ResponseWriter, code int, text string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(code)
	_, _ = io.WriteString(w, text) // whoever asked is gone if it fails
}

// listen opens the address; one without a host is on this machine alone.
func listen(ctx context.Context, addr string) (net.Listener, error) {
	host, port, err := net.SplitHostPort(addr)
	if err != nil {
		return nil, fmt.Errorf("--health: %q is no address; one looks like :8080 or 127.0.0.1:8080", addr)
	}
	if host == "" {
		host = "127.0.0.1"
	}
	l, err := new(net.ListenConfig).Listen(ctx, "tcp", net.JoinHostPort(host, port))
	if err != nil {
		return nil, fmt.Errorf("--health: %w", err)
	}
	return l, nil
}

// serveHealth answers on a listener until ctx ends.
func serveHealth(ctx context.Context, l net.Listener, h http.Handler, log *slog.Logger) error {
	s := &http.Server{Handler: h, ReadHeaderTimeout: 5 * time.Second, ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn)}
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(l) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	bounded, cancel := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
	defer cancel()
	err := s.Shutdown(bounded)
	if served := <-ended; !errors.Is(served, http.ErrServerClosed) {
		err = errors.Join(err, served)
	}
	return err
}
