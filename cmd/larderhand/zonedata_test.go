package main

import (
	"bytes"
	bits "encoding/binary"
	"log/slog"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/scheduler"
)

// zoneFile is the data of a zone that is always so far ahead of UTC (RFC 8536,
// version 1: a header with six counts, one type of local time, its name).
func zoneFile(ahead time.Duration) []byte {
	var b bytes.Buffer
	b.WriteString("TZif")
	b.Write(make([]byte, 16)) // version 1, reserved
	for _, n := range []uint32{0, 0, 0, 0, 1, 4} {
		_ = bits.Write(&b, bits.BigEndian, n) // cannot fail
	}
	_ = bits.Write(&b, bits.BigEndian, int32(ahead/time.Second))
	b.WriteString("\x00\x00TST\x00") // no summer time; its name begins at 0
	return b.Bytes()
}

// The rules of a zone change while the program runs: the next daily upkeep plans all
// by the new ones.
func TestNewRulesOfAZoneUnderTheProgram(t *testing.T) {
	dir := os.Getenv("ZONEINFO") // read once in the life of a process, so this needs one of its own
	if os.Getenv("LARDERHAND_TEST_ZONES") == "" {
		dir = t.TempDir()
		cmd := exec.CommandContext(t.Context(), os.Args[0], "-test.run=^"+t.Name()+"$", "-test.v")
		cmd.Env = append(os.Environ(), "LARDERHAND_TEST_ZONES=yes", "ZONEINFO="+dir)
		out, err := cmd.CombinedOutput()
		if err != nil || !bytes.Contains(out, []byte("--- PASS")) {
			t.Errorf("%v\n%s", err, out)
		}
		return
	}
	write := func(ahead time.Duration) {
		t.Helper()
		if err := os.MkdirAll(filepath.Join(dir, "Europe"), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "Europe", "Berlin"), zoneFile(ahead), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write(time.Hour)
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	clock := &scheduler.HandClock{At: time.Date(2027, 7, 1, 9, 0, 0, 0, time.UTC)}
	log := slog.New(slog.DiscardHandler)
	a, err := newApp(t.Context(), filepath.Join(t.TempDir(), "a.db"), clock, berlin, senders{}, log)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = a.Close() })
	for _, line := range []string{"open 5 lb juniper 1.5 in", "yes"} {
		a.bot.Handle(t.Context(), bot.Message{Conversation: "test:1", Direct: true, Sender: bot.Person{Key: "ines", Name: "Ines", Admin: true}, Text: line})
	}
	u := upkeep{db: a.db, bot: a.bot, log: log}
	check := func(when string, hour int) {
		t.Helper()
		if err := u.Daily(t.Context(), clock.At); err != nil {
			t.Fatal(err)
		}
		next, err := a.db.Upcoming(t.Context())
		if want := time.Date(2027, 7, 2, hour, 0, 0, 0, time.UTC); err != nil || !next["test"].Equal(want) {
			t.Errorf("%s: eight in the morning is %v, want %v (%v)", when, next["test"], want, err)
		}
		// A chat that is new has the usual zone, and that by the new rules too.
		if got := clock.At.In(a.bot.ZoneOf(t.Context(), "test:2")).Hour(); got != 9+8-hour {
			t.Errorf("%s: a new chat's clock says %d", when, got)
		}
	}
	check("an hour ahead", 7)
	write(2 * time.Hour)
	check("two hours ahead", 6)
	write(3 * time.Hour)
	check("three hours ahead", 5)
}
