package main

import (
	"bytes"
	"context"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"larderhand/bot/reply"
	"larderhand/store"
)

func examine(t *testing.T, db string) (string, int) {
	t.Helper()
	out, _, code := chatWith(t, "", "doctor", "--db", db, "--zone", "Europe/Berlin")
	return out, code
}

func TestDoctor(t *testing.T) {
	file := filepath.Join(t.TempDir(), "larderhand.db")
	wants := func(when string, code int, lines ...string) {
		t.Helper()
		out, got := examine(t, file)
		if got != code {
			t.Errorf("%s: exit code %d:\n%s", when, got, out)
		}
		for _, l := range lines {
			if !strings.Contains(out, l) {
				t.Errorf("%s: no %q in:\n%s", when, l, out)
			}
		}
	}
	wants("before the first start", 0, "not there yet", "Europe/Berlin")

	now := time.Now()
	db, err := store.Open(t.Context(), file)
	if err != nil {
		t.Fatal(err)
	}
	plant := func(zone string, due, recorded time.Time) {
		t.Helper()
		err := db.Update(t.Context(), recorded, func(tx *store.Tx) error {
			c, err := tx.SaveConversation(store.Conversation{Address: store.Address("test:" + zone), Settings: store.Settings{Zone: zone}})
			if err != nil {
				return err
			}
			m, err := tx.Member(c.ID, "ines", "Ines")
			if err != nil {
				return err
			}
			b, err := tx.CreateBatch(store.Batch{Conversation: c.ID, Keeper: m.ID, Opened: recorded})
			if err != nil {
				return err
			}
			if _, err := tx.Append(store.Entry{Batch: b.ID, Kind: "open", At: recorded, Member: m.ID}); err != nil {
				return err
			}
			return tx.Enqueue(c.ID, "kind", zone, "", due, store.Routine)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	plant("Europe/Berlin", now.Add(time.Hour), now)
	wants("while it runs", 0, "in use by a running larderhand", "integrity sound", "pings     1 due\n", "overdue   none", "clock     says "+now.Format("2006-01-02T"), "zones     1 in use are known")
	plant("America/Chicago", now.Add(time.Hour), now)
	err = db.Update(t.Context(), now, func(tx *store.Tx) error {
		c, err := tx.Conversation("test:America/Chicago")
		if err != nil {
			return err
		}
		return tx.Park(c.ID, "blocked")
	})
	if err != nil {
		t.Fatal(err)
	}
	wants("with a chat out of reach", 0, "pings     1 due, 1 parked\n", "1 conversations can't be reached", "overdue   none", "zones     2 in use are known")
	plant("Europe/Atlantis", now.Add(-50*time.Hour), now.Add(48*time.Hour))
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	wants("with all that can be wrong with time", 1, "BAD  overdue   the oldest ping was due 2 days ago", "start larderhand",
		"BAD  clock", `BAD  zones     1 conversations are in "Europe/Atlantis"`)
	if err := os.Chmod(file, 0o644); err != nil {
		t.Fatal(err)
	}
	wants("readable by all", 1, "BAD  owner", "chmod 600")
	if err := os.WriteFile(file, []byte(strings.Repeat("scribble", 1000)), 0o600); err != nil {
		t.Fatal(err)
	}
	wants("scribbled over", 1, "BAD  database", "not a database", "last backup")
}

func TestSumsWorkWithoutAUsableFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "larderhand.db")
	if err := os.WriteFile(file, []byte(strings.Repeat("scribble", 1000)), 0o600); err != nil {
		t.Fatal(err)
	}
	out, errOut, code := chatWith(t, "5 lb juniper 1.5 in\nopen\n5 lb juniper 1.5 in\nbatches\n", simulated(file)...)
	if code != 0 || strings.Count(out, "4.3 g") != 2 {
		t.Errorf("code %d:\n%s", code, out)
	}
	if n := strings.Count(errOut, "damaged"); n != 1 {
		t.Errorf("said %d times:\n%s", n, errOut)
	}
	if !strings.Contains(out, "sums and nothing else") || strings.Contains(out, "is open") {
		t.Errorf("said:\n%s", out)
	}
	body, err := os.ReadFile(file)
	if err != nil || string(body) != strings.Repeat("scribble", 1000) {
		t.Error("the file was changed")
	}
}

// inbox is an operator's chat.
type inbox struct {
	mu   sync.Mutex
	got  []string
	come chan struct{}
}

func (i *inbox) Send(_ context.Context, to store.Address, _ string, r reply.Reply) (string, error) {
	i.mu.Lock()
	i.got = append(i.got, string(to)+" "+r.Text())
	i.mu.Unlock()
	i.come <- struct{}{}
	return "", nil
}

func TestTheOperatorIsToldOnceWhenTheDiskIsFull(t *testing.T) {
	in := &inbox{come: make(chan struct{}, 10)}
	var log bytes.Buffer // written to by this goroutine alone
	a := newAlarm(slog.New(slog.NewTextHandler(&log, &slog.HandlerOptions{Level: slog.LevelWarn})), "telegram:1", in)
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	db, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "full.db"), store.MaxPages(50), store.OnBroken(a.turn))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	fill := func() error {
		return db.Update(t.Context(), time.Now(), func(tx *store.Tx) error {
			return tx.Keep(store.Fact{Name: time.Now().String(), Value: strings.Repeat("x", 3000)})
		})
	}
	for range 200 { // far more than fit
		_ = fill() // the later ones fail
	}
	<-in.come
	if err := db.Update(t.Context(), time.Now(), func(tx *store.Tx) error { return tx.Forget(time.Now()) }); err != nil {
		t.Fatal(err)
	}
	<-in.come
	cancel()
	if err := <-ended; err != nil {
		t.Fatal(err)
	}
	if len(in.got) != 2 || !strings.Contains(in.got[0], "disk is full") || !strings.Contains(in.got[1], "again") {
		t.Errorf("told: %q", in.got)
	}
	if lines := strings.Split(strings.TrimSpace(log.String()), "\n"); len(lines) != 2 || !strings.Contains(lines[0], "disk is full") || !strings.Contains(lines[1], "written again") {
		t.Errorf("the log says:\n%s", &log)
	}
}
