package telegramtest_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

func TestRefusals(t *testing.T) {
	tg, bot, chat, _, _ := open(t)
	for _, c := range []struct {
		trouble telegramtest.Trouble
		code    int
		text    string
	}{
		{telegramtest.RetryAfter(7), 429, "Too Many Requests: retry after 7"},
		{telegramtest.ServerError(), 500, "Internal Server Error"},
		{telegramtest.Unauthorized(), 401, "Unauthorized"},
		{telegramtest.Blocked(), 403, "bot was blocked by the user"},
		{telegramtest.Refuse(400, "Bad Request: invented"), 400, "invented"},
	} {
		f := tg.Inject("sendMessage", 2, c.trouble)
		for range 2 {
			_, err := bot.Send(html(chat.ID(), "x"))
			if e := refused(t, err, c.code, c.text); c.code == 429 && e.RetryAfter != 7 {
				t.Errorf("retry_after %d", e.RetryAfter)
			}
		}
		send(t, bot, html(chat.ID(), "x"))
		if f.Hits() != 2 {
			t.Errorf("%s: %d hits", c.text, f.Hits())
		}
	}
	if calls := tg.Calls("sendMessage"); calls[1].Code != 429 || calls[1].Description == "" {
		t.Errorf("recorded: %+v", calls[1])
	}
}

func TestBadGateway(t *testing.T) {
	tg, bot, chat, _, _ := open(t)
	tg.Inject("", 1, telegramtest.BadGateway())
	_, err := bot.Send(html(chat.ID(), "x"))
	if err == nil || !strings.Contains(err.Error(), "invalid character '<'") {
		t.Errorf("got %v", err)
	}
}

func TestOneChatOnly(t *testing.T) {
	tg, bot, chat, _, ines := open(t)
	club := tg.Group(clubName, ines)
	f := tg.Inject("sendMessage", telegramtest.Always, telegramtest.ServerError(), club)
	send(t, bot, html(chat.ID(), "x"))
	for range 3 {
		_, err := bot.Send(html(club.ID(), "x"))
		refused(t, err, 500, "")
	}
	f.Clear()
	send(t, bot, html(club.ID(), "x"))
}

func TestBrokenConnections(t *testing.T) {
	tg, bot, chat, _, _ := open(t)
	tg.Inject("sendMessage", 1, telegramtest.Reset())
	if _, err := bot.Send(html(chat.ID(), "never arrived")); err == nil || errors.As(err, new(*tgbotapi.Error)) {
		t.Errorf("reset: %v", err)
	}
	tg.Inject("sendMessage", 1, telegramtest.LoseAnswer())
	if _, err := bot.Send(html(chat.ID(), "arrived all the same")); err == nil {
		t.Error("the answer was not lost")
	}
	got := chat.Messages()
	if last := got[len(got)-1]; last.Text != "arrived all the same" || len(got) != 3 {
		t.Errorf("the chat shows %+v", got)
	}
}

func TestHang(t *testing.T) {
	tg := start(t)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Start(ines, "")
	ctx, cancel := context.WithCancel(t.Context())
	bot, err := tgbotapi.NewBotAPIWithClient(tg.Token(), tg.URL()+"/bot%s/%s", within{ctx})
	if err != nil {
		t.Fatal(err)
	}
	f := tg.Inject("sendMessage", 2, telegramtest.Hang())
	ended := make(chan error, 2)
	go func() {
		_, err := bot.Send(html(chat.ID(), "given up"))
		ended <- err
	}()
	f.AwaitHits(1)
	cancel()
	if err := <-ended; !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	patient := client(t, tg)
	go func() {
		_, err := patient.Send(html(chat.ID(), "waited for"))
		ended <- err
	}()
	f.AwaitHits(2)
	if n := len(chat.FromBot()); n != 0 {
		t.Errorf("%d messages went through", n)
	}
	f.Release()
	if err := <-ended; err != nil {
		t.Error(err)
	}
	if m := chat.Await(1); len(m) != 1 || m[0].Text != "waited for" {
		t.Errorf("the chat shows %+v", m)
	}
}

func TestHold(t *testing.T) {
	tg, bot, chat, _, _ := open(t)
	f := tg.Inject("sendMessage", 1, telegramtest.Hold())
	ended := make(chan error, 1)
	go func() {
		_, err := bot.Send(html(chat.ID(), "slow"))
		ended <- err
	}()
	chat.AwaitText("slow")
	select {
	case err := <-ended:
		t.Errorf("answered before the release: %v", err)
	default:
	}
	f.Release()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}

func TestLostUpdatesComeAgain(t *testing.T) {
	tg, bot, chat, _, ines := open(t)
	drain(t, bot)
	chat.Say(ines, "/flip 3")
	tg.Inject("getUpdates", 1, telegramtest.LoseAnswer())
	if _, err := bot.GetUpdates(tgbotapi.UpdateConfig{AllowedUpdates: []string{}}); err == nil {
		t.Error("the answer was not lost")
	}
	if got := updates(t, bot, 0); len(got) != 1 {
		t.Errorf("again: %+v", got)
	}
}

func TestServerGone(t *testing.T) {
	tg, bot, chat, _, _ := open(t)
	hanging := tg.Inject("sendMessage", 1, telegramtest.Hang())
	ended := make(chan error, 2)
	go func() {
		_, err := bot.GetUpdates(tgbotapi.UpdateConfig{Timeout: 50, Offset: -1, AllowedUpdates: []string{}})
		ended <- err
	}()
	go func() {
		_, err := bot.Send(html(chat.ID(), "x"))
		ended <- err
	}()
	hanging.AwaitHits(1)
	tg.Close()
	<-ended
	<-ended
	if _, err := bot.GetMe(); err == nil {
		t.Error("the server still answers")
	}
}
