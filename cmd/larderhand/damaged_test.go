package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"larderhand/bot/telegram/telegramtest"
)

// On a file that cannot be used the program as released goes on answering sums, says
// what is wrong once in the log and once to its operator, and leaves the file alone.
func TestServeOnADamagedFile(t *testing.T) {
	path := binary(t)
	tg := telegramtest.New(t, telegramtest.WithPatience(time.Minute))
	tobias, ines := tg.User("Tobias"), tg.User("Ines")
	office, kitchen := tg.Private(tobias), tg.Private(ines)
	file, scribble := filepath.Join(t.TempDir(), "club.db"), strings.Repeat("scribble", 1000)
	if err := os.WriteFile(file, []byte(scribble), 0o600); err != nil {
		t.Fatal(err)
	}
	office.Start(tobias, "") // a bot may not speak first
	c := serve(t, path, "TELEGRAM_TOKEN="+tg.Token(), "TELEGRAM_API_URL="+tg.URL(), "LARDERHAND_DB="+file, "LARDERHAND_ZONE=Europe/Berlin",
		fmt.Sprintf("LARDERHAND_OPERATOR=telegram:%d", office.ID()))
	office.AwaitText("damaged")
	for range 3 {
		if m := kitchen.AwaitAfter(kitchen.Say(ines, "5 lb juniper 1.5 in")); !strings.Contains(m.Text, "4.3 g") {
			t.Errorf("the sum reads:\n%s", m.Text)
		}
		if m := kitchen.AwaitAfter(kitchen.Say(ines, "batches")); !strings.Contains(m.Text, "can't") {
			t.Errorf("the batches read:\n%s", m.Text)
		}
	}
	code, log := c.term()
	if code != 0 {
		t.Errorf("it ended with %d", code)
	}
	if n := strings.Count(log, "damaged"); n != 1 {
		t.Errorf("the log says %d times that it is damaged:\n%s", n, log)
	}
	if n := strings.Count(office.Transcript(), "damaged"); n != 1 {
		t.Errorf("the operator reads it %d times:\n%s", n, office.Transcript())
	}
	if body, err := os.ReadFile(file); err != nil || string(body) != scribble {
		t.Errorf("the file was changed, %v", err)
	}
}
