package discord_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"time"
)

// What goes over the wire, written down: an answer on a card, a form, a private
// refusal, a ping and an answer in place. Ids differ from run to run and are left
// out.
func TestRequestsAreAsWrittenDown(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.slash(here, "cure", opt("weight", "5 lb"), opt("thickness", "1.5 in"), opt("flavouring", "*juniper* @everyone"))
	here.Slash("open").WaitForm()
	l.slash(here, "flip", opt("batch", "7"))
	l.open(here, "5 lb juniper 1.5 in")
	l.slash(l.tobias.At(l.curing), "batches")
	l.pass(23 * time.Hour)
	l.press(here, here.WaitText("flip it"), "Flipped 1")

	var got bytes.Buffer
	for _, r := range l.s.Requests("POST", "") {
		var body bytes.Buffer
		if err := json.Indent(&body, r.Body, "", "  "); err != nil {
			t.Fatal(err)
		}
		got.WriteString(r.Method + " " + r.Route + "\n" + body.String() + "\n\n")
	}
	clean := regexp.MustCompile(`\d{17,20}|"nonce": "[A-Z0-9]+"`).ReplaceAll(got.Bytes(), []byte("ID"))
	file := filepath.Join("testdata", "requests.txt")
	if *update {
		if err := os.WriteFile(file, clean, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(clean, want) {
		t.Errorf("the requests differ from %s; run with -update and read the difference. They are:\n%s", file, clean)
	}
}
