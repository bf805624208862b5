package telegramtest_test

import (
	"strings"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

func TestGetMe(t *testing.T) {
	tg := start(t, telegramtest.WithUsername("quarry_lane_bot"))
	bot := client(t, tg)
	if bot.Self.UserName != "quarry_lane_bot" || bot.Self.ID != tg.BotID() || !bot.Self.IsBot || bot.Self.CanReadAllGroupMessages {
		t.Errorf("getMe: %+v", bot.Self)
	}
}

// An update is confirmed when a later call has a higher offset (Bot API,
// getUpdates).
func TestUpdatesAreRepeatedUntilConfirmed(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.Person(telegramtest.User{FirstName: "Ines", Language: "de"})
	chat := tg.Private(ines)
	chat.Start(ines, "share_7")
	chat.Say(ines, "🥓 5 lb /cure")

	for range 2 {
		got := updates(t, bot, 0)
		if len(got) != 2 || !got[0].Message.IsCommand() || got[0].Message.CommandArguments() != "share_7" {
			t.Fatalf("pending: %+v", got)
		}
		if e := got[1].Message.Entities; len(e) != 1 || e[0].Type != "bot_command" || e[0].Offset != 8 {
			t.Errorf("entities of a command after an emoji: %+v", e)
		}
		if got[0].Message.From.LanguageCode != "de" || got[0].Message.Chat.ID != ines.ID || !got[0].Message.Chat.IsPrivate() {
			t.Errorf("message: %+v", got[0].Message)
		}
	}
	got := updates(t, bot, 0)
	if rest := updates(t, bot, got[0].UpdateID+1); len(rest) != 1 || rest[0].UpdateID != got[1].UpdateID {
		t.Errorf("after confirming the first: %+v", rest)
	}
	if rest := updates(t, bot, got[1].UpdateID+1); len(rest) != 0 || tg.Pending() != 0 {
		t.Errorf("after confirming both: %+v", rest)
	}
}

func TestLimitAndNegativeOffset(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	for _, text := range []string{"one", "two", "three"} {
		tg.Private(ines).Say(ines, text)
	}
	got, err := bot.GetUpdates(tgbotapi.UpdateConfig{Limit: 2, AllowedUpdates: []string{}})
	if err != nil || len(got) != 2 || got[0].Message.Text != "one" {
		t.Errorf("limit 2: %+v %v", got, err)
	}
	if got := updates(t, bot, -1); len(got) != 1 || got[0].Message.Text != "three" || tg.Pending() != 1 {
		t.Errorf("offset -1: %+v", got)
	}
}

func TestLongPollWakes(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	got := make(chan []tgbotapi.Update, 1)
	go func() {
		u, err := bot.GetUpdates(tgbotapi.UpdateConfig{Timeout: 50, AllowedUpdates: []string{}})
		if err != nil {
			t.Error(err)
		}
		got <- u
	}()
	tg.AwaitPolling()
	tg.Private(ines).Say(ines, "/flip 3")
	if u := <-got; len(u) != 1 || u[0].Message.Command() != "flip" {
		t.Errorf("woken with %+v", u)
	}
}

func TestTwoPollers(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ended := make(chan error, 1)
	go func() {
		_, err := bot.GetUpdates(tgbotapi.UpdateConfig{Timeout: 50, AllowedUpdates: []string{}})
		ended <- err
	}()
	tg.AwaitPolling()
	second := make(chan error, 1)
	go func() {
		_, err := bot.GetUpdates(tgbotapi.UpdateConfig{Timeout: 50, AllowedUpdates: []string{}})
		second <- err
	}()
	refused(t, <-ended, 409, "terminated by other getUpdates request")
	ines := tg.User("Ines")
	tg.Private(ines).Say(ines, "x")
	if err := <-second; err != nil {
		t.Error(err)
	}
}

func TestRival(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ended := make(chan error, 1)
	go func() {
		_, err := bot.GetUpdates(tgbotapi.UpdateConfig{Timeout: 50, AllowedUpdates: []string{}})
		ended <- err
	}()
	tg.AwaitPolling()
	rival := tg.Rival()
	refused(t, <-ended, 409, "make sure that only one bot instance is running")
	_, err := bot.GetUpdates(tgbotapi.UpdateConfig{AllowedUpdates: []string{}})
	refused(t, err, 409, "other getUpdates")
	rival.Clear()
	updates(t, bot, 0)
}

// The list set last stays in force, and what is not asked for never arrives (Bot
// API, getUpdates).
func TestAllowedUpdates(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	if _, err := bot.GetUpdates(tgbotapi.UpdateConfig{AllowedUpdates: []string{"my_chat_member"}}); err != nil {
		t.Fatal(err)
	}
	chat := tg.Private(ines)
	chat.Say(ines, "hello")
	chat.Block()
	resp, err := bot.MakeRequest("getUpdates", tgbotapi.Params{})
	if err != nil || strings.Contains(string(resp.Result), "hello") || !strings.Contains(string(resp.Result), "kicked") {
		t.Errorf("%s %v", resp.Result, err)
	}
}

func TestTokens(t *testing.T) {
	tg := start(t)
	for _, token := range []string{"7000000001:wrong", "nonsense"} {
		_, err := tgbotapi.NewBotAPIWithAPIEndpoint(token, tg.URL()+"/bot%s/%s")
		refused(t, err, 401, "Unauthorized")
	}
	_, err := tgbotapi.NewBotAPIWithAPIEndpoint(tg.Token(), tg.URL()+"/robot%s/%s")
	refused(t, err, 404, "Not Found")
}

func TestUnknownMethod(t *testing.T) {
	tg := start(t, telegramtest.WithoutMethods("setMyCommands"))
	bot := client(t, tg)
	_, err := bot.Request(tgbotapi.NewSetMyCommands(tgbotapi.BotCommand{Command: "flip", Description: "turn the bags"}))
	refused(t, err, 404, "Not Found: method not found")
	if got := tg.Violations(); len(got) != 0 {
		t.Errorf("a method the server does not know is no mistake of the bot: %q", got)
	}
	tg.Allow("getSmoke")
	_, err = bot.MakeRequest("getSmoke", nil)
	refused(t, err, 404, "Not Found: method not found")
	if got := tg.Violations(); len(got) == 0 {
		t.Error("a method nobody knows passed")
	}
}

func TestLoggedOut(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	if _, err := bot.MakeRequest("logOut", nil); err != nil {
		t.Fatal(err)
	}
	_, err := bot.GetMe()
	refused(t, err, 400, "Logged out")
}
