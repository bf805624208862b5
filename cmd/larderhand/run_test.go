package main

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// chatWith runs the program as a person would who pipes lines into it.
func chatWith(t *testing.T, input string, args ...string) (out, errOut string, code int) {
	t.Helper()
	in := filepath.Join(t.TempDir(), "in")
	if err := os.WriteFile(in, []byte(input), 0o600); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(in)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	var o, e bytes.Buffer
	code = run(t.Context(), args, f, &o, &e)
	return o.String(), e.String(), code
}

func simulated(db string) []string {
	return []string{"--db", db, "--clock", "2027-03-01T09:00:00-06:00", "--zone", "America/Chicago"}
}

func TestScriptedChatEndsWithTheInput(t *testing.T) {
	out, errOut, code := chatWith(t, "5 lb\nopen\nyes\nwait 2d\nflip 1", simulated(":memory:")...)
	if code != 0 || errOut != "" {
		t.Fatalf("code %d, said on standard error: %s", code, errOut)
	}
	for _, want := range []string{"4.3 g", "[Tue 2 Mar 08:00 CST]", "[Wed 3 Mar 08:00 CST]", "flipped, day 2"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in:\n%s", want, out)
		}
	}
	if strings.Index(out, "Tue 2 Mar") > strings.Index(out, "[Wed 3 Mar") {
		t.Error("pings are out of order")
	}
}

// On the real clock "wait" is a word like any other, and input that is no
// terminal still gets its replies.
func TestWaitIsForTheSimulatedClockOnly(t *testing.T) {
	out, _, code := chatWith(t, "5 lb\nwait 1d\n", "--db", ":memory:")
	if code != 0 || !strings.Contains(out, "4.3 g") || !strings.Contains(out, "only a chat started with --clock can wait") {
		t.Errorf("code %d:\n%s", code, out)
	}
}

func TestBatchesOutliveTheProcess(t *testing.T) {
	db := filepath.Join(t.TempDir(), "new", "folder", "talk.db")
	if _, errOut, code := chatWith(t, "open 5 lb\nyes\n", simulated(db)...); code != 0 {
		t.Fatal(errOut)
	}
	if runtime.GOOS != "windows" {
		for path, want := range map[string]os.FileMode{filepath.Dir(db): 0o700, db: 0o600} {
			info, err := os.Stat(path)
			if err != nil || info.Mode().Perm() != want {
				t.Errorf("%s is %v (%v), want %v", path, info.Mode().Perm(), err, want)
			}
		}
	}
	args := simulated(db)
	args[3] = "2027-03-04T10:00:00-06:00"
	out, errOut, code := chatWith(t, "batches\n", args...)
	if code != 0 || !strings.Contains(out, "curing, day 3") {
		t.Errorf("code %d %s:\n%s", code, errOut, out)
	}
	if n := strings.Count(out, "flip it"); n != 1 {
		t.Errorf("three days of silence made %d flip pings, want one that says how late it is:\n%s", n, out)
	}
	if !strings.Contains(out, "late") {
		t.Errorf("a ping two days late does not say so:\n%s", out)
	}
}

func TestBadFlags(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--clock", "noonish"}, "2027-03-01T09:00:00-06:00"},
		{[]string{"--db", ":memory:", "--zone", "Mars/Olympus"}, "Europe/Berlin"},
		{[]string{"--polka"}, "polka"},
		{[]string{"serve", "--db", ":memory:"}, "DISCORD_TOKEN"},
	} {
		t.Setenv("DISCORD_TOKEN", "")
		t.Setenv("TELEGRAM_TOKEN", "")
		_, errOut, code := chatWith(t, "", c.args...)
		if code == 0 || !strings.Contains(errOut, c.want) {
			t.Errorf("%v: code %d: %s", c.args, code, errOut)
		}
	}
}

func TestSecondProcessIsRefused(t *testing.T) {
	db := filepath.Join(t.TempDir(), "talk.db")
	a, err := newApp(t.Context(), db, wallClock{}, machineZone(), nil, logFlags{Log: "error"}.logger(&bytes.Buffer{}))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = a.Close() }()
	_, errOut, code := chatWith(t, "5 lb\n", simulated(db)...)
	if code == 0 || !strings.Contains(errOut, "already using this file") {
		t.Errorf("code %d: %s", code, errOut)
	}
}
