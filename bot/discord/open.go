// Package discord is the chat on Discord: slash commands, buttons and forms in
// servers, threads and direct messages, and typed text where the bot is mentioned or
// written to in private.
//
// What comes in becomes a bot.Message and is answered by the bot; nothing here knows
// what a command does. Every interaction is acknowledged within Discord's three
// seconds, however long the answer takes.
package discord

import (
	"cmp"
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"
	"golang.org/x/time/rate"

	"larderhand/bot"
)

// Config is what an operator chooses.
type Config struct {
	Token    string
	APIURL   string // base address in place of Discord's own; "" is Discord's
	DevGuild string // register commands in this one server, at once; "" everywhere
	Shards   int    // connections to the gateway; 0 takes as many as Discord recommends
	Patience Patience
	Ack      time.Duration // how long an answer may take before it is put off; 0 is a second
	Drain    time.Duration // how long answers in hand may take at the end; 0 is ten seconds
}

// Parts are what an adapter works with.
type Parts struct {
	Bot  Bot
	Keep Keep
	Now  func() time.Time
	Log  *slog.Logger
	// Handled, if set, is told the id of each event once all is done about it, and
	// "commands" once those are registered.
	Handled func(id string)
}

// Adapter is a bot on Discord. Send and Edit may be used at once, from any
// goroutine; Run receives. Parts may be filled in until Run is called.
type Adapter struct {
	Parts
	cfg      Config
	client   *http.Client
	call     caller
	inbox    *bot.Inbox
	words    locales
	patience Patience
	ack      time.Duration
	recent   recent
	register sync.Mutex
	known    bool // the commands are as they should be; guarded by register
	work     sync.WaitGroup
	fetching chan struct{} // held while files are fetched
	live     sync.Map      // shard number -> *discordgo.Session, the newest
}

// workers is how many conversations are answered side by side.
const workers = 64

// New sets an adapter up. It makes no request yet.
func New(cfg Config) (*Adapter, error) {
	words, err := readLocales()
	if err != nil {
		return nil, err
	}
	a := &Adapter{Parts: Parts{Now: time.Now, Log: slog.New(slog.DiscardHandler)}, cfg: cfg, words: words, inbox: bot.NewInbox(workers),
		patience: cfg.Patience.orDefault(), ack: cfg.Ack, fetching: make(chan struct{}, fetchesAtOnce), client: &http.Client{Timeout: 20 * time.Second}}
	a.ack, a.cfg.Drain = cmp.Or(a.ack, time.Second), cmp.Or(cfg.Drain, lastWords)
	next := http.DefaultTransport
	if cfg.APIURL != "" {
		base, err := url.Parse(cfg.APIURL)
		if err != nil || base.Host == "" || !strings.HasPrefix(base.Scheme, "http") {
			return nil, fmt.Errorf("DISCORD_API_URL: %q is no address; one looks like http://127.0.0.1:8082", cfg.APIURL)
		}
		next = rewrite{base: base, next: next}
	}
	a.client.Transport = noting{next}
	a.call.session = a.newSession(&wire{})
	return a, nil
}

// newSession makes a session of the library's that tries nothing by itself.
func (a *Adapter) newSession(w *wire) *discordgo.Session {
	s, err := discordgo.New("Bot " + a.cfg.Token)
	if err != nil {
		panic(err) // it has none to give
	}
	s.Client = a.client
	s.Dialer = w.dialer()
	s.Identify.Intents = intents
	s.ShouldReconnectOnError = false
	s.ShouldRetryOnRateLimit = false
	s.MaxRestRetries = 0
	s.SyncEvents = true // what is said one after the other is queued in that order
	s.LogLevel = -1     // it writes past our log
	s.State.TrackEmojis, s.State.TrackMembers, s.State.TrackPresences, s.State.TrackVoice = false, false, false, false
	return s
}

// Run receives until ctx ends, then finishes what is in hand within a bound. It
// returns an error only for what an operator has to mend.
func (a *Adapter) Run(ctx context.Context) error {
	count, start, err := a.shards(ctx)
	if err != nil || ctx.Err() != nil {
		return err
	}
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	var all sync.WaitGroup
	for id := range count {
		all.Add(1)
		go func() {
			defer all.Done()
			sh := &shard{a: a, id: id, count: count, start: start}
			if err := sh.run(ctx); err != nil {
				stop(err)
			}
		}()
	}
	all.Wait()
	end, done := context.WithTimeout(context.WithoutCancel(ctx), a.cfg.Drain)
	defer done()
	a.inbox.Stop(end)
	a.work.Wait()
	if cause := context.Cause(ctx); cause != nil && cause != ctx.Err() {
		return cause
	}
	return nil
}

// lastWords is how long what is done beside the queues may take.
const lastWords = 10 * time.Second

// outlast gives a context for what is done beside the queues, which goes on for a
// while after ctx has ended.
func (a *Adapter) outlast(ctx context.Context) (context.Context, func()) {
	out, stop := context.WithTimeout(context.WithoutCancel(ctx), lastWords)
	unhook := context.AfterFunc(ctx, func() { time.AfterFunc(a.cfg.Drain, stop) })
	return out, func() { unhook(); stop() }
}

// shards finds out how many connections to make and gives the leave each needs to
// identify: so many at once every five seconds.
func (a *Adapter) shards(ctx context.Context) (int, func(context.Context) error, error) {
	if a.cfg.Shards == 1 {
		return 1, rate.NewLimiter(rate.Every(5*time.Second), 1).Wait, nil
	}
	var info *discordgo.GatewayBotResponse
	err := a.retry(ctx, 5*time.Minute, func() error {
		var err error
		info, err = a.call.session.GatewayBot(discordgo.WithContext(ctx))
		if err != nil {
			err = tidy(err)
		}
		return err
	})
	if ctx.Err() != nil {
		return 0, nil, nil
	}
	if e, ok := err.(*apiError); ok && e.status == http.StatusUnauthorized {
		return 0, nil, ErrToken
	}
	if err != nil {
		return 0, nil, fmt.Errorf("discord: ask for the gateway: %w", err)
	}
	count := a.cfg.Shards
	if count < 1 {
		count = max(1, info.Shards)
	}
	return count, rate.NewLimiter(rate.Every(5*time.Second), max(1, info.SessionStartLimit.MaxConcurrency)).Wait, nil
}

// handlers has a session's events come to the adapter. They run one after the
// other on the goroutine that reads, so each only notes and queues.
func (sh *shard) handlers(ctx context.Context, s *discordgo.Session, l link) {
	s.AddHandler(func(_ *discordgo.Session, r *discordgo.Ready) {
		signal(l.up)
		sh.a.ready(ctx, r)
	})
	s.AddHandler(func(*discordgo.Session, *discordgo.Resumed) { signal(l.up) })
	s.AddHandler(func(*discordgo.Session, *discordgo.Disconnect) { signal(l.down) })
	s.AddHandler(func(s *discordgo.Session, i *discordgo.InteractionCreate) {
		sh.a.guard("an interaction", func() { sh.a.interaction(ctx, s, i.Interaction) })
	})
	s.AddHandler(func(s *discordgo.Session, m *discordgo.MessageCreate) {
		sh.a.guard("a message", func() { sh.a.message(ctx, s, m.Message) })
	})
	s.AddHandler(func(_ *discordgo.Session, g *discordgo.GuildDelete) {
		if !g.Unavailable {
			sh.a.Log.Info("removed from a server; its pings wait until it speaks again", "guild", g.ID)
		}
	})
}

// guard keeps a panic over something malformed from ending the process.
func (a *Adapter) guard(what string, do func()) {
	defer func() {
		if p := recover(); p != nil {
			a.Log.Error("could not take in "+what, "panic", p)
		}
	}()
	do()
}
