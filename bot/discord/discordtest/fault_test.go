package discordtest_test

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

func TestRateLimits(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	for _, kind := range []discordtest.FaultKind{
		discordtest.RateLimited(50 * time.Millisecond), discordtest.RateLimitedGlobally(50 * time.Millisecond),
		discordtest.RateLimitedShared(50 * time.Millisecond),
	} {
		f := s.Inject("POST", "/channels/*/messages", kind)
		err := say(newBot(t, s), c.curing.ID)
		var limit *discordgo.RateLimitError
		if !errors.As(err, &limit) || limit.RetryAfter != 50*time.Millisecond || f.Hits() != 1 {
			t.Errorf("error %v, hits %d", err, f.Hits())
		}
	}
	if err := say(newBot(t, s), c.curing.ID); err != nil {
		t.Errorf("after the faults: %v", err)
	}
	if n := len(s.Requests("POST", "/channels/*/messages")); n != 4 {
		t.Errorf("%d requests recorded, want 4", n)
	}
}

func TestRefusals(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	for want, kind := range map[int]discordtest.FaultKind{
		50001: discordtest.MissingAccess(), 50013: discordtest.MissingPermissions(), 50007: discordtest.CannotMessage(),
		10003: discordtest.UnknownChannel(), 10008: discordtest.UnknownMessage(), 10015: discordtest.UnknownWebhook(),
	} {
		s.Inject("POST", "/channels/*/messages", kind)
		if err := say(newBot(t, s), c.curing.ID); restCode(err) != want {
			t.Errorf("error %v, want %d", err, want)
		}
	}
	for want, kind := range map[int]discordtest.FaultKind{
		401: discordtest.Unauthorized(), 500: discordtest.ServerError(500), 503: discordtest.ServerError(503),
	} {
		s.Inject("POST", "", kind)
		var re *discordgo.RESTError
		if err := say(newBot(t, s), c.curing.ID); !errors.As(err, &re) || re.Response.StatusCode != want {
			t.Errorf("error %v, want status %d", err, want)
		}
	}
	if len(c.ines.At(c.curing).Messages()) != 0 {
		t.Error("a refused message is shown")
	}
}

func TestLostConnections(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	for i, tc := range []struct {
		kind  discordtest.FaultKind
		shown int
	}{
		{discordtest.Reset(), 0}, {discordtest.ResetAfter(), 1},
	} {
		s.Inject("POST", "/channels/*/messages", tc.kind)
		if err := say(newBot(t, s), c.curing.ID); err == nil {
			t.Errorf("%d: no error", i)
		}
		if n := len(c.ines.At(c.curing).Messages()); n != tc.shown {
			t.Errorf("%d: %d messages shown, want %d", i, n, tc.shown)
		}
	}
}

func TestHangAndHold(t *testing.T) {
	t.Parallel()
	for name, tc := range map[string]struct {
		kind  discordtest.FaultKind
		shown int
	}{
		"hang": {discordtest.Hang(), 0}, "hold": {discordtest.HoldAnswer(), 1},
	} {
		s := discordtest.New(t)
		c := newClub(t, s)
		bot := newBot(t, s)
		f := s.Inject("POST", "/channels/*/messages", tc.kind, discordtest.Times(2))
		ctx, cancel := context.WithCancel(t.Context())
		done := make(chan error, 1)
		go func() {
			_, err := bot.ChannelMessageSendComplex(c.curing.ID, &discordgo.MessageSend{Content: "x", AllowedMentions: quiet()}, discordgo.WithContext(ctx))
			done <- err
		}()
		f.WaitHits(1)
		cancel()
		if err := <-done; !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v, want cancelled", name, err)
		}
		if n := len(c.ines.At(c.curing).Messages()); n != tc.shown {
			t.Errorf("%s: %d messages after giving up, want %d", name, n, tc.shown)
		}
		go func() { done <- say(bot, c.curing.ID) }()
		f.WaitHits(2)
		f.Release()
		if err := <-done; err != nil {
			t.Errorf("%s: after the release: %v", name, err)
		}
		if n := len(c.ines.At(c.curing).Messages()); n != tc.shown+1 {
			t.Errorf("%s: %d messages in the end, want %d", name, n, tc.shown+1)
		}
	}
}

func TestSlowAndSkipped(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	f := s.Inject("POST", "/channels/*/messages", discordtest.Slow(time.Millisecond), discordtest.After(1), discordtest.Always())
	for range 3 {
		if err := say(bot, c.curing.ID); err != nil {
			t.Fatal(err)
		}
	}
	if f.Hits() != 2 {
		t.Errorf("%d hits, want 2", f.Hits())
	}
	f.Remove()
	if err := say(bot, c.curing.ID); err != nil || f.Hits() != 2 {
		t.Errorf("after Remove: %v, hits %d", err, f.Hits())
	}
	reqs := s.WaitRequests("POST", "/channels/*/messages", 4)
	if reqs[0].Route != "/channels/{channel_id}/messages" || reqs[0].Status != 200 || len(reqs[0].Body) == 0 {
		t.Errorf("recorded %+v", reqs[0])
	}
}
