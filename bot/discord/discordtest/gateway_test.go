package discordtest_test

import (
	"errors"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

// steady is a client that is connected anew whenever its connection ends. The
// library's own reconnecting is off: it opens a connection from two goroutines at
// once, one of which reads without a lock what the other writes.
func steady(t testing.TB, s *discordtest.Server) *discordgo.Session {
	t.Helper()
	bot := newBot(t, s)
	down := make(chan struct{}, 1)
	bot.AddHandler(func(*discordgo.Session, *discordgo.Disconnect) {
		select {
		case down <- struct{}{}:
		default: // one is noted already
		}
	})
	end, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		for {
			select {
			case <-end:
				return
			case <-down:
			}
			if err := bot.Open(); err != nil && !errors.Is(err, discordgo.ErrWSAlreadyOpen) {
				t.Log(err)
				select {
				case down <- struct{}{}:
				default:
				}
			}
		}
	}()
	t.Cleanup(func() {
		close(end)
		<-ended
		if err := bot.Close(); err != nil {
			t.Log(err)
		}
	})
	return bot
}

// tally counts the interactions a client gets, by id.
type tally struct {
	mu   sync.Mutex
	seen []string
	more chan string
}

func counting(bot *discordgo.Session) *tally {
	c := &tally{more: make(chan string, 64)}
	bot.AddHandler(func(b *discordgo.Session, i *discordgo.InteractionCreate) {
		c.mu.Lock()
		c.seen = append(c.seen, i.ID)
		c.mu.Unlock()
		c.more <- i.ID
	})
	return c
}

func TestHandshake(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	s.AddGuild("Elsewhere", discordtest.WithoutBot())
	bot := newBot(t, s)
	ready := make(chan *discordgo.Ready, 1)
	guilds := make(chan *discordgo.GuildCreate, 4)
	bot.AddHandler(func(_ *discordgo.Session, r *discordgo.Ready) { ready <- r })
	bot.AddHandler(func(_ *discordgo.Session, g *discordgo.GuildCreate) { guilds <- g })
	open(t, bot)
	r := <-ready
	if r.User.ID != s.Bot().ID || r.Application.ID != s.AppID() || len(r.Guilds) != 1 || r.SessionID == "" {
		t.Errorf("ready %+v", r)
	}
	g := <-guilds
	if g.ID != c.guild.ID || len(g.Channels) != 1 || len(g.Roles) != 2 || len(g.Members) != 1 || g.Members[0].User.ID != s.Bot().ID {
		t.Errorf("guild %+v", g.Guild)
	}
	perms, err := bot.State.UserChannelPermissions(s.Bot().ID, c.curing.ID)
	if want := int64(c.curing.PermissionsOf(s.Bot())); err != nil || perms != want {
		t.Errorf("the library computes permissions %d (%v), the fake %d", perms, err, want)
	}
	ids := s.Identifies()
	if len(ids) != 1 || ids[0].Intents != int(plainIntents) || ids[0].SessionID != r.SessionID {
		t.Errorf("identifies %+v", ids)
	}
}

// The library sends its first heartbeat at once, the second when asked.
func TestHeartbeatsAreAnswered(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	newClub(t, s)
	bot := newBot(t, s)
	open(t, bot)
	s.WaitHeartbeats(1)
	s.Gateway().AskHeartbeat()
	s.WaitHeartbeats(2)
}

// A dead connection: without acks the library gives up after five intervals. It
// closes with 1000, which ends the session (gateway.mdx, "Initiating a
// Disconnect"), so its resume is refused and it has to identify anew.
func TestMutedAcksCostTheSession(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t, discordtest.WithHeartbeat(20*time.Millisecond))
	newClub(t, s)
	bot := steady(t, s)
	open(t, bot)
	s.Gateway().WaitReady()
	s.MuteAcks(true)
	s.WaitIdentifies(2)
	s.MuteAcks(false)
	if r := s.Resumes(); len(r) == 0 || r[0].Accepted {
		t.Errorf("resumes %+v, want one that was refused", r)
	}
}

func TestMissedEventsAreReplayed(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := steady(t, s)
	got := counting(bot)
	open(t, bot)
	register(t, s, bot, cureCommand)
	s.Gateway().HoldShut()
	first := c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg"))
	second := c.tobias.At(c.curing).Slash("cure", discordtest.Opt("weight", "2 kg"))
	select {
	case id := <-got.more:
		t.Errorf("interaction %s came through a shut door", id)
	default:
	}
	s.Gateway().LetIn()
	both := map[string]bool{<-got.more: true, <-got.more: true}
	if !both[first.ID()] || !both[second.ID()] {
		t.Errorf("got %v", both)
	}
	s.WaitResumes(1)
	if r := s.Resumes()[0]; r.OwnURL {
		t.Error("the library is known to resume at its first address; this says otherwise")
	}
}

func TestTheSameEventTwice(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := steady(t, s)
	got := counting(bot)
	open(t, bot)
	register(t, s, bot, cureCommand)
	use := c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg"))
	<-got.more
	use.Redeliver()
	if id := <-got.more; id != use.ID() {
		t.Errorf("redelivered %s, want %s", id, use.ID())
	}
	s.RepeatAtResume(1)
	s.Gateway().Drop()
	if id := <-got.more; id != use.ID() {
		t.Errorf("repeated after the resume: %s, want %s", id, use.ID())
	}
}

func TestReconnectAndCloseCodes(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	newClub(t, s)
	open(t, steady(t, s))
	s.Gateway().AskReconnect()
	s.WaitResumes(1)
	s.Gateway().CloseWith(4000)
	s.WaitResumes(2)
	if n := len(s.Identifies()); n != 1 {
		t.Errorf("%d identifies, want 1", n)
	}
}

func TestInvalidSession(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	newClub(t, s)
	open(t, steady(t, s))
	s.Gateway().Invalidate(false)
	s.WaitIdentifies(2)
	s.Gateway().WaitReady()
	// A resume that comes too late is refused the same way.
	s.Gateway().HoldShut()
	s.Gateway().Expire()
	s.Gateway().LetIn()
	s.WaitIdentifies(3)
	s.Gateway().WaitReady()
	if r := s.Resumes(); len(r) != 1 || r[0].Accepted {
		t.Errorf("resumes %+v", r)
	}
}

// TestReconnectAsTheFirstFrame reproduces the library's known deadlock: Open
// never returns when op 7 comes in place of READY.
func TestReconnectAsTheFirstFrame(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	s.FirstFrame(discordtest.Reconnect)
	bot := newBot(t, s)
	opened := make(chan error, 1)
	go func() { opened <- bot.Open() }()
	s.WaitIdentifies(1)
	if id := s.Identifies()[0]; id.SessionID != "" {
		t.Errorf("a session was started: %+v", id)
	}
	select {
	case err := <-opened:
		t.Errorf("Open returned (%v): the deadlock is mended, drop the guard against it", err)
	default:
	}
}

// events/gateway.mdx, "Sharding": shard = (guild_id >> 22) % num_shards, and
// direct messages come to shard 0.
func TestShards(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t, discordtest.WithShards(2, 2))
	one := newClub(t, s)
	s.Clock().Advance(time.Millisecond) // the next guild's shard is the other one
	two := newClub(t, s)
	var bots []*tally
	var registrar *discordgo.Session
	for n := range 2 {
		bot := newBot(t, s)
		bot.ShardCount, bot.ShardID = 2, n
		bots = append(bots, counting(bot))
		open(t, bot)
		s.Shard(n).WaitReady()
		registrar = bot
	}
	register(t, s, registrar, cureCommand)
	for _, c := range []club{one, two} {
		use := c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg"))
		id, _ := strconv.ParseInt(c.guild.ID, 10, 64)
		if got := <-bots[(id>>22)%2].more; got != use.ID() {
			t.Errorf("shard %d got %s, want %s", (id>>22)%2, got, use.ID())
		}
	}
	use := one.ines.DM().Slash("cure", discordtest.Opt("weight", "1 kg"))
	if got := <-bots[0].more; got != use.ID() {
		t.Errorf("shard 0 got %s, want the direct message %s", got, use.ID())
	}
	b, err := registrar.GatewayBot()
	if err != nil || b.Shards != 2 || b.SessionStartLimit.MaxConcurrency != 2 {
		t.Errorf("gateway/bot %+v, %v", b, err)
	}
}

func TestIdentifyLimit(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t, discordtest.WithShards(2, 1), discordtest.WithIdentifyLimit())
	open(t, newBot(t, s))
	second := newBot(t, s)
	second.ShardCount, second.ShardID = 2, 1
	open(t, second) // the library takes op 9 for an answer and identifies again
	s.WaitIdentifies(3)
	if id := s.Identifies()[1]; id.SessionID != "" {
		t.Errorf("an identify within five seconds was let in: %+v", id)
	}
}

func TestGatewayBreaches(t *testing.T) {
	for want, breach := range map[string]func(*discordgo.Session){
		"ask for privileged ones": func(b *discordgo.Session) { b.Identify.Intents = discordgo.IntentsAll },
		"are not valid":           func(b *discordgo.Session) { b.Identify.Intents = 1 << 30 },
		"Authentication failed":   func(b *discordgo.Session) { b.Token, b.Identify.Token = "Bot other", "Bot other" },
		"a frame of":              func(b *discordgo.Session) { b.Identify.Properties.Device = strings.Repeat("x", 5000) },
	} {
		j := judged(t, nil, func(s *discordtest.Server) {
			bot := newBot(t, s)
			breach(bot)
			err := bot.Open()
			if err == nil {
				t.Errorf("%s: Open succeeded", want)
			} else if !strings.Contains(err.Error()+strings.Join(s.Violations(), " "), want) {
				t.Errorf("error %v, violations %v, want %q", err, s.Violations(), want)
			}
		})
		if want != "Authentication failed" && !strings.Contains(j.said(), want) {
			t.Errorf("said %q, want %q", j.said(), want)
		}
	}
}
