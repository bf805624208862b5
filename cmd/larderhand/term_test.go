package main

import (
	"context"
	"database/sql"
	"net"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"larderhand/bot/telegram/telegramtest"
)

// Asked to end with a ping on its way, the program waits for it as long as the
// platform answers in time, and records it; a ping never answered holds it up for a
// bounded while and comes in the next life. Either way it arrives once. A second
// process on the file meanwhile is refused with one clear line.
func TestTermFinishesWhatIsOnItsWay(t *testing.T) {
	path := binary(t)
	for name, c := range map[string]struct {
		trouble telegramtest.Trouble
		becomes string
	}{"answered in time": {telegramtest.Hold(), "sent"}, "never answered": {telegramtest.Hang(), "retry"}} {
		trouble, becomes := c.trouble, c.becomes
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			tg := telegramtest.New(t, telegramtest.WithPatience(time.Minute))
			db, health := filepath.Join(t.TempDir(), "club.db"), freeAddress(t)
			env := []string{"TELEGRAM_TOKEN=" + tg.Token(), "TELEGRAM_API_URL=" + tg.URL(), "LARDERHAND_DB=" + db, "LARDERHAND_ZONE=Europe/Berlin", "LARDERHAND_HEALTH=" + health}
			ines := tg.User("Ines")
			room := tg.Private(ines)
			c := serve(t, path, env...)
			for _, line := range []string{"open 5 lb juniper 1.5 in", "yes"} {
				room.AwaitAfter(room.Say(ines, line))
			}
			tg.AwaitConfirmed()
			if code, log := c.term(); code != 0 {
				t.Fatalf("it ended with %d:\n%s", code, log)
			}
			makeDue(t, db)
			ping := tg.Inject("sendMessage", 1, trouble)
			c = serve(t, path, env...)
			ping.AwaitHits(1)
			second := serve(t, path, env...)
			if code, log := second.wait(); code == 0 || !strings.Contains(log, "another larderhand is already using this file: "+db) || strings.Count(log, "\n") > 1 {
				t.Errorf("a second process ended with %d:\n%s", code, log)
			}
			if err := c.cmd.Process.Signal(syscall.SIGTERM); err != nil {
				t.Fatal(err)
			}
			refused(t, health) // it has heard
			if becomes == "sent" {
				ping.Release()
			}
			if code, log := c.wait(); code != 0 || strings.Contains(log, "level=ERROR") {
				t.Errorf("it ended with %d:\n%s", code, log)
			}
			if got := flipIs(t, db); got != becomes {
				t.Errorf("the ping is recorded as %s, want %s", got, becomes)
			}
			c = serve(t, path, env...)
			room.AwaitText("flip it")
			room.AwaitAfter(room.Say(ines, "batch 1"))
			if code, log := c.term(); code != 0 {
				t.Errorf("the next life ended with %d:\n%s", code, log)
			}
			if n := strings.Count(room.Transcript(), "flip it."); n != 1 {
				t.Errorf("the ping came %d times:\n%s", n, room.Transcript())
			}
		})
	}
}

// flipIs is the state of the first flip ping there was.
func flipIs(t *testing.T, file string) (state string) {
	t.Helper()
	db, err := sql.Open("sqlite", "file:"+file)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	if err := db.QueryRow("SELECT state FROM chore WHERE kind = 'flip' ORDER BY id LIMIT 1").Scan(&state); err != nil {
		t.Fatal(err)
	}
	return state
}

// refused waits until nobody listens at an address any more.
func refused(t *testing.T, addr string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	defer cancel()
	for {
		conn, err := new(net.Dialer).DialContext(ctx, "tcp", addr)
		if ctx.Err() != nil {
			t.Fatal("it goes on listening")
		}
		if err != nil {
			return
		}
		_ = conn.Close()
		select {
		case <-ctx.Done():
		case <-time.After(20 * time.Millisecond): // a process of its own tells of nothing
		}
	}
}
