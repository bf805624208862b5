package main

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
	"larderhand/bot/telegram/telegramtest"
)

// One process on both platforms: the released program, from the first command in a
// Discord server to its first ping and flip, with somebody on Telegram meanwhile,
// over two runs.
func TestServeBothPlatforms(t *testing.T) {
	path := binary(t)
	dc, tg := discordtest.New(t, discordtest.WithClock(time.Now)), telegramtest.New(t)
	club := dc.AddGuild("Quarry Lane Smokehouse Club")
	curing := club.AddChannel("curing")
	ines := dc.AddPerson("Ines")
	club.Join(ines)
	here := ines.At(curing)
	db := filepath.Join(t.TempDir(), "club.db")
	env := []string{"DISCORD_TOKEN=" + dc.Token(), "DISCORD_API_URL=" + dc.URL(), "TELEGRAM_TOKEN=" + tg.Token(), "TELEGRAM_API_URL=" + tg.URL(),
		"LARDERHAND_DB=" + db, "LARDERHAND_ZONE=Europe/Berlin"}

	c := serve(t, path, env...)
	dc.WaitCommands()
	if m := here.Slash("cure", discordtest.Opt("weight", "5 lb"), discordtest.Opt("thickness", "1.5 in")).WaitReply(); !strings.Contains(m.Text, "4.3 g") {
		t.Errorf("the cure reads %q", m.Text)
	}
	ask := here.Slash("open").WaitForm().Submit(nil).WaitReply()
	if m := here.Press(ask, "Yes, I weigh it").WaitReply(); !strings.Contains(m.Text, "is open, in the cure") {
		t.Errorf("opened: %q", m.Text)
	}
	tobias := tg.User("Tobias")
	private := tg.Private(tobias)
	if m := private.AwaitAfter(private.Say(tobias, "2.27 kg")); !strings.Contains(m.Text, "4.3 g") {
		t.Errorf("on Telegram the cure reads %q", m.Text)
	}
	tg.AwaitConfirmed()
	if code, log := c.term(); code != 0 || strings.Contains(log, "level=ERROR") {
		t.Fatalf("it ended with %d:\n%s", code, log)
	}

	makeDue(t, db)
	before := len(dc.Requests("PUT", "/applications/*/commands"))
	c = serve(t, path, env...)
	ping := here.WaitText("flip it")
	if m := here.Press(ping, "Flipped 1").WaitReply(); !strings.Contains(m.Text, "flipped") {
		t.Errorf("after the press it reads %q", m.Text)
	}
	code, log := c.term()
	if code != 0 || strings.Contains(log, "level=ERROR") || strings.Contains(log, dc.Token()) {
		t.Errorf("it ended with %d:\n%s", code, log)
	}
	if n := len(dc.Requests("PUT", "/applications/*/commands")); n != before {
		t.Errorf("commands that had not changed were registered %d times more", n-before)
	}
}

func TestServeDiscordWithABadToken(t *testing.T) {
	dc := discordtest.New(t, discordtest.WithToken("the-right-one"))
	t.Setenv("DISCORD_TOKEN", "a-wrong-one")
	t.Setenv("DISCORD_API_URL", dc.URL())
	_, errOut, code := chatWith(t, "", "serve", "--db", ":memory:")
	if code != 1 || !strings.Contains(errOut, "DISCORD_TOKEN is not accepted") || strings.Contains(errOut, "a-wrong-one") {
		t.Errorf("it ended with %d and said:\n%s", code, errOut)
	}
}

func TestServeNamesTheDiscordVariableThatIsWrong(t *testing.T) {
	for variable, value := range map[string]string{"DISCORD_API_URL": "127.0.0.1:8082", "DISCORD_DEV_GUILD": "our club", "DISCORD_SHARDS": "many"} {
		t.Run(variable, func(t *testing.T) {
			t.Setenv("DISCORD_TOKEN", "nobody")
			t.Setenv(variable, value)
			if _, errOut, code := chatWith(t, "", "serve", "--db", ":memory:"); code == 0 || !strings.Contains(errOut, variable) {
				t.Errorf("code %d: %s", code, errOut)
			}
		})
	}
}
