package telegramtest_test

import (
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
)

func TestPress(t *testing.T) {
	tg, bot, chat, card, ines := open(t)
	drain(t, bot)
	press := chat.Press(ines, card, "Flipped")
	got := drain(t, bot)
	if len(got) != 1 || got[0].CallbackQuery == nil {
		t.Fatalf("updates: %+v", got)
	}
	q := got[0].CallbackQuery
	if q.ID != press.ID || q.Data != "f:3:1" || q.From.ID != ines.ID || q.Message.MessageID != card.ID || q.Message.Chat.ID != chat.ID() {
		t.Errorf("query: %+v", q)
	}
	if press.Answered() || tg.Unanswered() != 1 {
		t.Error("answered by nobody")
	}
	if _, err := bot.Request(tgbotapi.NewCallbackWithAlert(q.ID, "Turned, day 2.")); err != nil {
		t.Fatal(err)
	}
	if a := press.Await(); a.Text != "Turned, day 2." || !a.Alert || tg.Unanswered() != 0 {
		t.Errorf("answer: %+v", a)
	}
	_, err := bot.Request(tgbotapi.NewCallback(q.ID, ""))
	refused(t, err, 400, "query is too old")
}

func TestPressTooOld(t *testing.T) {
	_, bot, chat, card, ines := open(t)
	press := chat.Press(ines, card, "Flipped")
	press.Expire()
	_, err := bot.Request(tgbotapi.NewCallback(press.ID, ""))
	refused(t, err, 400, "query is too old and response timeout expired or query ID is invalid")
}

// An app that has not caught up presses a button that is no longer there, or one
// under a message that is gone.
func TestStalePress(t *testing.T) {
	_, bot, chat, card, ines := open(t)
	send(t, bot, tgbotapi.NewEditMessageTextAndMarkup(chat.ID(), card.ID, "day 2", keyboard("Done", "d:3:2")))
	drain(t, bot)
	chat.Press(ines, card, "Flipped")
	chat.Press(ines, card, "Flipped")
	chat.Press(ines, card, "Done")
	chat.PressData(ines, card, "anything")
	chat.Delete(card)
	chat.Press(ines, card, "Done")
	got := drain(t, bot)
	var data []string
	for _, u := range got {
		data = append(data, u.CallbackQuery.Data)
	}
	if len(data) != 5 || data[0] != "f:3:1" || data[1] != "f:3:1" || data[2] != "d:3:2" || data[3] != "anything" {
		t.Errorf("data: %q", data)
	}
	// A message the bot cannot reach has the date 0 (Bot API, InaccessibleMessage).
	if last := got[4].CallbackQuery.Message; last.Date != 0 || last.MessageID != card.ID || last.Text != "" {
		t.Errorf("message of a press under a deleted one: %+v", last)
	}
}
