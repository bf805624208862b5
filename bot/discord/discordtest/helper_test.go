package discordtest_test

import (
	"fmt"
	"net/http"
	"os"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

func TestMain(m *testing.M) { os.Exit(discordtest.Main(m)) }

const plainIntents = discordgo.IntentsGuilds | discordgo.IntentsGuildMessages | discordgo.IntentsDirectMessages

// newBot is a real client, not yet connected.
func newBot(t testing.TB, s *discordtest.Server) *discordgo.Session {
	t.Helper()
	bot, err := discordgo.New("Bot " + s.Token())
	if err != nil {
		t.Fatal(err)
	}
	bot.Client = &http.Client{Transport: s.Transport(), Timeout: 20 * time.Second}
	bot.Identify.Intents = plainIntents
	bot.ShouldRetryOnRateLimit = false
	bot.LogLevel = -1
	// Close would wait a second; here the server's end ends the connection.
	bot.ShouldReconnectOnError = false
	return bot
}

// open connects the client; the server's end disconnects it.
func open(t testing.TB, bot *discordgo.Session) {
	t.Helper()
	if err := bot.Open(); err != nil {
		t.Fatal(err)
	}
}

// register sets the global commands.
func register(t testing.TB, s *discordtest.Server, bot *discordgo.Session, cmds ...*discordgo.ApplicationCommand) {
	t.Helper()
	if _, err := bot.ApplicationCommandBulkOverwrite(s.AppID(), "", cmds); err != nil {
		t.Fatal(err)
	}
}

// club is the scene most tests play in.
type club struct {
	s      *discordtest.Server
	guild  *discordtest.Guild
	curing *discordtest.Channel
	ines   *discordtest.Person
	tobias *discordtest.Person
}

func newClub(t testing.TB, s *discordtest.Server) club {
	t.Helper()
	c := club{s: s, guild: s.AddGuild("Quarry Lane Smokehouse Club")}
	c.curing = c.guild.AddChannel("curing")
	c.ines, c.tobias = s.AddPerson("Ines"), s.AddPerson("Tobias")
	c.guild.Join(c.ines)
	c.guild.Join(c.tobias)
	return c
}

// quiet mentions nobody.
func quiet() *discordgo.MessageAllowedMentions {
	return &discordgo.MessageAllowedMentions{Parse: []discordgo.AllowedMentionType{}}
}

// judge is a testing.TB that only writes down, to see the fake fail a test.
type judge struct {
	testing.TB
	mu     sync.Mutex
	errors []string
	fatal  bool
}

func (j *judge) Errorf(format string, args ...any) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.errors = append(j.errors, fmt.Sprintf(format, args...))
}

func (j *judge) Fatalf(format string, args ...any) {
	j.Errorf(format, args...)
	j.mu.Lock()
	j.fatal = true
	j.mu.Unlock()
	runtime.Goexit()
}

func (j *judge) said() string {
	j.mu.Lock()
	defer j.mu.Unlock()
	return strings.Join(j.errors, "\n")
}

// judged runs f in a goroutine that a Fatalf may end and returns what was said.
func judged(t *testing.T, opts []discordtest.Option, f func(s *discordtest.Server)) *judge {
	t.Helper()
	j := &judge{TB: t}
	s := discordtest.New(j, opts...)
	done := make(chan struct{})
	go func() {
		defer close(done)
		f(s)
	}()
	<-done
	return j
}

// restCode is the error code of a REST error.
func restCode(err error) int {
	if re, ok := err.(*discordgo.RESTError); ok && re.Message != nil {
		return re.Message.Code
	}
	return 0
}
