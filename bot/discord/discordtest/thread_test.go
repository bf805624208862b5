package discordtest_test

import (
	"testing"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

func say(bot *discordgo.Session, ch string) error {
	_, err := bot.ChannelMessageSendComplex(ch, &discordgo.MessageSend{Content: "flip", AllowedMentions: quiet()})
	return err
}

func TestThreadLife(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	m := post(t, bot, c.ines.At(c.curing), row(flipped))
	th, err := bot.MessageThreadStart(c.curing.ID, m.ID, "Batch 3", 1440)
	if err != nil {
		t.Fatal(err)
	}
	if th.ID != m.ID || th.ParentID != c.curing.ID || th.ThreadMetadata.AutoArchiveDuration != 1440 {
		t.Errorf("thread %+v", th)
	}
	if _, err := bot.MessageThreadStart(c.curing.ID, m.ID, "again", 1440); restCode(err) != 160004 {
		t.Errorf("a second thread: %v, want 160004", err)
	}
	alone, err := bot.ThreadStart(c.curing.ID, "Batch 4", discordgo.ChannelTypeGuildPublicThread, 60)
	if err != nil || alone.Name != "Batch 4" {
		t.Fatalf("%+v, %v", alone, err)
	}
	if _, err := bot.ThreadStart(c.curing.ID, "secret", discordgo.ChannelTypeGuildPrivateThread, 60); restCode(err) != 50013 {
		t.Errorf("private thread without the permission: %v, want 50013", err)
	}
	active, err := bot.GuildThreadsActive(c.guild.ID)
	if err != nil || len(active.Threads) != 2 {
		t.Errorf("active %+v, %v", active, err)
	}
	if err := bot.ThreadMemberAdd(alone.ID, c.tobias.ID); err != nil {
		t.Error(err)
	}
	if tm, err := bot.ThreadMember(alone.ID, c.tobias.ID, false); err != nil || tm.UserID != c.tobias.ID {
		t.Errorf("member %+v, %v", tm, err)
	}
}

// topics/threads.mdx: a message wakes an archived thread unless it is locked;
// archived threads take no edits.
func TestArchivedAndLockedThreads(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	th := c.curing.StartThread("Batch 3", c.ines)
	old := post(t, bot, c.ines.At(th))
	th.Archive()
	edit := discordgo.NewMessageEdit(th.ID, old.ID).SetContent("new")
	if _, err := bot.ChannelMessageEditComplex(edit); restCode(err) != 50083 {
		t.Errorf("edit in an archived thread: %v, want 50083", err)
	}
	open := false
	if _, err := bot.ChannelEditComplex(th.ID, &discordgo.ChannelEdit{Archived: &open}); err != nil || th.Archived() {
		t.Errorf("unarchive: %v, archived %v", err, th.Archived())
	}
	th.Archive()
	if err := say(bot, th.ID); err != nil || th.Archived() {
		t.Errorf("send to an archived thread: %v, archived %v", err, th.Archived())
	}
	th.Lock()
	if err := say(bot, th.ID); restCode(err) != 160005 {
		t.Errorf("send to a locked thread: %v, want 160005", err)
	}
	if _, err := bot.ChannelEditComplex(th.ID, &discordgo.ChannelEdit{Archived: &open}); restCode(err) != 50013 {
		t.Errorf("unarchive a locked thread: %v, want 50013", err)
	}
	c.guild.BotRole().Set(discordtest.ManageThreads)
	if err := say(bot, th.ID); err != nil {
		t.Errorf("a thread manager sends to a locked thread: %v", err)
	}
	th.Delete()
	if err := say(bot, th.ID); restCode(err) != 10003 {
		t.Errorf("send to a deleted thread: %v, want 10003", err)
	}
}

func TestThreadEventsReachTheBot(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	events := make(chan string, 8)
	bot.AddHandler(func(_ *discordgo.Session, e *discordgo.ThreadCreate) { events <- "create " + e.Name })
	bot.AddHandler(func(_ *discordgo.Session, e *discordgo.ThreadUpdate) {
		if e.ThreadMetadata.Archived {
			events <- "archived"
		}
	})
	bot.AddHandler(func(_ *discordgo.Session, e *discordgo.ThreadDelete) { events <- "delete " + e.ID })
	bot.AddHandler(func(_ *discordgo.Session, e *discordgo.GuildDelete) { events <- "removed " + e.ID })
	open(t, bot)
	th := c.curing.StartThread("Batch 3", c.ines)
	for _, step := range []struct {
		do   func()
		want string
	}{
		{func() {}, "create Batch 3"},
		{th.Archive, "archived"},
		{th.Delete, "delete " + th.ID},
		{c.guild.RemoveBot, "removed " + c.guild.ID},
	} {
		step.do()
		if got := <-events; got != step.want {
			t.Errorf("event %q, want %q", got, step.want)
		}
	}
	if err := say(bot, c.curing.ID); restCode(err) != 50001 {
		t.Errorf("send after removal: %v, want 50001", err)
	}
	c.guild.InviteBot()
	if err := say(bot, c.curing.ID); err != nil {
		t.Errorf("send after the new invite: %v", err)
	}
}
