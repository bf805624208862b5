package telegram_test

import (
	"bytes"
	"context"
	"crypto/rand"
	"fmt"
	"log/slog"
	"net/http"
	"os"
	"strings"
	"sync"
	"testing"
	"time"
	_ "time/tzdata"

	"larderhand/bot"
	"larderhand/bot/ledger"
	"larderhand/bot/reply"
	"larderhand/bot/telegram"
	"larderhand/bot/telegram/telegramtest"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

var tally telegramtest.Tally

// patience is how long a test waits for what ought to happen at once; on a busy
// machine it may take a while.
const patience = 30 * time.Second

func TestMain(m *testing.M) { os.Exit(tally.Run(m)) }

func fake(t testing.TB, opts ...telegramtest.Option) *telegramtest.Server {
	t.Helper()
	return telegramtest.New(t, append([]telegramtest.Option{telegramtest.WithTally(&tally)}, opts...)...)
}

// rig is an adapter at work on a fake, with the real bot and store behind it.
type rig struct {
	t    testing.TB
	tg   *telegramtest.Server
	db   *store.DB
	bot  telegram.Bot
	a    *telegram.Adapter
	log  *logs
	stop func() error // ends Run and gives its error

	mu      sync.Mutex
	handled map[string]int
	changed chan struct{}
}

type machine struct{}

func (machine) Now() time.Time { return time.Now() }

func realBot(t testing.TB, db *store.DB, roll bot.Roll, clock bot.Clock, log *slog.Logger) *bot.Bot {
	t.Helper()
	rules, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	return bot.New(bot.Config{Ledger: ledger.Ledger{DB: db}, Clock: clock, Zone: time.UTC, Log: log, Rules: rules, Code: rand.Text, Roll: roll})
}

// prepare sets a rig up without starting it. change, if given, changes its parts.
func prepare(t testing.TB, tg *telegramtest.Server, db *store.DB, change ...func(*telegram.Config, *telegram.Adapter)) *rig {
	t.Helper()
	if db == nil {
		var err error
		if db, err = store.Open(context.Background(), store.Memory); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { _ = db.Close() })
	}
	r := &rig{t: t, tg: tg, db: db, log: &logs{}, handled: map[string]int{}, changed: make(chan struct{})}
	log := slog.New(slog.NewTextHandler(r.log, &slog.HandlerOptions{Level: slog.LevelInfo}))
	cfg := telegram.Config{Token: tg.Token(), APIURL: tg.URL()}
	for _, c := range change {
		c(&cfg, nil)
	}
	r.a = telegram.New(cfg)
	r.bot = realBot(t, db, r.a, machine{}, log)
	r.a.Parts = telegram.Parts{Bot: r.bot, Keep: store.Keeper{DB: db}, Places: db, Now: time.Now, Log: log, Handled: r.note}
	for _, c := range change {
		c(&cfg, r.a)
	}
	return r
}

// start runs the adapter until the test ends.
func (r *rig) start() *rig {
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- r.a.Run(ctx) }()
	var once sync.Once
	var err error
	r.stop = func() error {
		once.Do(func() { cancel(); err = <-done })
		return err
	}
	r.t.Cleanup(func() {
		if err := r.stop(); err != nil {
			r.t.Errorf("run: %v", err)
		}
		if r.t.Failed() {
			r.t.Log(r.log.String())
		}
	})
	return r
}

func run(t testing.TB, tg *telegramtest.Server, change ...func(*telegram.Config, *telegram.Adapter)) *rig {
	t.Helper()
	return prepare(t, tg, nil, change...).start()
}

func (r *rig) note(event string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.handled[event]++
	close(r.changed)
	r.changed = make(chan struct{})
}

// settle waits until everything said so far has been taken in and dealt with.
func (r *rig) settle() {
	r.t.Helper()
	r.tg.AwaitConfirmed()
	late := time.After(patience)
	for {
		r.mu.Lock()
		changed := r.changed
		r.mu.Unlock()
		left, err := store.Keeper{DB: r.db}.List(context.Background(), "telegram:7000000001:update:")
		if err != nil {
			r.t.Fatal(err)
		}
		if len(left) == 0 {
			return
		}
		select {
		case <-changed:
		case <-late:
			r.t.Fatalf("%d updates are not dealt with\n%s", len(left), r.log)
		}
	}
}

// tick has said what is due at an instant.
func (r *rig) tick(at time.Time) {
	r.t.Helper()
	b, ok := r.bot.(*bot.Bot)
	if !ok {
		r.t.Fatal("no real bot to compose pings")
	}
	s := &scheduler.Scheduler{Due: r.db, Reach: r.db, Deliver: bot.Deliverer{Bot: b, Sender: r.a}, Lease: rand.Text, Log: r.a.Log}
	if _, err := s.Tick(context.Background(), at); err != nil {
		r.t.Fatal(err)
	}
}

// parked says why a conversation is parked, "" if it is not.
func (r *rig) parked(a store.Address) string {
	r.t.Helper()
	var why string
	err := r.db.View(context.Background(), time.Now(), func(tx *store.Tx) error {
		c, err := tx.Conversation(a)
		why = c.Parked
		return err
	})
	if err != nil {
		r.t.Fatalf("conversation %s: %v", a, err)
	}
	return why
}

// openBatch opens a batch by what a person types, in a room where lead comes before
// each command.
func (r *rig) openBatch(room *telegramtest.Room, who *telegramtest.User) {
	r.t.Helper()
	for _, line := range []string{"/open@", "/yes@"} {
		text := line + r.tg.Username()
		if line == "/open@" {
			text += " 5 lb juniper 1.5 in"
		}
		room.Say(who, text)
		r.settle()
	}
	room.AwaitText("is open, in the cure")
}

// last is the newest thing the bot said in a room.
func last(t testing.TB, room *telegramtest.Room) telegramtest.Message {
	t.Helper()
	list := room.FromBot()
	if len(list) == 0 {
		t.Fatal("the bot has said nothing")
	}
	return list[len(list)-1]
}

// pinged is the newest message of a room, which has to be a ping for a flip.
func pinged(t testing.TB, room *telegramtest.Room) telegramtest.Message {
	t.Helper()
	m := last(t, room)
	if _, ok := m.Button("Flipped 1"); !ok {
		t.Fatalf("the last message is no ping:\n%s", m)
	}
	return m
}

// logs is what was logged.
type logs struct {
	mu    sync.Mutex
	b     bytes.Buffer
	grown chan struct{} // closed when there is more
}

func (l *logs) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.grown != nil {
		close(l.grown)
		l.grown = nil
	}
	return l.b.Write(p)
}

// await waits until a text was logged so many times.
func (l *logs) await(t testing.TB, text string, times int) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	for {
		l.mu.Lock()
		if strings.Count(l.b.String(), text) >= times {
			l.mu.Unlock()
			return
		}
		if l.grown == nil {
			l.grown = make(chan struct{})
		}
		grown := l.grown
		l.mu.Unlock()
		select {
		case <-grown:
		case <-ctx.Done():
			t.Fatalf("%q was not logged %d times:\n%s", text, times, l)
		}
	}
}

func (l *logs) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// post makes a call of the platform's own, as an operator might by hand.
func post(t testing.TB, tg *telegramtest.Server, method, body string) {
	t.Helper()
	resp, err := http.Post(tg.URL()+"/bot"+tg.Token()+"/"+method, "application/json", strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	_ = resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		t.Fatalf("%s: %s", method, resp.Status)
	}
}

// longReply takes several messages.
func longReply() reply.Reply {
	var r reply.Reply
	for i := range 200 {
		r.Say(fmt.Sprintf("line %d: ", i), reply.B("batch"), " curing, nothing to do; ", reply.Type(fmt.Sprintf("batch %d", i)))
	}
	r.Par("the end")
	return r
}
