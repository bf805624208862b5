package discord_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"larderhand/bot/adaptertest"
	"larderhand/bot/discord"
	"larderhand/bot/discord/discordtest"
)

// The connection drops in mid-batch: what was pressed meanwhile comes with the
// resume, what came before comes again, and everything is done once.
func TestResumeInMidBatch(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	l.pass(23 * time.Hour)
	ping := here.WaitText("flip it")
	first := l.press(here, ping, "Flipped 1")
	l.s.Gateway().HoldShut()
	l.s.Gateway().WaitDown()
	note := here.Slash("note", opt("batch", "1"), opt("remark", "smelled of juniper"))
	l.s.RepeatAtResume(2)
	l.s.Gateway().LetIn()
	l.s.WaitResumes(1)
	l.run.until(t, note.ID())
	if m := note.WaitReply(); !strings.Contains(m.Text, "smelled of juniper") {
		t.Errorf("what came with the resume is answered %q", m.Text)
	}
	if now, _ := here.Reload(first); now.Edits != first.Edits {
		t.Errorf("the press said again changed its message %d times more", now.Edits-first.Edits)
	}
	if m := l.slash(here, "batch"); !strings.Contains(wordsOf(m), "1 flip, ") || strings.Count(m.Text, "smelled of juniper") != 1 {
		t.Errorf("the batch reads %q", m.Text)
	}
	if n := len(l.s.Identifies()); n != 1 {
		t.Errorf("it identified %d times, want once and a resume", n)
	}
}

// An event said again after a restart, when the adapter remembers nothing, finds
// the bot remembering.
func TestEventAgainAfterARestart(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	use := here.Slash("note", opt("batch", "1"), opt("remark", "smelled of juniper"))
	l.run.until(t, use.ID())
	l.run.stop()
	l.begin()
	use.Redeliver()
	l.run.until(t, use.ID())
	if m := l.slash(here, "batch"); strings.Count(m.Text, "smelled of juniper") != 1 {
		t.Errorf("the batch reads %q", m.Text)
	}
	if n := len(use.Refused()); n != 1 {
		t.Errorf("the answer given again was refused %d times", n)
	}
}

func TestTheGatewayIsKeptUp(t *testing.T) {
	for name, harm := range map[string]func(*discordtest.Server){
		"cut off":                func(s *discordtest.Server) { s.Gateway().Drop() },
		"closed with 4000":       func(s *discordtest.Server) { s.Gateway().CloseWith(4000) },
		"asked to reconnect":     func(s *discordtest.Server) { s.Gateway().AskReconnect() },
		"session made invalid":   func(s *discordtest.Server) { s.Gateway().Invalidate(false) },
		"session gone at resume": func(s *discordtest.Server) { s.Gateway().HoldShut(); s.Gateway().Expire(); s.Gateway().LetIn() },
		"told to reconnect at once": func(s *discordtest.Server) {
			s.FirstFrame(discordtest.Reconnect) // the library hangs on this for good
			s.Gateway().Drop()
		},
		"session invalid at once": func(s *discordtest.Server) {
			s.FirstFrame(discordtest.InvalidSession)
			s.Gateway().Drop()
		},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			c := newClub(t)
			b := &adaptertest.Bot{}
			r := start(t, c, b, func(cfg *discord.Config, _ *discord.Parts) { cfg.Patience.Open = 500 * time.Millisecond })
			harm(c.s)
			m := c.ines.At(c.curing)
			deadline := time.Now().Add(patience)
			for n := 0; ; n++ {
				c.s.Gateway().WaitReady()
				id := m.Tell("look 3").ID
				if reached(r, id, time.Second) {
					return
				}
				if time.Now().After(deadline) {
					t.Fatal("what is said reaches the bot no more")
				}
			}
		})
	}
}

// reached reports whether the adapter is done with an event soon.
func reached(r *running, id string, within time.Duration) bool {
	late := time.NewTimer(within)
	defer late.Stop()
	for {
		select {
		case got := <-r.done:
			if got == id {
				return true
			}
		case <-late.C:
			return false
		}
	}
}

// A connection that looks open and is dead: nothing comes, not even the answers to
// heartbeats. It is cut and made anew long before the library would notice.
func TestSilentGateway(t *testing.T) {
	c := newClub(t, discordtest.WithHeartbeat(30*time.Millisecond))
	b := &adaptertest.Bot{}
	r := start(t, c, b, func(cfg *discord.Config, _ *discord.Parts) { cfg.Patience.Silent = 100 * time.Millisecond })
	c.s.WaitHeartbeats(2)
	before := len(c.s.Resumes()) + len(c.s.Identifies())
	c.s.MuteAcks(true)
	c.s.Gateway().WaitDown()
	c.s.MuteAcks(false)
	c.s.Gateway().WaitReady()
	r.until(t, c.ines.At(c.curing).Tell("look 3").ID)
	if n := len(c.s.Resumes()) + len(c.s.Identifies()); n <= before {
		t.Error("it did not connect anew")
	}
}

// A token that is refused ends the run with a word for the operator.
func TestRefusedToken(t *testing.T) {
	c := newClub(t)
	a, err := discord.New(discord.Config{Token: "wrong", APIURL: c.s.URL(), Shards: 1})
	if err != nil {
		t.Fatal(err)
	}
	a.Bot, a.Keep = &adaptertest.Bot{}, &facts{}
	if err := a.Run(t.Context()); !errors.Is(err, discord.ErrToken) || strings.Contains(err.Error(), "wrong") {
		t.Errorf("run ends with %v", err)
	}
}

// Shards: as many connections as are configured, or recommended, each with its
// part of the servers.
func TestShards(t *testing.T) {
	for name, tc := range map[string]struct{ configured, want int }{"configured": {2, 2}, "recommended": {0, 3}} {
		t.Run(name, func(t *testing.T) {
			c := newClub(t, discordtest.WithShards(3, 16), discordtest.WithIdentifyLimit())
			r := start(t, c, &adaptertest.Bot{}, func(cfg *discord.Config, _ *discord.Parts) { cfg.Shards = tc.configured })
			for n := range tc.want {
				c.s.Shard(n).WaitReady()
			}
			seen := map[int]bool{}
			for _, id := range c.s.Identifies() {
				seen[id.Shard] = true
				if id.Shards != tc.want {
					t.Errorf("shard %d of %d", id.Shard, id.Shards)
				}
			}
			if len(seen) != tc.want {
				t.Errorf("shards %v", seen)
			}
			r.until(t, c.ines.At(c.curing).Tell("look 3").ID)
			r.until(t, c.ines.DM().Say("look 3").ID)
		})
	}
}

// Told to stop, it finishes the answer in hand and then ends.
func TestStopFinishesWhatIsInHand(t *testing.T) {
	l := newLive(t, quick)
	open := l.gate.hold()
	use := l.ines.At(l.curing).Slash("cure", opt("weight", "5 lb"))
	use.WaitAck()
	stopped := make(chan struct{})
	go func() { l.run.stop(); close(stopped) }()
	l.s.Gateway().WaitDown()
	open()
	<-stopped
	if m := use.WaitReply(); !strings.Contains(m.Text, "4.3 g") {
		t.Errorf("the answer in hand reads %q", m.Text)
	}
}
