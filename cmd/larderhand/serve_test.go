package main

import (
	"bytes"
	"context"
	"database/sql"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"larderhand/bot/telegram/telegramtest"
)

// binary builds the program as it is released.
func binary(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("builds the program without the race detector, so under it there is nothing to find; the run without -short does it")
	}
	path := filepath.Join(t.TempDir(), "larderhand")
	if out, err := exec.CommandContext(t.Context(), "go", "build", "-o", path, ".").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	return path
}

// child is the program at work.
type child struct {
	t   *testing.T
	cmd *exec.Cmd
	err bytes.Buffer
}

func serve(t *testing.T, path string, env ...string) *child {
	t.Helper()
	c := &child{t: t, cmd: exec.Command(path, "serve")}
	c.cmd.Dir = t.TempDir() // no .env there
	c.cmd.Env = append(env, "LARDERHAND_LOG=info", "PATH="+os.Getenv("PATH"), "HOME="+t.TempDir())
	c.cmd.Stderr = &c.err
	if err := c.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = c.cmd.Process.Kill(); _ = c.cmd.Wait() })
	return c
}

// term asks the program to end and gives its exit code and what it logged.
func (c *child) term() (int, string) {
	c.t.Helper()
	if err := c.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		c.t.Fatal(err)
	}
	return c.wait()
}

func (c *child) wait() (int, string) {
	c.t.Helper()
	over := make(chan error, 1)
	go func() { over <- c.cmd.Wait() }()
	select {
	case <-over:
	case <-time.After(30 * time.Second):
		c.t.Fatalf("the program does not end:\n%s", &c.err)
	}
	return c.cmd.ProcessState.ExitCode(), c.err.String()
}

// From the first message in a group's topic to the first ping there and its flip,
// over two runs of the program.
func TestServeTelegram(t *testing.T) {
	path := binary(t)
	tg := telegramtest.New(t)
	db := filepath.Join(t.TempDir(), "club.db")
	env := []string{"TELEGRAM_TOKEN=" + tg.Token(), "TELEGRAM_API_URL=" + tg.URL(), "LARDERHAND_DB=" + db, "LARDERHAND_ZONE=Europe/Berlin"}
	c := serve(t, path, env...)
	ines := tg.User("Ines")
	club := tg.Forum("Quarry Lane Smokehouse Club", ines)
	bellies := club.NewTopic(ines, "Bellies")
	ask := func(text string) telegramtest.Message {
		t.Helper()
		return bellies.AwaitAfter(bellies.Say(ines, text))
	}
	if got := ask("/cure@" + tg.Username() + " 5 lb juniper 1.5 in"); !strings.Contains(got.Text, "4.3 g") || got.Thread != bellies.Thread() {
		t.Errorf("the cure reads %q in topic %d", got.Text, got.Thread)
	}
	confirm := ask("/open@" + tg.Username())
	bellies.Press(ines, confirm, "Yes, I weigh it").Await()
	bellies.AwaitText("is open, in the cure")
	tg.AwaitConfirmed()
	if code, log := c.term(); code != 0 || strings.Contains(log, "level=ERROR") {
		t.Fatalf("it ended with %d:\n%s", code, log)
	}
	makeDue(t, db)
	health := freeAddress(t)
	c = serve(t, path, append(env, "LARDERHAND_HEALTH="+health)...)
	ping := bellies.AwaitText("flip it")
	bellies.Press(ines, ping, "Flipped 1").Await()
	if flipped := bellies.AwaitEdit(ping); !strings.Contains(flipped.Text, "flipped") {
		t.Errorf("after the press the ping reads %q", flipped.Text)
	}
	for path, want := range map[string]string{"/live": "alive\n", "/ready": "ready\n",
		"/metrics": `larderhand_messages_sent_total{platform="telegram"} 1` + "\n"} {
		if code, body := fetch(t, health, path); code != http.StatusOK || !strings.Contains(body, want) {
			t.Errorf("%s gives %d and not %q:\n%s", path, code, want, body)
		}
	}
	code, log := c.term()
	if code != 0 || strings.Contains(log, "level=ERROR") {
		t.Errorf("it ended with %d:\n%s", code, log)
	}
	if secret := tg.Token(); strings.Contains(log, secret) {
		t.Errorf("the token is in the log:\n%s", log)
	}
	if n := strings.Count(bellies.Transcript(), "is open, in the cure"); n != 1 {
		t.Errorf("the batch was opened %d times:\n%s", n, bellies.Transcript())
	}
}

// freeAddress is one nobody listens on.
func freeAddress(t *testing.T) string {
	t.Helper()
	l, err := new(net.ListenConfig).Listen(t.Context(), "tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = l.Close() }()
	return l.Addr().String()
}

// fetch asks the program how it is.
func fetch(t *testing.T, addr, path string) (int, string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Second)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+addr+path, nil)
	if err != nil {
		t.Fatal(err)
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = resp.Body.Close() }()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	return resp.StatusCode, string(body)
}

// makeDue moves what is planned to the past, as if the night had gone by.
func makeDue(t *testing.T, file string) {
	t.Helper()
	db, err := sql.Open("sqlite", "file:"+file)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	res, err := db.Exec("UPDATE chore SET try_at = ?1, due_at = ?1 WHERE state = 'due' AND kind = 'flip'", time.Now().Add(-time.Minute).UnixMilli())
	if err != nil {
		t.Fatal(err)
	}
	if n, _ := res.RowsAffected(); n == 0 {
		t.Fatal("no flip is planned")
	}
}

// A token the platform does not know ends the program with one clear line.
func TestServeWithABadToken(t *testing.T) {
	tg := telegramtest.New(t)
	t.Setenv("TELEGRAM_TOKEN", "1:nobody")
	t.Setenv("TELEGRAM_API_URL", tg.URL())
	_, errOut, code := chatWith(t, "", "serve", "--db", ":memory:")
	if code != 1 || !strings.Contains(errOut, "TELEGRAM_TOKEN is not accepted") || strings.Contains(errOut, "1:nobody") {
		t.Errorf("it ended with %d and said:\n%s", code, errOut)
	}
}

func TestServeNamesTheVariableThatIsWrong(t *testing.T) {
	for variable, value := range map[string]string{"TELEGRAM_API_URL": "127.0.0.1:8081", "TELEGRAM_WEBHOOK_URL": "bot", "TELEGRAM_WEBHOOK_SECRET": "not allowed!", "TELEGRAM_TOKEN": ""} {
		t.Run(variable, func(t *testing.T) {
			t.Setenv("TELEGRAM_TOKEN", "1:nobody")
			t.Setenv(variable, value)
			if _, errOut, code := chatWith(t, "", "serve", "--db", ":memory:"); code == 0 || !strings.Contains(errOut, variable) {
				t.Errorf("code %d: %s", code, errOut)
			}
		})
	}
}
