package discord_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
)

// threaded opens a batch and gives it its thread, at which Ines then sits.
func threaded(t *testing.T) (*live, *discordtest.Channel, *discordtest.Seat) {
	t.Helper()
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	l.open(here, "3 kg coffee and chilli 4 cm")
	m := l.slash(here, "thread", opt("batch", "1"))
	if !strings.Contains(m.Text, "has a thread of its own now") {
		t.Fatalf("it reads %q", m.Text)
	}
	threads := l.curing.Threads()
	if len(threads) != 1 || threads[0].Name() != "Batch 1 · juniper" || !strings.Contains(m.Text, "#Batch 1 · juniper") {
		t.Fatalf("%d threads; it reads %q", len(threads), m.Text)
	}
	return l, threads[0], l.ines.At(threads[0])
}

func flips(seat *discordtest.Seat) int {
	n := 0
	for _, m := range seat.Messages() {
		if strings.Contains(m.Text, "flip it") {
			n++
		}
	}
	return n
}

// A batch's pings go to its thread, others' to the channel; what is said in the
// thread without a number is about its batch.
func TestThreadOfABatch(t *testing.T) {
	l, _, inside := threaded(t)
	inside.WaitText("day 0 of 8") // it begins with how the batch stands
	l.pass(23 * time.Hour)
	if m := inside.WaitText("flip it"); strings.Contains(m.Text, "coffee") {
		t.Errorf("in the thread it reads %q", m.Text)
	}
	if m := l.ines.At(l.curing).WaitText("flip it"); strings.Contains(m.Text, "juniper") {
		t.Errorf("in the channel it reads %q", m.Text)
	}
	if m := l.slash(inside, "flip"); !strings.Contains(wordsOf(m), "Batch 1 (juniper) flipped") {
		t.Errorf("flip without a number reads %q", m.Text)
	}
	l.run.until(t, inside.Tell("batch").ID)
	inside.WaitText("1 flip, ")
	if m := l.slash(inside, "flip", opt("batch", "2")); !strings.Contains(wordsOf(m), "Batch 2 (coffee and chilli) flipped") {
		t.Errorf("another batch by its number reads %q", m.Text)
	}
	if m := l.slash(inside, "thread"); !m.Ephemeral || !strings.Contains(m.Text, "has its thread already") {
		t.Errorf("asked again it reads %q", m.Text)
	}
	l.slash(inside, "thread", opt("off", "off"))
	l.pass(24 * time.Hour)
	if n := flips(inside); n != 1 {
		t.Errorf("%d pings in a thread given up", n)
	}
}

// A thread that sleeps is woken; one that is locked, closed to the bot or gone is
// left, with a word about it in the channel, once.
func TestThreadThatCannotBeWrittenTo(t *testing.T) {
	for name, tc := range map[string]struct {
		harm  func(*live, *discordtest.Channel)
		wakes bool
	}{
		"archived": {func(_ *live, c *discordtest.Channel) { c.Archive() }, true},
		"archived, and posting does not wake it": {func(l *live, c *discordtest.Channel) {
			c.Archive()
			l.s.Inject("POST", "/channels/"+c.ID+"/messages", discordtest.Refused(400, 50083, "Thread is archived"))
		}, true},
		"locked":  {func(_ *live, c *discordtest.Channel) { c.Lock() }, false},
		"deleted": {func(_ *live, c *discordtest.Channel) { c.Delete() }, false},
		"forbidden": {func(l *live, _ *discordtest.Channel) {
			l.curing.Deny(l.s.Bot(), discordtest.SendMessagesInThreads)
		}, false},
	} {
		t.Run(name, func(t *testing.T) {
			l, thread, inside := threaded(t)
			here := l.ines.At(l.curing)
			tc.harm(l, thread)
			l.pass(23 * time.Hour)
			if tc.wakes {
				inside.WaitText("flip it")
				if thread.Archived() {
					t.Error("the thread still sleeps")
				}
				return
			}
			m := here.WaitText("flip it")
			if !strings.Contains(wordsOf(m), "The thread of Batch 1 (juniper) is gone or closed to me, so its pings come here from now on.") ||
				!strings.Contains(wordsOf(m), "Batch 1 (juniper), day 1 of 8: flip it") {
				t.Errorf("in the channel it reads %q", wordsOf(m))
			}
			l.pass(24 * time.Hour)
			list := here.WaitCount(2)
			if last := list[len(list)-1]; !strings.Contains(last.Text, "day 2 of 8") || strings.Contains(last.Text, "is gone or closed") {
				t.Errorf("a day later it reads %q", last.Text)
			}
		})
	}
}

// Where no thread may be opened nothing changes and the reason is said.
func TestThreadRefused(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	l.curing.Deny(l.s.Bot(), discordtest.CreatePublicThreads)
	if m := l.slash(here, "thread"); !m.Ephemeral || !strings.Contains(m.Text, "Create Public Threads") {
		t.Errorf("it reads %q", m.Text)
	}
	l.open(l.ines.DM(), "5 lb juniper 1.5 in")
	if m := l.slash(l.ines.DM(), "thread"); !strings.Contains(m.Text, "no threads") {
		t.Errorf("in private it reads %q", m.Text)
	}
}

// A thread people started themselves is a conversation of its own.
func TestAThreadOfPeoplesOwn(t *testing.T) {
	l := newLive(t)
	l.open(l.ines.At(l.curing), "5 lb juniper 1.5 in")
	own := l.tobias.At(l.curing.StartThread("Tobias's bellies", l.tobias))
	l.open(own, "3 kg coffee and chilli 4 cm")
	if m := l.slash(own, "batches"); strings.Contains(m.Text, "juniper") || !strings.Contains(m.Text, "coffee") {
		t.Errorf("it reads %q", m.Text)
	}
	l.pass(23 * time.Hour)
	own.WaitText("flip it")
}
