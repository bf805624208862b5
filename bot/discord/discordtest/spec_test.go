package discordtest_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

// TestRequestsAreHeldToTheOpenAPIDescription breaks it where no limit of ours
// looks.
func TestRequestsAreHeldToTheOpenAPIDescription(t *testing.T) {
	t.Parallel()
	discordtest.New(t).Skip()
	for want, body := range map[string]j{
		`/content: got number, want null or string`: msg(j{"content": 5}),
		`knows no field "allowed_mention"`:          msg(j{"allowed_mention": j{}}),
		`/embeds/0/color: maximum`:                  embed(j{"title": "x", "color": 1 << 24}),
		`/embeds/0/timestamp: 'noon' is not valid`:  embed(j{"title": "x", "timestamp": "noon"}),
		`/components/0/components/0/disabled`:       part(j{"type": 2, "style": 1, "label": "x", "custom_id": "a", "disabled": "yes"}),
		`/allowed_mentions/users/0`:                 msg(j{"allowed_mentions": j{"users": []string{"Ines"}}}),
	} {
		out := judged(t, nil, func(s *discordtest.Server) {
			c := newClub(t, s)
			url := discordgo.EndpointChannelMessages(c.curing.ID)
			if _, err := newBot(t, s).RequestWithBucketID("POST", url, body, url); restCode(err) != 50035 {
				t.Errorf("%s: error %v, want 50035", want, err)
			}
			if s.Checked() == 0 {
				t.Error("nothing was checked")
			}
		})
		if !strings.Contains(out.said(), want) {
			t.Errorf("said %q, want %q", out.said(), want)
		}
		if n := strings.Count(out.said(), ";"); n > 1 {
			t.Errorf("%d findings for one fault: %s", n+1, out.said())
		}
	}
}

func TestQueryIsHeldToTheOpenAPIDescription(t *testing.T) {
	t.Parallel()
	discordtest.New(t).Skip()
	out := judged(t, nil, func(s *discordtest.Server) {
		url := discordgo.EndpointAPI + "users/@me?verbose=1"
		if _, err := newBot(t, s).RequestWithBucketID("GET", url, nil, url); err == nil {
			t.Error("no error")
		}
	})
	if !strings.Contains(out.said(), `no query parameter "verbose"`) {
		t.Errorf("said %q", out.said())
	}
}

// The readers of plain resources: what they answer is held to the description
// by the server itself.
func TestResourcesAreAsDescribed(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	th := c.curing.StartThread("Batch 3", c.ines)
	th.Archive()
	c.guild.AddAnnouncements("news")
	bot := newBot(t, s)
	if g, err := bot.Guild(c.guild.ID); err != nil || len(g.Roles) != 2 {
		t.Errorf("guild %+v, %v", g, err)
	}
	if m, err := bot.GuildMember(c.guild.ID, c.ines.ID); err != nil || m.User.Username != "Ines" {
		t.Errorf("member %+v, %v", m, err)
	}
	if _, err := bot.GuildMembers(c.guild.ID, "", 10); restCode(err) != 50001 {
		t.Errorf("the member list without the privileged intent: %v, want 50001", err)
	}
	if chs, err := bot.GuildChannels(c.guild.ID); err != nil || len(chs) != 2 {
		t.Errorf("channels %+v, %v", chs, err)
	}
	if ts, err := bot.ThreadsArchived(c.curing.ID, nil, 0); err != nil || len(ts.Threads) != 1 {
		t.Errorf("archived %+v, %v", ts, err)
	}
	if me, err := bot.User("@me"); err != nil || me.ID != s.Bot().ID || !me.Bot {
		t.Errorf("me %+v, %v", me, err)
	}
	if app, err := bot.Application("@me"); err != nil || app.ID != s.AppID() {
		t.Errorf("application %+v, %v", app, err)
	}
	if gs, err := bot.UserGuilds(10, "", "", false); err != nil || len(gs) != 1 {
		t.Errorf("guilds %+v, %v", gs, err)
	}
	if err := bot.ChannelTyping(c.curing.ID); err != nil {
		t.Error(err)
	}
	if ch, err := bot.Channel(th.ID); err != nil || !ch.ThreadMetadata.Archived {
		t.Errorf("channel %+v, %v", ch, err)
	}
	if err := bot.GuildLeave(c.guild.ID); err != nil {
		t.Error(err)
	}
	if _, err := bot.Guild(c.guild.ID); restCode(err) != 10004 {
		t.Errorf("guild after leaving: %v, want 10004", err)
	}
}

func TestReportSaysWhatWasChecked(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	s.Skip()
	if _, err := newBot(t, s).User("@me"); err != nil {
		t.Fatal(err)
	}
	if s.Checked() != 2 {
		t.Errorf("%d checked, want the request and the response", s.Checked())
	}
	var out bytes.Buffer
	discordtest.Report(&out)
	if !strings.HasPrefix(out.String(), "discord: ") || !strings.HasSuffix(out.String(), " responses and events checked against the OpenAPI description\n") {
		t.Errorf("report %q", out.String())
	}
}

func TestWithoutTheDescriptionTheLimitsStillHold(t *testing.T) {
	t.Parallel()
	out := judged(t, []discordtest.Option{discordtest.WithSpecs("")}, func(s *discordtest.Server) {
		c := newClub(t, s)
		url := discordgo.EndpointChannelMessages(c.curing.ID)
		newBot(t, s).RequestWithBucketID("POST", url, j{"content": "x"}, url)
		if s.Checked() != 0 {
			t.Errorf("%d checked against nothing", s.Checked())
		}
	})
	if !strings.Contains(out.said(), "without allowed_mentions") {
		t.Errorf("said %q", out.said())
	}
}

func TestAMissingDescriptionIsAnError(t *testing.T) {
	t.Parallel()
	out := &judge{TB: t}
	done := make(chan struct{})
	go func() {
		defer close(done)
		discordtest.New(out, discordtest.WithSpecs(filepath.Join(os.TempDir(), "no-such-folder")))
	}()
	<-done
	if !out.fatal {
		t.Errorf("said %q, want a failure", out.said())
	}
}
