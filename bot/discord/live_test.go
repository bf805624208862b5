package discord_test

import (
	"context"
	"fmt"
	"log/slog"
	"path/filepath"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/discord"
	"larderhand/bot/discord/discordtest"
	"larderhand/bot/ledger"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

// live is the club with the real bot over a real store, its adapter at work and
// its scheduler ticking when told to.
type live struct {
	*club
	t     testing.TB
	file  string
	db    *store.DB
	bot   *bot.Bot
	run   *running
	sched *scheduler.Scheduler
	lease int
	gate  *gate
}

// gate is a ledger that can be held shut, as a slow store would hold everyone up.
type gate struct {
	bot.Ledger
	shut atomic.Pointer[chan struct{}]
}

func (g *gate) pass(ctx context.Context) error {
	if c := g.shut.Load(); c != nil {
		select {
		case <-*c:
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return nil
}

func (g *gate) Update(ctx context.Context, now time.Time, fn func(bot.Tx) error) error {
	if err := g.pass(ctx); err != nil {
		return err
	}
	return g.Ledger.Update(ctx, now, fn)
}

func (g *gate) View(ctx context.Context, now time.Time, fn func(bot.Tx) error) error {
	if err := g.pass(ctx); err != nil {
		return err
	}
	return g.Ledger.View(ctx, now, fn)
}

// hold shuts the store; the function it gives back opens it again.
func (g *gate) hold() func() {
	c := make(chan struct{})
	g.shut.Store(&c)
	return func() { g.shut.Store(nil); close(c) }
}

func newLive(t testing.TB, opts ...option) *live {
	t.Helper()
	return liveIn(t, newClub(t), opts...)
}

func liveIn(t testing.TB, c *club, opts ...option) *live {
	t.Helper()
	l := &live{club: c, t: t, file: filepath.Join(t.TempDir(), "club.db")}
	l.load()
	l.begin(opts...)
	return l
}

// load opens the store and makes a bot over it, as a process does at its start.
func (l *live) load() {
	l.t.Helper()
	db, err := store.Open(context.Background(), l.file)
	if err != nil {
		l.t.Fatal(err)
	}
	l.t.Cleanup(func() { _ = db.Close() })
	rules, err := curemath.LoadRules()
	if err != nil {
		l.t.Fatal(err)
	}
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		l.t.Fatal(err)
	}
	l.db, l.gate = db, &gate{Ledger: ledger.Ledger{DB: db}}
	l.bot = bot.New(bot.Config{Ledger: l.gate, Clock: l.s.Clock(), Zone: zone, Log: slog.New(slog.DiscardHandler), Rules: rules, Roll: l})
}

// Inside asks the adapter there is now.
func (l *live) Inside(ctx context.Context, group store.Address, key string) (bool, error) {
	return l.run.Inside(ctx, group, key)
}

// begin starts the adapter, once more after a stop.
func (l *live) begin(opts ...option) {
	l.t.Helper()
	all := append([]option{func(_ *discord.Config, p *discord.Parts) {
		p.Keep, p.Now = store.Keeper{DB: l.db}, l.s.Clock().Now
	}}, opts...)
	l.run = start(l.t, l.club, l.bot, all...)
	l.sched = &scheduler.Scheduler{Due: l.db, Reach: l.db, Deliver: bot.Deliverer{Bot: l.bot, Sender: l.run}, Log: slog.New(slog.DiscardHandler),
		Lease: func() string { l.lease++; return fmt.Sprint("lease", l.lease) }}
}

// pass lets time go by and has said what is due then.
func (l *live) pass(d time.Duration) {
	l.t.Helper()
	l.s.Clock().Advance(d)
	if _, err := l.sched.Tick(context.Background(), l.s.Clock().Now()); err != nil {
		l.t.Fatal(err)
	}
}

// slash uses a command and waits for all that comes of it.
func (l *live) slash(seat *discordtest.Seat, name string, opts ...discordtest.OptionValue) discordtest.Message {
	l.t.Helper()
	use := seat.Slash(name, opts...)
	l.run.until(l.t, use.ID())
	return use.WaitReply()
}

func (l *live) press(seat *discordtest.Seat, m discordtest.Message, label string) discordtest.Message {
	l.t.Helper()
	use := seat.PressStale(m, label)
	l.run.until(l.t, use.ID())
	if use.FollowUps() > 0 { // it was put off
		return use.WaitFollowUp(1)
	}
	return use.WaitReply()
}

// open opens a batch of Ines's in the channel she sits in.
func (l *live) open(seat *discordtest.Seat, pieces string) {
	l.t.Helper()
	m := l.slash(seat, "open", discordtest.Opt("pieces", pieces))
	if slices.Contains(m.Labels(), "Yes, I weigh it") {
		m = l.press(seat, m, "Yes, I weigh it")
	}
	if len(m.Embeds) != 1 {
		l.t.Fatalf("opening %q gives %q", pieces, m.Text)
	}
}

func opt(name string, value any) discordtest.OptionValue { return discordtest.Opt(name, value) }
