package main

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
	"larderhand/bot/telegram/telegramtest"
)

// Told to end while neither platform answers a ping nor what somebody asked, the
// program ends within its bound, and says each once when it is back.
func TestServeEndsWhilePlatformsHang(t *testing.T) {
	t.Parallel()
	path := binary(t)
	dc, tg := discordtest.New(t, discordtest.WithClock(time.Now)), telegramtest.New(t)
	club := dc.AddGuild("Quarry Lane Smokehouse Club")
	curing := club.AddChannel("curing")
	ines, tobias := dc.AddPerson("Ines"), tg.User("Tobias")
	club.Join(ines)
	here, private := ines.At(curing), tg.Private(tobias)
	db := filepath.Join(t.TempDir(), "club.db")
	env := []string{"DISCORD_TOKEN=" + dc.Token(), "DISCORD_API_URL=" + dc.URL(), "TELEGRAM_TOKEN=" + tg.Token(), "TELEGRAM_API_URL=" + tg.URL(),
		"LARDERHAND_DB=" + db, "LARDERHAND_ZONE=Europe/Berlin"}
	c := serve(t, path, env...)
	dc.WaitCommands()
	here.Press(here.Slash("open", discordtest.Opt("pieces", "5 lb juniper 1.5 in")).WaitReply(), "Yes, I weigh it").WaitReply()
	private.Press(tobias, private.AwaitAfter(private.Say(tobias, "open 5 lb juniper 1.5 in")), "Yes, I weigh it").Await()
	private.AwaitText("is open, in the cure")
	tg.AwaitConfirmed()
	if code, log := c.term(); code != 0 {
		t.Fatalf("it ended with %d:\n%s", code, log)
	}

	makeDue(t, db)
	onTelegram := tg.Inject("sendMessage", telegramtest.Always, telegramtest.Hang())
	onDiscord := dc.Inject("POST", "/channels/*/messages", discordtest.Hang(), discordtest.Times(1000))
	c = serve(t, path, env...)
	onTelegram.AwaitHits(1)
	onDiscord.WaitHits(1)
	private.Say(tobias, "batches")
	tg.AwaitConfirmed()
	began := time.Now()
	code, log := c.term()
	if took := time.Since(began); code != 0 || took > 25*time.Second {
		t.Fatalf("it ended with %d after %s:\n%s", code, took, log)
	}

	onTelegram.Clear()
	onDiscord.Remove()
	c = serve(t, path, env...)
	here.WaitText("flip it")
	private.AwaitText("flip it")
	private.AwaitText("day 0 of 8")
	if code, log := c.term(); code != 0 {
		t.Errorf("it ended with %d:\n%s", code, log)
	}
	for what, said := range map[string]string{"the ping on Telegram": private.Transcript(), "the ping on Discord": transcript(here.Messages())} {
		if n := strings.Count(said, "flip it"); n != 1 {
			t.Errorf("%s came %d times:\n%s", what, n, said)
		}
	}
}

func transcript(list []discordtest.Message) string {
	var b strings.Builder
	for _, m := range list {
		b.WriteString(m.Text + "\n\n")
	}
	return b.String()
}
