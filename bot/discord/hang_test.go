package discord_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/adaptertest"
	"larderhand/bot/discord/discordtest"
	"larderhand/store"
)

// A ping the platform takes and never answers may have arrived: it is tried again
// under the key it had, and is there once.
func TestAPingThatHangsKeepsItsKey(t *testing.T) {
	for name, kind := range map[string]discordtest.FaultKind{"before it is shown": discordtest.Hang(), "after it is shown": discordtest.HoldAnswer()} {
		t.Run(name, func(t *testing.T) {
			l := newLive(t)
			here := l.ines.At(l.curing)
			l.open(here, "5 lb juniper 1.5 in")
			stuck := l.s.Inject("POST", "/channels/*/messages", kind)
			h := &adaptertest.Hasty{Sender: l.run, Within: 300 * time.Millisecond, GaveUp: stuck.Release}
			l.sched.Deliver = bot.Deliverer{Bot: l.bot, Sender: h}
			l.pass(23 * time.Hour)
			l.pass(10 * time.Second)
			if len(h.Tries) != 2 || h.Tries[0].Key != h.Tries[1].Key || h.Tries[1].Err != nil {
				t.Fatalf("tries: %v", h.Tries)
			}
			var f *store.Failure
			if err := h.Tries[0].Err; !errors.As(err, &f) || f.Kind != store.Unknown {
				t.Errorf("the first try gave %v", err)
			}
			n := 0
			for _, m := range here.Messages() {
				if strings.Contains(m.Text, "flip it") {
					n++
				}
			}
			if n != 1 {
				t.Errorf("%d pings", n)
			}
		})
	}
}
