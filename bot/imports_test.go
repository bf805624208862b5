package bot_test

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

type listed struct {
	ImportPath                         string
	Imports, TestImports, XTestImports []string
}

// list reads what go list says of every package of the module.
func list(t *testing.T) []listed {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), "go", "list", "-json=ImportPath,Imports,TestImports,XTestImports", "larderhand/...")
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var all []listed
	dec := json.NewDecoder(strings.NewReader(string(out)))
	for {
		var p listed
		err := dec.Decode(&p)
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

func under(path string, folders ...string) bool {
	return slices.ContainsFunc(folders, func(f string) bool {
		f = "larderhand/" + f
		return path == f || strings.HasPrefix(path, f+"/")
	})
}

func standard(path string) bool {
	first, _, _ := strings.Cut(path, "/")
	return !strings.Contains(first, ".") && first != "larderhand"
}

// chatLibraries may be used in their own adapter only.
var chatLibraries = map[string]string{
	"github.com/bwmarrin/discordgo":                      "bot/discord",
	"github.com/go-telegram-bot-api/telegram-bot-api/v5": "bot/telegram",
}

// testOnly are packages that only tests may import.
var testOnly = []string{"bot/convtest", "bot/adaptertest", "bot/adaptertest/tally", "store/storetest", "bot/discord/discordtest", "bot/telegram/telegramtest"}

// rules says why a package may not import a path; "" means that it may.
func rule(pkg, path string) string {
	adapters := []string{"bot/discord", "bot/telegram", "bot/terminal"}
	switch {
	case under(pkg, "curemath"):
		if !standard(path) && !under(path, "curemath") && !strings.HasPrefix(path, "gonum.org/v1/gonum") ||
			slices.Contains([]string{"context", "database/sql", "net", "net/http", "os", "os/exec", "log", "log/slog", "math/rand"}, path) {
			return "curemath is pure: standard library and gonum, no I/O"
		}
	case under(pkg, "store") && under(path, "bot", "scheduler", "cmd"):
		return "store knows neither bot nor scheduler"
	case slices.Contains([]string{"larderhand/scheduler/plan", "larderhand/scheduler/safely"}, pkg) && !standard(path):
		return "scheduler/plan and scheduler/safely are standard library only"
	case under(pkg, "scheduler") && under(path, "bot", "cmd"):
		return "scheduler reaches the bot through its ports"
	case under(pkg, adapters...) && under(path, "store", "scheduler") && path != "larderhand/store":
		return "an adapter knows only bot, reply and the store's records"
	case under(pkg, "bot") && !under(pkg, adapters...) && !under(pkg, "bot/convtest") && under(path, adapters...):
		return "the bot knows no adapter"
	}
	for _, a := range adapters {
		for _, b := range adapters {
			if a != b && under(pkg, a) && under(path, b) {
				return "an adapter knows no other adapter"
			}
		}
	}
	if home, ok := chatLibraries[path]; ok && !under(pkg, home) {
		return "a chat library stays in its adapter"
	}
	if path == "larderhand/cmd/larderhand" {
		return "nobody imports the command"
	}
	return ""
}

func TestImportRules(t *testing.T) {
	all := list(t)
	if len(all) < 10 {
		t.Fatalf("only %d packages listed", len(all))
	}
	for _, p := range all {
		for _, path := range p.Imports {
			if why := rule(p.ImportPath, path); why != "" {
				t.Errorf("%s imports %s: %s", p.ImportPath, path, why)
			}
			if under(path, testOnly...) && !under(p.ImportPath, testOnly...) {
				t.Errorf("%s imports %s, which is for tests", p.ImportPath, path)
			}
		}
	}
}

// The rules must be able to fail.
func TestImportRulesBite(t *testing.T) {
	for _, bad := range [][2]string{
		{"larderhand/curemath", "database/sql"},
		{"larderhand/curemath", "larderhand/store"},
		{"larderhand/store", "larderhand/bot"},
		{"larderhand/scheduler/plan", "larderhand/store"},
		{"larderhand/scheduler/safely", "larderhand/store"},
		{"larderhand/scheduler", "larderhand/bot/reply"},
		{"larderhand/bot", "larderhand/bot/terminal"},
		{"larderhand/bot", "github.com/bwmarrin/discordgo"},
		{"larderhand/bot/discord", "larderhand/bot/telegram"},
		{"larderhand/bot/terminal", "larderhand/scheduler"},
	} {
		if rule(bad[0], bad[1]) == "" {
			t.Errorf("%s may import %s", bad[0], bad[1])
		}
	}
}
