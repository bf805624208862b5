package discord_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"larderhand/bot/adaptertest"
	"larderhand/bot/discord/discordtest"
	"larderhand/bot/reply"
	"larderhand/store"
)

// What each refusal means for a ping. The codes are those of Discord's
// topics/opcodes-and-status-codes.mdx.
func TestFailures(t *testing.T) {
	c := newClub(t)
	r := start(t, c, &adaptertest.Bot{})
	for _, tc := range []struct {
		name  string
		fault discordtest.FaultKind
		want  store.Failure
	}{
		{"429 of a route", discordtest.RateLimited(1500 * time.Millisecond), store.Failure{Kind: store.Wait, After: 1500 * time.Millisecond}},
		{"429 of a resource", discordtest.RateLimitedShared(64570 * time.Millisecond), store.Failure{Kind: store.Wait, After: 64570 * time.Millisecond}},
		{"429 of everything", discordtest.RateLimitedGlobally(10 * time.Minute), store.Failure{Kind: store.Wait, After: 10 * time.Minute, Wide: true}},
		{"502", discordtest.ServerError(502), store.Failure{Kind: store.Unknown}},
		{"503", discordtest.ServerError(503), store.Failure{Kind: store.Unknown}},
		{"connection reset", discordtest.Reset(), store.Failure{Kind: store.Unknown}},
		{"reset after the deed", discordtest.ResetAfter(), store.Failure{Kind: store.Unknown}},
		{"unknown channel 10003", discordtest.UnknownChannel(), store.Failure{Kind: store.Gone}},
		{"missing access 50001", discordtest.MissingAccess(), store.Failure{Kind: store.Gone}},
		{"missing permissions 50013", discordtest.MissingPermissions(), store.Failure{Kind: store.Gone}},
		{"closed direct messages 50007", discordtest.CannotMessage(), store.Failure{Kind: store.Gone}},
		{"unauthorized", discordtest.Unauthorized(), store.Failure{Kind: store.Unknown}},
		{"invalid form body 50035", discordtest.Refused(400, 50035, "Invalid Form Body"), store.Failure{Kind: store.Refused}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			f := c.s.Inject("POST", "/channels/*/messages", tc.fault)
			var ping reply.Reply
			_, err := r.Send(t.Context(), at(c.curing), "key-"+tc.name, *ping.Say("flip it"))
			var got *store.Failure
			if !errors.As(err, &got) || got.Kind != tc.want.Kind || got.After != tc.want.After || got.Wide != tc.want.Wide {
				t.Errorf("failure %+v (%v), want %+v", got, err, tc.want)
			}
			if f.Hits() != 1 {
				t.Errorf("it was tried %d times", f.Hits())
			}
			if err != nil && (strings.Contains(err.Error(), c.s.Token()) || strings.Contains(err.Error(), "http")) {
				t.Errorf("the error says more than it should: %v", err)
			}
			// And once the trouble is over the same goes through at once.
			if _, err := r.Send(t.Context(), at(c.curing), "key-"+tc.name, *ping.Say("flip it")); err != nil {
				t.Errorf("afterwards: %v", err)
			}
		})
	}
	// A message that did arrive, though nobody was told, is not there twice.
	for _, m := range c.ines.At(c.curing).Messages() {
		if len(m.Nonce) == 0 || len(m.Nonce) > 25 {
			t.Errorf("nonce %q", m.Nonce)
		}
	}
	if n := len(c.ines.At(c.curing).Messages()); n != 13 {
		t.Errorf("%d messages for 13 keys", n)
	}
}

// A message that was deleted cannot be changed any more.
func TestEditOfADeletedMessage(t *testing.T) {
	c := newClub(t)
	r := start(t, c, &adaptertest.Bot{})
	var ping reply.Reply
	ref, err := r.Send(t.Context(), at(c.curing), "k", *ping.Say("in the smoke"))
	if err != nil {
		t.Fatal(err)
	}
	here := c.ines.At(c.curing)
	here.Remove(here.WaitText("in the smoke"))
	var f *store.Failure
	if err := r.Edit(t.Context(), at(c.curing), ref, ping); !errors.As(err, &f) || f.Kind != store.Refused {
		t.Errorf("edit: %v", err)
	}
}

// A storm of 429s: pings wait as long as they are told, and come once each; what
// people ask meanwhile is answered.
func TestStormOf429s(t *testing.T) {
	l := newLive(t)
	here, there := l.ines.At(l.curing), l.tobias.At(l.elsewhere)
	l.open(here, "5 lb juniper 1.5 in")
	l.open(there, "3 kg coffee and chilli 4 cm")
	storm := l.s.Inject("POST", "/channels/*/messages", discordtest.RateLimited(90*time.Second), discordtest.Times(6))
	callbacks := l.s.Inject("POST", "/interactions/*/*/callback", discordtest.RateLimited(5*time.Millisecond), discordtest.After(1), discordtest.Times(3))
	l.pass(23 * time.Hour)
	if storm.Hits() == 0 {
		t.Fatal("no ping was due")
	}
	if m := l.slash(here, "batches"); !strings.Contains(m.Text, "1 batch:") {
		t.Errorf("meanwhile it reads %q", m.Text)
	}
	if m := l.slash(there, "batches"); callbacks.Hits() != 3 || !strings.Contains(m.Text, "1 batch:") {
		t.Errorf("after %d refused answers it reads %q", callbacks.Hits(), m.Text)
	}
	l.pass(89 * time.Second)
	early := storm.Hits()
	for range 4 {
		l.pass(91 * time.Second)
	}
	if early > 2 {
		t.Errorf("within the time it was told to wait it tried again: %d times", early)
	}
	for _, seat := range []*discordtest.Seat{here, there} {
		n := 0
		for _, m := range seat.Messages() {
			if strings.Contains(m.Text, "flip it") {
				n++
			}
		}
		if n != 1 {
			t.Errorf("%d pings", n)
		}
	}
}

// Removed from a server: its pings are held back, nothing else suffers, and they
// come when it speaks again.
func TestRemovedFromAServer(t *testing.T) {
	l := newLive(t)
	here, dm := l.ines.At(l.curing), l.ines.DM()
	l.open(here, "5 lb juniper 1.5 in")
	l.open(dm, "3 kg coffee and chilli 4 cm")
	second := l.s.AddGuild("Next Door")
	second.Join(l.ines) // so that she can still be written to
	l.guild.RemoveBot()
	l.pass(23 * time.Hour)
	dm.WaitText("flip it")
	tries := len(l.s.Requests("POST", "/channels/"+l.curing.ID+"/messages"))
	l.pass(24 * time.Hour)
	if n := len(l.s.Requests("POST", "/channels/"+l.curing.ID+"/messages")); n != tries {
		t.Errorf("the channel it was thrown out of was tried %d times more", n-tries)
	}
	l.guild.InviteBot()
	if m := l.slash(here, "batch"); !strings.Contains(wordsOf(m), "Batch 1 (juniper)") {
		t.Errorf("after the new invite it reads %q", m.Text)
	}
	l.pass(time.Minute)
	here.WaitText("flip it")
}

// Somebody who takes no messages costs nobody else theirs.
func TestClosedDirectMessages(t *testing.T) {
	l := newLive(t)
	l.open(l.ines.DM(), "5 lb juniper 1.5 in")
	l.open(l.tobias.DM(), "3 kg coffee and chilli 4 cm")
	l.ines.CloseDMs()
	l.pass(23 * time.Hour)
	l.tobias.DM().WaitText("flip it")
	l.ines.OpenDMs()
	l.slash(l.ines.DM(), "batches")
	l.pass(time.Minute)
	l.ines.DM().WaitText("flip it")
}
