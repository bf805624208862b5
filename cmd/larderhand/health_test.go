package main

import (
	"context"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"larderhand/store"
)

func ask(t *testing.T, h http.Handler, path string) (int, string) {
	t.Helper()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequestWithContext(t.Context(), http.MethodGet, path, nil))
	body, err := io.ReadAll(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	return w.Code, string(body)
}

func TestReadyFollowsTheStoreAndTheHeartbeat(t *testing.T) {
	now := time.Date(2027, 3, 1, 8, 0, 0, 0, time.UTC)
	var broken error
	h := &health{metrics: newMetrics(), broken: func() error { return broken }, now: func() time.Time { return now }}
	check := func(when string, code int, says string) {
		t.Helper()
		got, body := ask(t, h, "/ready")
		if got != code || !strings.Contains(body, says) {
			t.Errorf("%s: %d %q", when, got, body)
		}
		if live, _ := ask(t, h, "/live"); live != http.StatusOK {
			t.Errorf("%s: live gives %d", when, live)
		}
	}
	check("at the start", 503, "starting")
	h.Ticked(now, nil)
	check("after a tick", 200, "ready")
	now = now.Add(10 * time.Minute)
	check("with no heartbeat", 503, "10m")
	h.Ticked(now, errors.New("no such table"))
	check("after a failed tick", 503, "no such table")
	h.Ticked(now, nil)
	broken = errors.New("the disk is full")
	check("on a full disk", 503, "disk is full")
	if code, _ := ask(t, h, "/anything"); code != http.StatusNotFound {
		t.Errorf("an unknown path gives %d", code)
	}
}

func TestMetricsCount(t *testing.T) {
	now := time.Date(2027, 3, 1, 8, 0, 0, 0, time.UTC)
	m := newMetrics()
	db, err := store.Open(t.Context(), store.Memory, store.OnTransaction(m.transaction))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	m.registry.MustRegister(newBacklog(db, func() time.Time { return now }, slog.New(slog.DiscardHandler)))
	err = db.Update(t.Context(), now, func(tx *store.Tx) error {
		for _, at := range []store.Address{"telegram:1", "telegram:2", "discord:1"} {
			c, err := tx.SaveConversation(store.Conversation{Address: at})
			if err != nil {
				return err
			}
			if err := tx.Enqueue(c.ID, "kind", "slot", "", now, store.Routine); err != nil {
				return err
			}
			if at == "telegram:2" {
				if err := tx.Park(c.ID, "blocked"); err != nil {
					return err
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	m.Sent("telegram", 90*time.Second, 3)
	m.Failed("discord", store.Wait)
	_, body := ask(t, &health{metrics: m, broken: func() error { return nil }, now: time.Now}, "/metrics")
	for _, want := range []string{
		`larderhand_chores_due{platform="telegram"} 1`,
		`larderhand_chores_due{platform="discord"} 1`,
		`larderhand_conversations_parked 1`,
		`larderhand_messages_sent_total{platform="telegram"} 1`,
		`larderhand_chores_sent_total{platform="telegram"} 3`,
		`larderhand_failures_total{kind="wait",platform="discord"} 1`,
		`larderhand_late_seconds_bucket{le="60"} 0`,
		`larderhand_late_seconds_bucket{le="300"} 1`,
		`larderhand_store_seconds_count{kind="write"} 1`,
	} {
		if !strings.Contains(body, want+"\n") {
			t.Errorf("no line %q", want)
		}
	}
}

func TestHealthIsOnThisMachineUnlessSaidOtherwise(t *testing.T) {
	l, err := listen(t.Context(), ":0")
	if err != nil {
		t.Fatal(err)
	}
	if host := l.Addr().String(); !strings.HasPrefix(host, "127.0.0.1:") {
		t.Errorf("listens on %s", host)
	}
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	h := &health{metrics: newMetrics(), broken: func() error { return nil }, now: time.Now}
	go func() { ended <- serveHealth(ctx, l, h, slog.New(slog.DiscardHandler)) }()
	resp, err := http.Get("http://" + l.Addr().String() + "/live")
	if err != nil {
		t.Fatal(err)
	}
	_ = resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		t.Errorf("live gives %d", resp.StatusCode)
	}
	cancel()
	if err := <-ended; err != nil {
		t.Error(err)
	}
	if _, err := listen(t.Context(), "8080"); err == nil {
		t.Error("a port alone was taken for an address")
	}
}
