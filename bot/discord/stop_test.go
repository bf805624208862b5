package discord_test

import (
	"context"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/adaptertest"
	"larderhand/bot/discord"
	"larderhand/bot/discord/discordtest"
	"larderhand/bot/reply"
)

// Everything stops within its bound, however stuck the platform is.
func TestStopsWithinABound(t *testing.T) {
	for name, c := range map[string]struct {
		method, route string
		shards        int
		slow          bool // the bot answers when the command was acknowledged
		do            func(*club) *discordtest.Use
	}{
		"asking how many shards": {"GET", "/gateway/bot", 0, false, nil},
		"asking for the gateway": {"GET", "/gateway", 1, false, nil},
		"registering commands":   {"PUT", "/applications/*/commands", 1, false, nil},
		"answering a command": {"POST", "/interactions/*/*/callback", 1, false, func(c *club) *discordtest.Use {
			return c.ines.At(c.curing).Slash("look")
		}},
		"answering later": {"PATCH", "/webhooks/*/*/messages/@original", 1, true, func(c *club) *discordtest.Use {
			return c.ines.At(c.curing).Slash("look")
		}},
		"showing a form": {"POST", "/interactions/*/*/callback", 1, false, func(c *club) *discordtest.Use {
			weigh := reply.Button{Label: "Weigh", Line: "weigh 3", Ask: true}
			postRaw(t, c, map[string]any{"content": "Weigh it.", "allowed_mentions": map[string]any{"parse": []string{}},
				"components": []any{map[string]any{"type": 1, "components": []any{map[string]any{"type": 2, "style": 2, "label": weigh.Label, "custom_id": weigh.Token()}}}}})
			here := c.ines.At(c.curing)
			return here.Press(newest(t, here, "Weigh"), "Weigh")
		}},
		"answering what is typed": {"POST", "/channels/*/messages", 1, false, func(c *club) *discordtest.Use {
			c.ines.At(c.curing).Tell("look 3")
			return nil
		}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			scene := newClub(t)
			a, err := discord.New(discord.Config{Token: scene.s.Token(), APIURL: scene.s.URL(), Shards: c.shards,
				Patience: discord.Patience{Close: time.Millisecond, Back: time.Millisecond}, Ack: time.Millisecond, Drain: 20 * time.Millisecond})
			if err != nil {
				t.Fatal(err)
			}
			b := &adaptertest.Bot{}
			acked := make(chan struct{})
			b.On(func(bot.Message) reply.Reply {
				if c.slow {
					<-acked
				}
				return pingOf("heard")
			})
			a.Bot, a.Keep = b, &facts{}
			stuck := scene.s.Inject(c.method, c.route, discordtest.Hang(), discordtest.Times(1000))
			ctx, stop := context.WithCancel(t.Context())
			done := make(chan error, 1)
			go func() { done <- a.Run(ctx) }()
			if c.do != nil {
				scene.s.Gateway().WaitReady()
				scene.s.WaitCommands()
				use := c.do(scene)
				if c.slow {
					use.WaitAck()
				}
			}
			close(acked)
			stuck.WaitHits(1)
			stop()
			select {
			case err := <-done:
				if err != nil {
					t.Error(err)
				}
			case <-time.After(5 * time.Second):
				t.Error("it does not stop")
			}
		})
	}
}

func pingOf(text string) reply.Reply {
	var r reply.Reply
	r.Say(text)
	return r
}
