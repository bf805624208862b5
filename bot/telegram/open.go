// Package telegram is the chat on Telegram, over the Bot API: private chats, groups
// and the topics of forums, by long polling or by webhook.
//
// An update is written down before it is confirmed to the platform and struck out
// once it is answered, so that a crash repeats an answer at most and loses none; the
// bot itself does nothing twice for one event.
package telegram

import (
	"cmp"
	"context"
	"log/slog"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

// Config is what an operator chooses.
type Config struct {
	Token  string
	APIURL string // "" is Telegram's own
	// Webhook is set when updates are to be sent to us instead of fetched.
	Webhook Webhook
	// Drain is how long messages taken in are worked off at the end; 0 is a
	// quarter of a minute.
	Drain time.Duration
	// Call is how long a call may take, uploads and downloads included; 0 is forty
	// seconds. A poll may take Poll longer, though no more than twenty seconds past it.
	Call time.Duration
	// Poll is how long the platform holds a poll with nothing to say, in whole
	// seconds; 0 is fifty.
	Poll time.Duration
}

func (c Config) orDefault() Config {
	c.Drain, c.Call, c.Poll = cmp.Or(c.Drain, drainTime), cmp.Or(c.Call, callTime), cmp.Or(c.Poll, pollTime)
	return c
}

// Webhook says where updates come in.
type Webhook struct {
	URL    string // the public address; "" polls
	Listen string // where to listen, such as 127.0.0.1:8443
	Secret string // what the platform must send along; "" makes one from the token
}

// Bot answers messages.
type Bot interface {
	Handle(ctx context.Context, m bot.Message) reply.Reply
	Form(line string) (bot.Form, bool)
	Commands() []bot.Command
}

// Keep holds small facts over restarts. Get gives store.ErrNotFound for one that is
// not there; Put keeps all of its facts or none.
type Keep interface {
	Get(ctx context.Context, name string) (string, error)
	Put(ctx context.Context, facts ...store.Fact) error
	Drop(ctx context.Context, names ...string) error
	List(ctx context.Context, prefix string) ([]store.Fact, error)
}

// Places is what becomes of the conversations of a chat. Each may be called again
// with the same arguments and then changes nothing more.
type Places interface {
	MoveChat(ctx context.Context, now time.Time, from, to store.Address) error
	ParkChat(ctx context.Context, now time.Time, chat store.Address, why string) error
	UnparkChat(ctx context.Context, now time.Time, chat store.Address) error
}

// Parts are what an adapter works with.
type Parts struct {
	Bot    Bot
	Keep   Keep
	Places Places
	Now    func() time.Time
	Log    *slog.Logger
	// Handled, if set, is told the event of each update once all is done about it.
	Handled func(event string)
}

// Adapter is a bot on Telegram. Send may be used at once, from any goroutine; Run
// receives.
type Adapter struct {
	cfg Config
	Parts
	api    api
	inbox  *bot.Inbox
	admins admins
	turns  turns
	begun  begun
	rests  rests
	longs  sync.Mutex             // held while a button too long to send is kept or forgotten
	self   atomic.Pointer[string] // the bot's @name, once known
	plain  atomic.Bool            // the server does not know the mark of instants
	moved  sync.Map               // old chat id -> new one

	wordsOnce sync.Once
	byWord    map[string]bot.Command
}

// workers is how many conversations are answered side by side. One that waits for
// the platform takes a place meanwhile, so there are many.
const workers = 64

// OfficialURL is Telegram's own Bot API server.
const OfficialURL = "https://api.telegram.org"

// New sets an adapter up. It makes no call yet. Parts may be filled in later, until
// Run is called.
func New(cfg Config) *Adapter {
	cfg = cfg.orDefault()
	base := strings.TrimRight(cfg.APIURL, "/")
	if base == "" {
		base = OfficialURL
	}
	return &Adapter{cfg: cfg, inbox: bot.NewInbox(workers), Parts: Parts{Now: time.Now, Log: slog.New(slog.DiscardHandler)},
		api: api{token: cfg.Token, base: base, most: cfg.Call, http: &http.Client{}}}
}

// name is the bot's @name without the @, "" before it is known.
func (a *Adapter) name() string {
	if n := a.self.Load(); n != nil {
		return *n
	}
	return ""
}

// id is the bot's own number, the first part of its token.
func (a *Adapter) id() string {
	id, _, _ := strings.Cut(a.cfg.Token, ":")
	return id
}

// fact names something kept for this bot.
func (a *Adapter) fact(what, of string) string { return scheme + a.id() + ":" + what + ":" + of }
