package main

import (
	"flag"
	"os"
	"regexp"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the session in README.md anew")

var session = regexp.MustCompile("(?s)<!-- session: ([^\n]*) -->\n```text\n(.*?)```\n<!-- end of session -->")

// The session shown in README.md is what the program says.
func TestReadmeSession(t *testing.T) {
	const file = "../../README.md"
	readme, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	m := session.FindSubmatchIndex(readme)
	if m == nil {
		t.Fatal("README.md shows no session")
	}
	shown := string(readme[m[4]:m[5]])
	var typed strings.Builder
	for line := range strings.Lines(shown) {
		if said, ok := strings.CutPrefix(line, "> "); ok {
			typed.WriteString(said)
		}
	}
	out, errOut, code := chatWith(t, typed.String(), strings.Fields(string(readme[m[2]:m[3]]))...)
	if code != 0 || errOut != "" {
		t.Fatalf("code %d: %s", code, errOut)
	}
	if *update {
		whole := string(readme[:m[4]]) + strings.TrimRight(out, "\n") + "\n" + string(readme[m[5]:])
		if err := os.WriteFile(file, []byte(whole), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if strings.TrimSpace(out) != strings.TrimSpace(shown) {
		t.Errorf("README.md shows another session than the program has now; run go test ./cmd/larderhand -run Readme -update and read it. It says:\n%s", out)
	}
}
