package telegram_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"larderhand/bot/reply"
	"larderhand/bot/telegram"
	"larderhand/bot/telegram/telegramtest"
	"larderhand/store"
)

// hurried gives a call up after half a second, and a poll after little more
// than one.
func hurried(c *telegram.Config, _ *telegram.Adapter) {
	c.Call, c.Poll = 500*time.Millisecond, time.Second
}

// A call that is never answered is given up in time: updates go on being fetched, and
// an answer somebody waits for is sent again.
func TestCallsThatHangAreGivenUp(t *testing.T) {
	for _, method := range []string{"getMe", "getUpdates", "sendMessage", "setMyCommands", "getFile"} {
		t.Run(method, func(t *testing.T) {
			t.Parallel()
			tg := fake(t)
			ines := tg.User("Ines")
			room := tg.Private(ines)
			stuck := tg.Inject(method, 1, telegramtest.Hang())
			r := run(t, tg, hurried)
			tg.AwaitPolling()
			room.Attach(ines, telegramtest.Attachment{Name: "smoke.csv", MIME: "text/csv", Data: []byte("at,core\n"), Caption: "smoke 1"})
			room.Say(ines, "5 lb juniper 1.5 in")
			r.settle()
			stuck.AwaitHits(1)
			if m := last(t, room); !strings.Contains(m.Text, "4.3 g") || len(room.FromBot()) != 2 {
				t.Errorf("answered:\n%s", room.Transcript())
			}
			for _, c := range tg.Calls("getUpdates") {
				if c.Params["timeout"] != "1" {
					t.Errorf("a poll of %s seconds", c.Params["timeout"])
				}
			}
		})
	}
}

// What a ping that was never answered came to is not known; it may be sent again.
func TestSendingIsGivenUpInTime(t *testing.T) {
	for method, send := range map[string]reply.Reply{
		"sendMessage":  pingOf("flip it"),
		"sendDocument": {Files: []reply.File{{Name: "batch-1.csv", Type: "text/csv", Data: []byte("day\n")}}},
	} {
		t.Run(method, func(t *testing.T) {
			t.Parallel()
			tg := fake(t)
			ines := tg.User("Ines")
			room := tg.Private(ines)
			r := run(t, tg, hurried)
			room.Say(ines, "hello")
			r.settle()
			tg.Inject(method, 1, telegramtest.Hang())
			var f *store.Failure
			if _, err := r.a.Send(t.Context(), address(room), "k", send); !errors.As(err, &f) || f.Kind != store.Unknown {
				t.Errorf("it came to %v", err)
			}
			if _, err := r.a.Send(t.Context(), address(room), "k", send); err != nil {
				t.Error(err)
			}
		})
	}
}

func pingOf(text string) reply.Reply {
	var r reply.Reply
	r.Say(text)
	return r
}
