package discord

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/cenkalti/backoff/v5"
	"github.com/gorilla/websocket"
)

// intents are what the gateway is asked for: guilds with their channels, threads
// and roles, and messages, of which only those said in private or with a mention of
// the bot carry their text. None of them is privileged.
const intents = discordgo.IntentsGuilds | discordgo.IntentsGuildMessages | discordgo.IntentsDirectMessages

// ErrToken says that Discord does not take the token.
var ErrToken = errors.New("DISCORD_TOKEN is not accepted by Discord; Reset Token on the Bot page of the developer portal makes a new one")

// Patience is how long a gateway is waited for. The zero value of a field takes
// its default.
type Patience struct {
	Open   time.Duration // until a connection is up
	Silent time.Duration // without a byte before a connection is cut; acks alone come every 45 s or so
	Close  time.Duration // for an orderly end
	Back   time.Duration // before the first try to come back
}

func (p Patience) orDefault() Patience {
	pick := func(d *time.Duration, or time.Duration) {
		if *d == 0 {
			*d = or
		}
	}
	pick(&p.Open, 30*time.Second)
	pick(&p.Silent, 2*time.Minute)
	pick(&p.Close, 3*time.Second)
	pick(&p.Back, time.Second)
	return p
}

// shard keeps one connection to the gateway up. The library's own reconnecting is
// off: its Open hangs for good, holding its lock, if the first thing said to it is
// to reconnect, so each Open has a deadline and a session that hangs is given up
// for a new one.
type shard struct {
	a         *Adapter
	id, count int
	start     func(context.Context) error // waits for leave to identify
}

// link is what one session of the library's says of its connection. Each has its
// own, since a session given up may have its last word later.
type link struct {
	up   chan struct{} // READY or RESUMED came
	down chan struct{} // the connection is gone
	wire *wire
}

// run keeps the shard up until ctx ends or the token is refused.
func (sh *shard) run(ctx context.Context) error {
	delays := &backoff.ExponentialBackOff{InitialInterval: sh.a.patience.Back, RandomizationFactor: 0.3, Multiplier: 2, MaxInterval: 5 * time.Minute}
	delays.Reset()
	for ctx.Err() == nil {
		if err := sh.start(ctx); err != nil {
			return nil // ctx ended
		}
		err := sh.session(ctx, delays)
		if errors.Is(err, ErrToken) {
			return err
		}
		if err != nil {
			sh.log(ctx, "gateway session given up; starting a new one", err)
		}
		rest(ctx, delays.NextBackOff())
	}
	return nil
}

// session uses one session of the library's until it hangs.
func (sh *shard) session(ctx context.Context, delays backoff.BackOff) error {
	l := link{up: make(chan struct{}, 1), down: make(chan struct{}, 1), wire: &wire{}}
	s := sh.a.newSession(l.wire)
	s.Identify.Shard = &[2]int{sh.id, sh.count}
	s.ShardID, s.ShardCount = sh.id, sh.count
	sh.handlers(ctx, s, l)
	sh.a.live.Store(sh.id, s)
	defer l.wire.abandon()
	for ctx.Err() == nil {
		drain(l.up)
		drain(l.down)
		opened := make(chan error, 1)
		go func() { opened <- s.Open() }()
		err := sh.await(ctx, opened, l)
		switch {
		case errors.Is(err, errHangs), errors.Is(err, ErrToken):
			return err
		case err != nil:
			sh.log(ctx, "no connection to the gateway", err)
		default:
			delays.Reset()
			if err := sh.watch(ctx, s, l); err != nil {
				return err
			}
		}
		rest(ctx, delays.NextBackOff())
	}
	return nil
}

var (
	errHangs  = errors.New("connecting hangs")
	errGone   = errors.New("the connection broke while it was made")
	errSilent = errors.New("a connection that was cut is not given up")
)

// await waits until the connection is up. Open may return without that: what
// counts is READY or RESUMED.
func (sh *shard) await(ctx context.Context, opened <-chan error, l link) error {
	late := time.NewTimer(sh.a.patience.Open)
	defer late.Stop()
	for {
		select {
		case <-l.up:
			return nil
		case err := <-opened:
			if err == nil {
				opened = nil
				continue
			}
			var c *websocket.CloseError
			if errors.As(err, &c) && c.Code == 4004 {
				return ErrToken
			}
			return tidyGateway(err)
		case <-l.down:
			if opened == nil {
				return errGone
			}
		case <-late.C:
			l.wire.drop()
			return errHangs
		case <-ctx.Done():
			return nil
		}
	}
}

// watch stays with a connection that is up until it is gone.
func (sh *shard) watch(ctx context.Context, s *discordgo.Session, l link) error {
	look := time.NewTicker(sh.a.patience.Silent / 4)
	defer look.Stop()
	var late <-chan time.Time // when a connection that was cut is given up
	for {
		select {
		case <-l.down:
			return nil
		case <-late:
			return errSilent
		case <-look.C:
			if late != nil || l.wire.silent() <= sh.a.patience.Silent {
				continue
			}
			sh.a.Log.WarnContext(ctx, "the gateway is silent; connecting anew", "shard", sh.id)
			l.wire.drop()
			grace := time.NewTimer(noticeWithin)
			defer grace.Stop()
			late = grace.C
		case <-ctx.Done():
			sh.close(s)
			return nil
		}
	}
}

// noticeWithin is how long the library may take to notice that its connection was
// cut. It waits a second over it by itself.
const noticeWithin = 10 * time.Second

// close ends the session in order, or leaves it after a while.
func (sh *shard) close(s *discordgo.Session) {
	done := make(chan struct{})
	go func() {
		defer close(done)
		_ = s.Close() // it only ever says that there was nothing to close
	}()
	late := time.NewTimer(sh.a.patience.Close)
	defer late.Stop()
	select {
	case <-done:
	case <-late.C:
	}
}

func (sh *shard) log(ctx context.Context, what string, err error) {
	if ctx.Err() == nil {
		sh.a.Log.WarnContext(ctx, what, slog.Int("shard", sh.id), slog.Any("error", err))
	}
}

// tidyGateway keeps addresses out of what is logged.
func tidyGateway(err error) error {
	var c *websocket.CloseError
	if errors.As(err, &c) {
		return c
	}
	return tidy(err)
}

func drain(c chan struct{}) {
	select {
	case <-c:
	default:
	}
}

func signal(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// rest waits, but no longer than ctx.
func rest(ctx context.Context, d time.Duration) {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
	case <-ctx.Done():
	}
}
