package discord_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"larderhand/bot/discord/discordtest"
)

// asRequests are the talks of which all that goes over the wire is written down, under
// testdata: one in private with pings put off, one in a channel with its settings and
// hours of quiet.
var asRequests = []string{"flip_later_and_early", "setting_quiet_and_away"}

// anyID is what differs from run to run.
var anyID = regexp.MustCompile(`\d{17,20}`)

// written is what an adapter asked of the platform, but for what it asked to know.
func written(t testing.TB, list []discordtest.Request) []byte {
	t.Helper()
	var out bytes.Buffer
	for _, r := range list {
		if r.Method == "GET" || strings.HasSuffix(r.Route, "/commands") {
			continue
		}
		out.WriteString(r.Method + " " + r.Route + "\n")
		if len(r.Body) > 0 {
			if err := json.Indent(&out, r.Body, "", "  "); err != nil {
				t.Fatal(err)
			}
			out.WriteByte('\n')
		}
		out.WriteByte('\n')
	}
	return anyID.ReplaceAll(out.Bytes(), []byte("ID"))
}

// asWrittenDown compares with a file of testdata, or writes it.
func asWrittenDown(t testing.TB, file string, got []byte) {
	t.Helper()
	file = filepath.Join("testdata", file)
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(got, want) {
		return
	}
	at, is, was := 0, strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
	for at < min(len(is), len(was)) && is[at] == was[at] {
		at++
	}
	t.Errorf("the requests differ from %s from line %d on; run with -update and read the difference. There it says\n%s\nand now\n%s",
		file, at+1, strings.Join(was[at:min(at+12, len(was))], "\n"), strings.Join(is[at:min(at+12, len(is))], "\n"))
}
