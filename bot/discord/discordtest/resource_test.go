package discordtest_test

import (
	"encoding/json"
	"net/http"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

func TestListAndReply(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	first := post(t, bot, c.ines.At(c.curing))
	ref := func(id string, must bool) error {
		_, err := bot.ChannelMessageSendComplex(c.curing.ID, &discordgo.MessageSend{
			Content: "re", AllowedMentions: quiet(),
			Reference: &discordgo.MessageReference{MessageID: id, ChannelID: c.curing.ID, FailIfNotExists: &must},
		})
		return err
	}
	if err := ref(first.ID, true); err != nil {
		t.Fatal(err)
	}
	if m := c.ines.At(c.curing).WaitCount(2)[1]; m.ReplyTo != first.ID {
		t.Errorf("reply to %q, want %q", m.ReplyTo, first.ID)
	}
	if err := ref("1", true); restCode(err) != 50035 {
		t.Errorf("reply to nothing: %v, want 50035", err)
	}
	if err := ref("1", false); err != nil {
		t.Errorf("reply to nothing, not minded: %v", err)
	}
	got, err := bot.ChannelMessages(c.curing.ID, 2, "", "", "")
	if err != nil || len(got) != 2 || got[1].MessageReference == nil {
		t.Errorf("the latest two: %+v, %v", got, err)
	}
}

func TestThreadMembership(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	th := c.curing.StartThread("Batch 3", c.ines)
	for _, step := range []struct {
		name string
		do   func() error
		want int
	}{
		{"join", func() error { return bot.ThreadJoin(th.ID) }, 0},
		{"leave", func() error { return bot.ThreadLeave(th.ID) }, 0},
		{"remove another", func() error { return bot.ThreadMemberRemove(th.ID, c.ines.ID) }, 50013},
		{"add a stranger", func() error { return bot.ThreadMemberAdd(th.ID, s.AddPerson("Stranger").ID) }, 10007},
		{"look for one", func() error { _, err := bot.ThreadMember(th.ID, c.tobias.ID, false); return err }, 10007},
		{"list", func() error { _, err := bot.ThreadMembers(th.ID, 0, false, ""); return err }, 50001},
		{"join a channel", func() error { return bot.ThreadJoin(c.curing.ID) }, 50024},
		{"delete", func() error { _, err := bot.ChannelDelete(th.ID); return err }, 50013},
	} {
		if err := step.do(); restCode(err) != step.want || (err != nil) != (step.want != 0) {
			t.Errorf("%s: %v, want %d", step.name, err, step.want)
		}
	}
	th.Archive()
	if err := bot.ThreadJoin(th.ID); restCode(err) != 50083 {
		t.Errorf("join an archived thread: %v, want 50083", err)
	}
	c.guild.BotRole().Set(discordtest.ManageThreads)
	if _, err := bot.ChannelDelete(th.ID); err != nil {
		t.Errorf("a thread manager deletes: %v", err)
	}
}

func TestChannelSettings(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	edit := func(id, name string) error {
		_, err := bot.ChannelEditComplex(id, &discordgo.ChannelEdit{Name: name})
		return err
	}
	if err := edit(c.curing.ID, "smoke"); restCode(err) != 50013 {
		t.Errorf("rename without the permission: %v, want 50013", err)
	}
	c.guild.BotRole().Set(discordtest.ManageChannels)
	if err := edit(c.curing.ID, "smoke"); err != nil || c.curing.Name() != "smoke" {
		t.Errorf("rename: %v, now %q", err, c.curing.Name())
	}
	if err := edit(c.ines.DM().Channel().ID, "us"); restCode(err) != 50003 {
		t.Errorf("rename a direct message: %v, want 50003", err)
	}
	th := c.curing.StartThread("Batch 3", c.ines)
	if err := edit(th.ID, "Batch 4"); restCode(err) != 50013 {
		t.Errorf("rename another's thread: %v, want 50013", err)
	}
	own, err := bot.ThreadStart(c.curing.ID, "Batch 5", discordgo.ChannelTypeGuildPublicThread, 60)
	if err != nil {
		t.Fatal(err)
	}
	if err := edit(own.ID, "Batch 6"); err != nil {
		t.Errorf("rename its own thread: %v", err)
	}
	c.curing.Delete()
	if err := say(bot, own.ID); restCode(err) != 10003 {
		t.Errorf("send to the thread of a deleted channel: %v, want 10003", err)
	}
}

func TestMembersRolesOwners(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	if _, err := bot.GuildMember(c.guild.ID, s.AddPerson("Stranger").ID); restCode(err) != 10007 {
		t.Errorf("a stranger: %v, want 10007", err)
	}
	if _, err := bot.GuildMember(c.guild.ID, "1"); restCode(err) != 10013 {
		t.Errorf("nobody: %v, want 10013", err)
	}
	if _, err := bot.User(c.ines.ID); err != nil {
		t.Error(err)
	}
	boss := c.guild.AddRole("boss", discordtest.ManageChannels)
	boss.Mentionable()
	c.guild.Give(c.ines, boss)
	if !c.guild.PermissionsOf(c.ines).Has(discordtest.ManageChannels) {
		t.Error("the role gives nothing")
	}
	c.guild.Take(c.ines, boss)
	if c.guild.PermissionsOf(c.ines).Has(discordtest.ManageChannels) {
		t.Error("the role stays")
	}
	c.guild.SetOwner(c.ines)
	if c.guild.PermissionsOf(c.ines) != discordtest.AllPermissions {
		t.Error("the owner may not all")
	}
	c.guild.Rename(c.ines, "Ines the keeper")
	rs, err := bot.GuildRoles(c.guild.ID)
	if err != nil || len(rs) != 3 || !rs[2].Mentionable {
		t.Errorf("roles %+v, %v", rs, err)
	}
	m, err := bot.GuildMember(c.guild.ID, c.ines.ID)
	if err != nil || m.Nick != "Ines the keeper" {
		t.Errorf("member %+v, %v", m, err)
	}
}

func TestAnswerWithResponseAndDelete(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	answering(t, s, func(b *discordgo.Session, i *discordgo.Interaction) error {
		url := discordgo.EndpointInteractionResponse(i.ID, i.Token)
		raw, err := b.RequestWithBucketID("POST", url+"?with_response=true", reply("hello"), url)
		if err != nil {
			return err
		}
		var got struct {
			Resource struct{ Message discordgo.Message }
		}
		if err := json.Unmarshal(raw, &got); err != nil || got.Resource.Message.Content != "hello" {
			t.Errorf("callback response %s, %v", raw, err)
		}
		f, err := b.FollowupMessageCreate(i, true, &discordgo.WebhookParams{Content: "more", AllowedMentions: quiet()})
		if err != nil {
			return err
		}
		text := "less"
		if _, err := b.FollowupMessageEdit(i, f.ID, &discordgo.WebhookEdit{Content: &text}); err != nil {
			return err
		}
		if err := b.FollowupMessageDelete(i, f.ID); err != nil {
			return err
		}
		if err := b.InteractionResponseDelete(i); err != nil {
			return err
		}
		if _, err := b.InteractionResponse(i); restCode(err) != 10008 {
			t.Errorf("the deleted answer: %v, want 10008", err)
		}
		_, err = b.FollowupMessageCreate(i, true, &discordgo.WebhookParams{Content: "last", AllowedMentions: quiet()})
		return err
	})
	at := c.ines.At(c.curing)
	at.Slash("cure", discordtest.Opt("weight", "1 kg"))
	at.WaitText("last")
	if n := len(at.Messages()); n != 1 {
		t.Errorf("%d messages are left, want 1", n)
	}
	if left := s.Unanswered(); len(left) != 0 {
		t.Errorf("unanswered: %v", left)
	}
}

func TestUnanswered(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	open(t, bot)
	register(t, s, bot, cureCommand)
	c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg"))
	if got := s.Unanswered(); len(got) != 1 || got[0] != "/cure by Ines" {
		t.Errorf("unanswered %v", got)
	}
}

// TestByHand is a server at an address and on a clock of one's own.
func TestByHand(t *testing.T) {
	t.Parallel()
	at := time.Date(2026, time.October, 25, 1, 0, 0, 0, time.UTC)
	s := discordtest.New(t, discordtest.WithAddress("127.0.0.1:0"), discordtest.WithToken("secret"),
		discordtest.WithClock(func() time.Time { return at }), discordtest.WithPatience(time.Second))
	c := newClub(t, s)
	bot := newBot(t, s)
	m := post(t, bot, c.ines.At(c.curing))
	got, err := bot.ChannelMessage(c.curing.ID, m.ID)
	if err != nil || !got.Timestamp.Equal(at) {
		t.Errorf("message of %v, %v", got, err)
	}
	if made, err := discordgo.SnowflakeTimestamp(m.ID); err != nil || !made.Equal(at) {
		t.Errorf("the id says %v, %v", made, err)
	}
	bot.Token = "Bot guess"
	if _, err := bot.User("@me"); err == nil {
		t.Error("a wrong token is let in")
	}
	resp, err := http.Get(s.URL() + "/attachments/1/none")
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusNotFound {
		t.Errorf("no such file: %s", resp.Status)
	}
}

func TestOutageIsNotRemoval(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	// The library's state would forget the guild either way; this reads the event.
	gone := make(chan bool, 2)
	bot.AddHandler(func(_ *discordgo.Session, g *discordgo.GuildDelete) { gone <- g.Unavailable })
	open(t, bot)
	c.guild.Outage()
	if !<-gone {
		t.Error("an outage does not say so")
	}
	c.guild.Recover()
	c.guild.RemoveBot()
	if <-gone {
		t.Error("a removal says it is an outage")
	}
}
