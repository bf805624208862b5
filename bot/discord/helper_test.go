package discord_test

import (
	"bytes"
	"context"
	"encoding/json"
	"log/slog"
	"net/http"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"larderhand/bot/discord"
	"larderhand/bot/discord/discordtest"
	"larderhand/store"
)

func TestMain(m *testing.M) { os.Exit(discordtest.Main(m)) }

// facts is a Keep in memory, which outlives an adapter as a database would.
type facts struct {
	mu sync.Mutex
	m  map[string]string
}

func (f *facts) Get(_ context.Context, name string) (string, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	v, ok := f.m[name]
	if !ok {
		return "", store.ErrNotFound
	}
	return v, nil
}

func (f *facts) Put(_ context.Context, list ...store.Fact) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.m == nil {
		f.m = map[string]string{}
	}
	for _, x := range list {
		f.m[x.Name] = x.Value
	}
	return nil
}

// patience is how long anything is waited for: long, since the machine may be busy.
const patience = time.Minute

// club is the scene: a server with two channels and three members.
type club struct {
	s                   *discordtest.Server
	guild               *discordtest.Guild
	curing, elsewhere   *discordtest.Channel
	ines, tobias, marit *discordtest.Person
}

func newClub(t testing.TB, opts ...discordtest.Option) *club {
	t.Helper()
	c := &club{s: discordtest.New(t, append([]discordtest.Option{discordtest.WithPatience(patience)}, opts...)...)}
	c.guild = c.s.AddGuild("Quarry Lane Smokehouse Club", discordtest.BotPermissions(invited))
	c.curing, c.elsewhere = c.guild.AddChannel("curing"), c.guild.AddChannel("elsewhere")
	c.ines, c.tobias, c.marit = c.s.AddPerson("Ines"), c.s.AddPerson("Tobias"), c.s.AddPerson("Marit")
	for _, p := range []*discordtest.Person{c.ines, c.tobias, c.marit} {
		c.guild.Join(p)
	}
	return c
}

// invited is what the invite link of the README asks for.
const invited = discordtest.Permissions(309237681152)

// running is an adapter at work.
type running struct {
	*discord.Adapter
	done chan string // events dealt with
	stop func()      // ends it and waits
	logs *logs
}

type option func(*discord.Config, *discord.Parts)

// start runs an adapter until the test ends.
func start(t testing.TB, c *club, b discord.Bot, opts ...option) *running {
	t.Helper()
	cfg := discord.Config{Token: c.s.Token(), APIURL: c.s.URL(), Shards: 1,
		Patience: discord.Patience{Open: 5 * time.Second, Close: time.Millisecond, Back: time.Millisecond}, Ack: time.Minute}
	r := &running{done: make(chan string, 1000), logs: &logs{}}
	parts := discord.Parts{Bot: b, Keep: &facts{}, Now: time.Now, Handled: func(id string) { r.done <- id },
		Log: slog.New(slog.NewTextHandler(r.logs, &slog.HandlerOptions{Level: slog.LevelDebug}))}
	for _, o := range opts {
		o(&cfg, &parts)
	}
	a, err := discord.New(cfg)
	if err != nil {
		t.Fatal(err)
	}
	a.Parts, r.Adapter = parts, a
	ctx, cancel := context.WithCancel(context.Background())
	ended, before := make(chan error, 1), len(c.s.Identifies())
	go func() { ended <- a.Run(ctx) }()
	var once sync.Once
	r.stop = func() {
		once.Do(func() {
			cancel()
			if err := <-ended; err != nil {
				t.Errorf("run: %v", err)
			}
		})
	}
	t.Cleanup(func() {
		r.stop()
		if s := r.logs.String(); strings.Contains(s, c.s.Token()) {
			t.Errorf("the token is in the log:\n%s", s)
		} else if t.Failed() {
			t.Log(s)
		}
	})
	c.s.WaitIdentifies(before + 1)
	c.s.Gateway().WaitReady()
	c.s.WaitCommands()
	return r
}

// until waits for the adapter to be done with an event.
func (r *running) until(t testing.TB, id string) {
	t.Helper()
	late := time.NewTimer(patience)
	defer late.Stop()
	for {
		select {
		case got := <-r.done:
			if got == id {
				return
			}
		case <-late.C:
			t.Fatalf("the adapter is not done with event %s", id)
		}
	}
}

// logs keeps what was logged.
type logs struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *logs) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *logs) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

func at(c *discordtest.Channel) store.Address { return discord.Address(c.ID) }

// postRaw posts a message in the bot's name that the adapter did not make.
func postRaw(t testing.TB, c *club, body map[string]any) {
	t.Helper()
	raw, err := json.Marshal(body)
	if err != nil {
		t.Fatal(err)
	}
	req, err := http.NewRequest(http.MethodPost, c.s.URL()+"/api/v9/channels/"+c.curing.ID+"/messages", bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Authorization", "Bot "+c.s.Token())
	req.Header.Set("User-Agent", "DiscordBot (test, 1)")
	req.Header.Set("Content-Type", "application/json")
	res, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = res.Body.Close() }()
	if res.StatusCode != http.StatusOK {
		t.Fatalf("post: %s", res.Status)
	}
}
