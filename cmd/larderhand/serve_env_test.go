package main

import (
	"fmt"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
	"larderhand/bot/telegram/telegramtest"
)

// The program as released takes its updates by webhook where the environment says so,
// and only those that carry the secret.
func TestServeByWebhook(t *testing.T) {
	path := binary(t)
	public, listen := "https://bacon.example/updates", freeAddress(t)
	for name, secret := range map[string]string{"own secret": "", "secret of the environment": "Quarry-Lane_7"} {
		t.Run(name, func(t *testing.T) {
			tg := telegramtest.New(t, telegramtest.WithWebhookRoute(public, "http://"+listen+"/updates"))
			c := serve(t, path, "TELEGRAM_TOKEN="+tg.Token(), "TELEGRAM_API_URL="+tg.URL(), "TELEGRAM_WEBHOOK_URL="+public,
				"TELEGRAM_WEBHOOK_LISTEN="+listen, "TELEGRAM_WEBHOOK_SECRET="+secret, "LARDERHAND_DB="+filepath.Join(t.TempDir(), "club.db"))
			tg.AwaitCalls("setWebhook", 1)
			set := tg.Calls("setWebhook")[0].Params
			if set["url"] != public || secret != "" && set["secret_token"] != secret || len(set["secret_token"]) < 13 {
				t.Errorf("the webhook is set with %v", set)
			}
			ines := tg.User("Ines")
			room := tg.Private(ines)
			if m := room.AwaitAfter(room.Say(ines, "5 lb juniper 1.5 in")); !strings.Contains(m.Text, "4.3 g") {
				t.Errorf("the cure reads %q", m.Text)
			}
			if code := room.ForgeWebhook(ines, "batches", "guessed"); code != http.StatusUnauthorized {
				t.Errorf("an update with a wrong secret gets %d", code)
			}
			if n := len(tg.Calls("getUpdates")); n != 0 {
				t.Errorf("updates are fetched as well, %d times", n)
			}
			code, log := c.term()
			if code != 0 || strings.Contains(log, "level=ERROR") || !strings.Contains(log, "wrong secret was turned away") || strings.Contains(log, set["secret_token"]) {
				t.Errorf("it ended with %d:\n%s", code, log)
			}
			if n := len(room.FromBot()); n != 1 {
				t.Errorf("%d answers:\n%s", n, room.Transcript())
			}
		})
	}
}

// Connections and the server for development are the environment's to say.
func TestServeWithShardsAndADevelopmentServer(t *testing.T) {
	path := binary(t)
	for shards, want := range map[string]int{"": 1, "2": 2, "auto": 3} {
		t.Run("shards "+shards, func(t *testing.T) {
			dc := discordtest.New(t, discordtest.WithClock(time.Now), discordtest.WithShards(3, 16))
			ours, theirs := dc.AddGuild("Quarry Lane Smokehouse Club"), dc.AddGuild("The other lane")
			env := []string{"DISCORD_TOKEN=" + dc.Token(), "DISCORD_API_URL=" + dc.URL(), "DISCORD_DEV_GUILD=" + ours.ID,
				"LARDERHAND_DB=" + filepath.Join(t.TempDir(), "club.db")}
			if shards != "" {
				env = append(env, "DISCORD_SHARDS="+shards)
			}
			c := serve(t, path, env...)
			dc.WaitIdentifies(want)
			for n := range want {
				dc.Shard(n).WaitReady()
			}
			dc.WaitCommands()
			for _, k := range dc.Commands() {
				if k.GuildID != ours.ID {
					t.Errorf("/%s is registered in %q, not in %s alone (nor in %s)", k.Name, k.GuildID, ours.ID, theirs.ID)
				}
			}
			if code, log := c.term(); code != 0 || strings.Contains(log, "level=ERROR") {
				t.Errorf("it ended with %d:\n%s", code, log)
			}
			seen := map[string]bool{}
			for _, id := range dc.Identifies() {
				seen[fmt.Sprintf("%d of %d", id.Shard, id.Shards)] = true
			}
			if len(seen) != want || !seen[fmt.Sprintf("%d of %d", want-1, want)] {
				t.Errorf("connections: %v", seen)
			}
		})
	}
}
