package telegramtest_test

import (
	"strings"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

// The order is that of "Determining list of commands" (Bot API, BotCommandScope).
func TestMenus(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.Person(telegramtest.User{FirstName: "Ines", Language: "de"})
	tobias, marit := tg.User("Tobias"), tg.User("Marit")
	club := tg.Supergroup(clubName, ines, tobias, marit)
	club.Promote(tobias)
	dm := tg.Private(ines)

	set := func(scope tgbotapi.BotCommandScope, language, name string) {
		t.Helper()
		if _, err := bot.Request(tgbotapi.NewSetMyCommandsWithScopeAndLanguage(scope, language, tgbotapi.BotCommand{Command: name, Description: "what it does"})); err != nil {
			t.Fatal(err)
		}
	}
	sees := func(r *telegramtest.Room, u *telegramtest.User, want string) {
		t.Helper()
		menu := r.MenuFor(u)
		if want == "" && menu == nil {
			return
		}
		if len(menu) != 1 || menu[0].Name != want {
			t.Errorf("%s sees %+v, want %q", u.FirstName, menu, want)
		}
	}
	sees(dm, ines, "")
	set(tgbotapi.NewBotCommandScopeDefault(), "", "any")
	sees(dm, ines, "any")
	set(tgbotapi.NewBotCommandScopeDefault(), "de", "egal")
	sees(dm, ines, "egal")
	set(tgbotapi.NewBotCommandScopeAllPrivateChats(), "", "private")
	sees(dm, ines, "private")
	sees(club, marit, "any")
	set(tgbotapi.NewBotCommandScopeAllGroupChats(), "", "groups")
	sees(club, marit, "groups")
	sees(club, tobias, "groups")
	set(tgbotapi.NewBotCommandScopeAllChatAdministrators(), "", "chiefs")
	sees(club, tobias, "chiefs")
	sees(club, marit, "groups")
	set(tgbotapi.NewBotCommandScopeChat(club.ID()), "", "club")
	sees(club, tobias, "club")
	set(tgbotapi.NewBotCommandScopeChatMember(club.ID(), marit.ID), "", "marit")
	sees(club, marit, "marit")

	got, err := bot.GetMyCommandsWithConfig(tgbotapi.NewGetMyCommandsWithScopeAndLanguage(tgbotapi.NewBotCommandScopeDefault(), "de"))
	if err != nil || len(got) != 1 || got[0].Command != "egal" {
		t.Errorf("getMyCommands: %+v %v", got, err)
	}
	if _, err := bot.Request(tgbotapi.NewDeleteMyCommandsWithScope(tgbotapi.NewBotCommandScopeAllPrivateChats())); err != nil {
		t.Fatal(err)
	}
	sees(dm, ines, "egal")
}

func TestAbout(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	for method, p := range map[string]tgbotapi.Params{
		"setMyDescription":      {"description": "Keeps your bellies straight."},
		"setMyShortDescription": {"short_description": "Bacon, day by day.", "language_code": "en"},
	} {
		if _, err := bot.MakeRequest(method, p); err != nil {
			t.Fatal(err)
		}
	}
	if tg.Description("de") != "Keeps your bellies straight." || tg.ShortDescription("en") != "Bacon, day by day." || tg.ShortDescription("de") != "" {
		t.Errorf("%q %q %q", tg.Description("de"), tg.ShortDescription("en"), tg.ShortDescription("de"))
	}
	resp, err := bot.MakeRequest("getMyDescription", nil)
	if err != nil || !strings.Contains(string(resp.Result), "straight") {
		t.Errorf("%s %v", resp.Result, err)
	}
}
