package telegramtest_test

import (
	"slices"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

const clubName = "Quarry Lane Smokehouse Club"

// texts of the messages among updates.
func texts(us []tgbotapi.Update) []string {
	var out []string
	for _, u := range us {
		if u.Message != nil && u.Message.Text != "" {
			out = append(out, u.Message.Text)
		}
	}
	return out
}

// core.telegram.org/bots/features#privacy-mode; a mention counts by BotFather's
// words, from memory.
func TestPrivacyMode(t *testing.T) {
	tg := start(t, telegramtest.WithUsername("larder_bot"))
	bot := client(t, tg)
	ines, tobias := tg.User("Ines"), tg.User("Tobias")
	club := tg.Supergroup(clubName, ines, tobias)
	other := tg.Person(telegramtest.User{FirstName: "Other", Username: "other_bot", IsBot: true})
	club.Join(other)
	said := send(t, bot, html(club.ID(), "hello"))
	drain(t, bot)

	club.Say(ines, "nice weather")
	club.Say(ines, "/flip 3")
	club.Say(ines, "/flip@LARDER_bot 3")
	club.Say(ines, "/flip@other_bot 3")
	club.Say(ines, "what does @larder_bot say?")
	first := club.Messages()[0]
	club.Reply(tobias, telegramtest.Message{ID: said.MessageID}, "to the bot")
	club.Reply(tobias, first, "to a person")
	club.Say(other, "/flip@larder_bot")
	club.Say(ines, "/batch") // the other bot spoke last
	want := []string{"/flip 3", "/flip@LARDER_bot 3", "what does @larder_bot say?", "to the bot"}
	if got := texts(drain(t, bot)); !slices.Equal(got, want) {
		t.Errorf("the bot read %q, want %q", got, want)
	}

	club.PromoteBot(ines)
	club.Say(ines, "an administrator reads this")
	if got := texts(drain(t, bot)); len(got) != 1 {
		t.Errorf("as administrator: %q", got)
	}
}

func TestPrivacyOff(t *testing.T) {
	tg := start(t, telegramtest.WithPrivacyOff())
	bot := client(t, tg)
	ines := tg.User("Ines")
	tg.Group(clubName, ines).Say(ines, "nice weather")
	if got := texts(drain(t, bot)); len(got) != 1 || !bot.Self.CanReadAllGroupMessages {
		t.Errorf("read %q", got)
	}
}

func TestComingAndGoing(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines, tobias := tg.User("Ines"), tg.User("Tobias")
	club := tg.Group(clubName, ines)
	got := drain(t, bot)
	if len(got) != 2 || got[0].MyChatMember.NewChatMember.Status != "member" || got[0].MyChatMember.OldChatMember.Status != "left" ||
		got[0].MyChatMember.From.ID != ines.ID || got[1].Message.NewChatMembers[0].ID != tg.BotID() {
		t.Fatalf("on being added: %+v", got)
	}
	club.Kick(ines)
	got = drain(t, bot)
	if len(got) != 2 || got[0].MyChatMember.NewChatMember.Status != "kicked" || got[1].Message.LeftChatMember.ID != tg.BotID() {
		t.Errorf("on being removed: %+v", got)
	}
	_, err := bot.Send(html(club.ID(), "x"))
	refused(t, err, 403, "Forbidden: bot was kicked from the group chat")
	club.Say(ines, "/start")
	if got := drain(t, bot); len(got) != 0 {
		t.Errorf("read after being removed: %+v", got)
	}

	club.AddBot(ines)
	club.Join(tobias)
	if _, err := bot.Request(tgbotapi.LeaveChatConfig{ChatID: club.ID()}); err != nil {
		t.Fatal(err)
	}
	_, err = bot.Send(html(club.ID(), "x"))
	refused(t, err, 403, "bot is not a member of the group chat")

	super := tg.Supergroup(clubName, ines)
	super.Mute(ines)
	_, err = bot.Send(html(super.ID(), "x"))
	refused(t, err, 400, "not enough rights to send text messages to the chat")
	super.Unmute(ines)
	send(t, bot, html(super.ID(), "x"))
	super.Kick(ines)
	_, err = bot.GetChat(tgbotapi.ChatInfoConfig{ChatConfig: tgbotapi.ChatConfig{ChatID: super.ID()}})
	refused(t, err, 403, "bot was kicked from the supergroup chat")
}

func TestBlocked(t *testing.T) {
	_, bot, chat, _, ines := open(t)
	drain(t, bot)
	chat.Block()
	got := drain(t, bot)
	if len(got) != 1 || got[0].MyChatMember.NewChatMember.Status != "kicked" || got[0].MyChatMember.Chat.Type != "private" {
		t.Errorf("on the block: %+v", got)
	}
	_, err := bot.Send(html(chat.ID(), "x"))
	refused(t, err, 403, "Forbidden: bot was blocked by the user")
	chat.Unblock()
	chat.Start(ines, "")
	send(t, bot, html(chat.ID(), "x"))
	if got := drain(t, bot); got[0].MyChatMember.NewChatMember.Status != "member" {
		t.Errorf("on the end of it: %+v", got)
	}
	chat.Dissolve()
	_, err = bot.Send(html(chat.ID(), "x"))
	refused(t, err, 403, "user is deactivated")
}

func TestMigration(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines, tobias := tg.User("Ines"), tg.User("Tobias")
	club := tg.Group(clubName, ines, tobias)
	drain(t, bot)
	super := club.Migrate(ines)
	got := drain(t, bot)
	if len(got) != 2 || got[0].Message.MigrateToChatID != super.ID() || got[0].Message.Chat.ID != club.ID() ||
		got[1].Message.MigrateFromChatID != club.ID() || got[1].Message.Chat.ID != super.ID() {
		t.Fatalf("updates: %+v", got)
	}
	_, err := bot.Send(html(club.ID(), "x"))
	if e := refused(t, err, 400, "group chat was upgraded to a supergroup chat"); e.MigrateToChatID != super.ID() {
		t.Errorf("migrate_to_chat_id %d, want %d", e.MigrateToChatID, super.ID())
	}
	send(t, bot, html(super.ID(), "x"))
	super.Say(tobias, "/flip 3")
	if got := texts(drain(t, bot)); len(got) != 1 {
		t.Errorf("read in the new chat: %q", got)
	}
	if super.ID() > -1_000_000_000_000 {
		t.Errorf("the identifier %d fits 32 bits or looks like a group's", super.ID())
	}
}

func TestMigrationUnheard(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	club := tg.Group(clubName, ines)
	drain(t, bot)
	super := club.MigrateUnheard(ines)
	if got := drain(t, bot); len(got) != 0 {
		t.Errorf("heard of it: %+v", got)
	}
	_, err := bot.UploadFiles("sendDocument", tgbotapi.Params{"chat_id": chatID(club)},
		[]tgbotapi.RequestFile{{Name: "document", Data: tgbotapi.FileBytes{Name: "a.csv", Bytes: []byte("a")}}})
	// The library leaves the code of a failed upload at 0.
	if e := refused(t, err, 0, "upgraded"); e.MigrateToChatID != super.ID() {
		t.Errorf("migrate_to_chat_id %d, want %d", e.MigrateToChatID, super.ID())
	}
}

func TestSendersWhoAreNoPerson(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	club := tg.Supergroup(clubName, ines)
	news := tg.Channel("Quarry Lane News", ines)
	drain(t, bot)
	club.SayAnonymously("/flip@" + tg.Username() + " 3")
	club.SayAs(news, "/flip@"+tg.Username()+" 4")
	post := news.Post("/flip 5")
	club.ForwardPost(news, post)
	got := drain(t, bot)
	if len(got) != 4 {
		t.Fatalf("updates: %+v", got)
	}
	if m := got[0].Message; m.SenderChat.ID != club.ID() || m.From.ID != 1087968824 {
		t.Errorf("anonymous: %+v", m)
	}
	if m := got[1].Message; m.SenderChat.ID != news.ID() || m.From.UserName != "Channel_Bot" {
		t.Errorf("as a channel: %+v", m)
	}
	if m := got[2].ChannelPost; m == nil || m.From != nil || m.SenderChat.ID != news.ID() {
		t.Errorf("channel post: %+v", m)
	}
	if m := got[3].Message; !m.IsAutomaticForward || m.From.ID != 777000 {
		t.Errorf("forwarded post: %+v", m)
	}
}

func TestWhoIsWho(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines, tobias, marit, stranger := tg.User("Ines"), tg.User("Tobias"), tg.User("Marit"), tg.User("Stranger")
	club := tg.Supergroup(clubName, ines, tobias, marit)
	club.Promote(tobias)
	status := func(u *telegramtest.User) string {
		m, err := bot.GetChatMember(tgbotapi.GetChatMemberConfig{ChatConfigWithUser: tgbotapi.ChatConfigWithUser{ChatID: club.ID(), UserID: u.ID}})
		if err != nil {
			t.Fatal(err)
		}
		return m.Status
	}
	for u, want := range map[*telegramtest.User]string{ines: "creator", tobias: "administrator", marit: "member", stranger: "left"} {
		if got := status(u); got != want {
			t.Errorf("%s is %s, want %s", u.FirstName, got, want)
		}
	}
	admins, err := bot.GetChatAdministrators(tgbotapi.ChatAdministratorsConfig{ChatConfig: tgbotapi.ChatConfig{ChatID: club.ID()}})
	if err != nil || len(admins) != 2 {
		t.Errorf("administrators: %+v %v", admins, err)
	}
	club.Demote(tobias)
	club.Leave(marit)
	if status(tobias) != "member" || status(marit) != "left" {
		t.Error("demoting or leaving did not show")
	}
	_, err = bot.GetChatAdministrators(tgbotapi.ChatAdministratorsConfig{ChatConfig: tgbotapi.ChatConfig{ChatID: tg.Private(ines).ID()}})
	refused(t, err, 400, "there are no administrators in the private chat")
	chat, err := bot.GetChat(tgbotapi.ChatInfoConfig{ChatConfig: tgbotapi.ChatConfig{ChatID: club.ID()}})
	if err != nil || chat.Title != clubName {
		t.Errorf("chat: %+v %v", chat, err)
	}
}

func TestEditedByAPerson(t *testing.T) {
	_, bot, chat, _, ines := open(t)
	said := chat.Say(ines, "/cure 4 lb")
	drain(t, bot)
	chat.Edit(said, "/cure 5 lb")
	if got := drain(t, bot); len(got) != 1 || got[0].EditedMessage.Text != "/cure 5 lb" || got[0].EditedMessage.EditDate == 0 {
		t.Errorf("updates: %+v", got)
	}
}
