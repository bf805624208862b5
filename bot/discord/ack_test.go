package discord_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord"
	"larderhand/bot/discord/discordtest"
)

// quick puts an answer off as soon as it is not there at once.
func quick(c *discord.Config, _ *discord.Parts) { c.Ack = time.Millisecond }

// A store that takes five seconds: the command is acknowledged within Discord's
// three and answered when the store is done. The fake refuses what comes later.
func TestFiveSecondStore(t *testing.T) {
	l := newLive(t, quick)
	here := l.ines.At(l.curing)
	open := l.gate.hold()
	use := here.Slash("cure", opt("weight", "5 lb"))
	if ack := use.WaitAck(); ack != 5 {
		t.Fatalf("acknowledged with type %d, want 5, an answer to come", ack)
	}
	l.s.Clock().Advance(5 * time.Second)
	open()
	l.run.until(t, use.ID())
	if m := use.WaitReply(); m.Ephemeral || m.Loading || !strings.Contains(m.Text, "4.3 g") {
		t.Errorf("in the end it reads (ephemeral %v) %q", m.Ephemeral, m.Text)
	}
	if use.Failed() || len(use.Refused()) > 0 {
		t.Errorf("the person saw a failure; refused were %v", use.Refused())
	}
}

// An answer for one alone is for one alone even if it was announced to all.
func TestPrivateAnswerToASlowStore(t *testing.T) {
	l := newLive(t, quick)
	open := l.gate.hold()
	use := l.ines.At(l.curing).Slash("flip", opt("batch", "7"))
	use.WaitAck()
	open()
	l.run.until(t, use.ID())
	if m := use.WaitFollowUp(1); !m.Ephemeral || !strings.Contains(m.Text, "There is no batch") {
		t.Errorf("reads (ephemeral %v) %q", m.Ephemeral, m.Text)
	}
	for _, m := range l.tobias.At(l.curing).Messages() {
		t.Errorf("Tobias sees %q", m.Text)
	}
}

// A slow press: the message changes when the store is done.
func TestPressOnASlowStore(t *testing.T) {
	l := newLive(t, quick)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	l.pass(23 * time.Hour)
	ping := here.WaitText("flip it")
	open := l.gate.hold()
	use := here.Press(ping, "Flipped 1")
	if ack := use.WaitAck(); ack != 6 {
		t.Fatalf("acknowledged with type %d, want 6, a change to come", ack)
	}
	second := l.tobias.At(l.curing).PressStale(ping, "Flipped 1")
	if ack := second.WaitAck(); ack != 6 { // behind the first in the queue, yet in time
		t.Fatalf("the second is acknowledged with type %d", ack)
	}
	l.s.Clock().Advance(5 * time.Second)
	open()
	l.run.until(t, use.ID())
	l.run.until(t, second.ID())
	if now, _ := here.Reload(ping); !strings.Contains(wordsOf(now), "Batch 1 (juniper) flipped") {
		t.Errorf("the ping reads %q", now.Text)
	}
	if m := second.WaitFollowUp(1); !m.Ephemeral || !strings.Contains(m.Text, "already has its flip") {
		t.Errorf("the second press reads %q", m.Text)
	}
}

// What Discord does not take at once is given again within the time there is, and
// the answer is shown once.
func TestAnswersOutliveFaults(t *testing.T) {
	for name, kind := range map[string]discordtest.FaultKind{
		"429": discordtest.RateLimited(20 * time.Millisecond), "503": discordtest.ServerError(503),
		"reset": discordtest.Reset(), "reset after the deed": discordtest.ResetAfter(),
	} {
		t.Run(name, func(t *testing.T) {
			l := newLive(t)
			f := l.s.Inject("POST", "/interactions/*/*/callback", kind)
			use := l.ines.At(l.curing).Slash("cure", opt("weight", "5 lb"))
			l.run.until(t, use.ID())
			if m := use.WaitReply(); f.Hits() != 1 || !strings.Contains(m.Text, "4.3 g") {
				t.Errorf("after %d faults it reads %q", f.Hits(), m.Text)
			}
			if n := len(l.ines.At(l.curing).Messages()); n != 1 {
				t.Errorf("%d messages are shown", n)
			}
		})
	}
}

// The second half of an answer that was put off outlives faults too.
func TestTheRestOutlivesFaults(t *testing.T) {
	l := newLive(t, quick)
	open := l.gate.hold()
	f := l.s.Inject("PATCH", "/webhooks/*/*/messages/@original", discordtest.RateLimited(5*time.Millisecond), discordtest.Times(3))
	use := l.ines.At(l.curing).Slash("cure", opt("weight", "5 lb"))
	use.WaitAck()
	open()
	l.run.until(t, use.ID())
	if m := use.WaitReply(); f.Hits() != 3 || !strings.Contains(m.Text, "4.3 g") {
		t.Errorf("after %d faults it reads %q", f.Hits(), m.Text)
	}
}

// Settings and errors are for the one who asked.
func TestPrivateReplies(t *testing.T) {
	l := newLive(t)
	for name, opts := range map[string][]discordtest.OptionValue{"set": nil, "flip": {opt("batch", "9")}, "salt": {opt("salt", "40%")}} {
		if m := l.slash(l.ines.At(l.curing), name, opts...); !m.Ephemeral {
			t.Errorf("/%s is answered for all: %q", name, m.Text)
		}
	}
	if list := l.tobias.At(l.curing).Messages(); len(list) > 0 {
		t.Errorf("Tobias sees %q", list[0].Text)
	}
}

// Direct messages: commands and typed text, for one person alone.
func TestDirectMessages(t *testing.T) {
	l := newLive(t)
	dm := l.ines.DM()
	l.open(dm, "5 lb juniper 1.5 in")
	l.run.until(t, dm.Say("batches").ID)
	dm.WaitText("day 0 of 8")
	if m := l.slash(l.ines.At(l.curing), "batches"); !strings.Contains(m.Text, "No batch is running") {
		t.Errorf("in the server it reads %q", m.Text)
	}
	if m := l.slash(l.tobias.DM(), "flip", opt("batch", "1")); !strings.Contains(m.Text, "no batch 1") && !strings.Contains(m.Text, "There is no batch") {
		t.Errorf("for Tobias it reads %q", m.Text)
	}
	l.pass(23 * time.Hour)
	dm.WaitText("flip it")
}

// What is said in a channel without a mention is none of the bot's business; with
// one it is, whoever else is named.
func TestOnlyWhatIsMeantForTheBot(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	here.Say("5 lb")
	m := here.Say(l.s.Bot().Mention() + " 5 lb juniper " + l.tobias.Mention())
	l.run.until(t, m.ID)
	list := here.WaitCount(1)
	if len(list) != 1 || strings.Contains(list[0].Text, "<@") {
		t.Errorf("%d answers: %q", len(list), list[0].Text)
	}
	bare := here.Say(l.s.Bot().Mention())
	l.run.until(t, bare.ID)
	if list := here.WaitCount(2); !strings.Contains(wordsOf(list[1]), "5 lb") {
		t.Errorf("a bare mention is answered %q", list[1].Text)
	}
}

// With nothing configured, and by the machine's own clock, a command on a store that
// does not answer is acknowledged before Discord's three seconds are over.
func TestAcknowledgedInTimeByDefault(t *testing.T) {
	l := liveIn(t, newClub(t, discordtest.WithClock(time.Now)), func(c *discord.Config, _ *discord.Parts) { c.Ack = 0 })
	open := l.gate.hold()
	began := time.Now()
	use := l.ines.At(l.curing).Slash("cure", opt("weight", "5 lb"))
	if ack := use.WaitAck(); ack != 5 {
		t.Errorf("acknowledged with type %d", ack)
	}
	if took := time.Since(began); took > 3*time.Second {
		t.Errorf("acknowledged after %s", took)
	}
	open()
	l.run.until(t, use.ID())
	if m := use.WaitReply(); use.Failed() || len(use.Refused()) > 0 || !strings.Contains(m.Text, "4.3 g") {
		t.Errorf("in the end it reads %q; refused were %v", m.Text, use.Refused())
	}
}
