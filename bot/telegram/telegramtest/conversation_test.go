package telegramtest_test

import (
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

// serveFlips is a whole bot of one command: it polls, answers /flip with a card,
// and turns the card over when its button is pressed.
func serveFlips(t *testing.T, bot *tgbotapi.BotAPI, done <-chan struct{}) {
	offset := 0
	for {
		got, err := bot.GetUpdates(tgbotapi.UpdateConfig{Offset: offset, Timeout: 30, AllowedUpdates: []string{"message", "callback_query"}})
		select {
		case <-done:
			return
		default:
		}
		if err != nil {
			t.Errorf("poll: %v", err)
			return
		}
		for _, u := range got {
			if err := handleFlip(bot, u); err != nil {
				t.Errorf("update %d: %v", u.UpdateID, err)
			}
			offset = u.UpdateID + 1
		}
	}
}

func handleFlip(bot *tgbotapi.BotAPI, u tgbotapi.Update) error {
	switch {
	case u.Message != nil && u.Message.Command() == "flip":
		card := tgbotapi.NewMessage(u.Message.Chat.ID, "<b>Batch 3</b>: flip today")
		card.ParseMode = tgbotapi.ModeHTML
		card.ReplyMarkup = keyboard("Flipped", "f:3")
		_, err := bot.Send(card)
		return err
	case u.CallbackQuery != nil:
		if _, err := bot.Request(tgbotapi.NewCallback(u.CallbackQuery.ID, "Turned.")); err != nil {
			return err
		}
		on := u.CallbackQuery.Message
		_, err := bot.Send(tgbotapi.NewEditMessageText(on.Chat.ID, on.MessageID, "Batch 3: flipped by "+u.CallbackQuery.From.FirstName))
		return err
	}
	return nil
}

func TestConversation(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	done, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		serveFlips(t, bot, done)
	}()

	ines, tobias := tg.User("Ines"), tg.User("Tobias")
	club := tg.Group(clubName, ines, tobias)
	club.Say(ines, "nice weather")
	asked := club.Say(ines, "/flip@"+tg.Username())
	card := club.AwaitAfter(asked)
	if a := club.Press(tobias, card, "Flipped").Await(); a.Text != "Turned." {
		t.Errorf("the press shows %q", a.Text)
	}
	club.AwaitEdit(card)
	tg.AwaitConfirmed()

	want := `Ines: (Ines added Larderhand)
Ines: nice weather
Ines: /flip@larderhand_test_bot
Larderhand: Batch 3: flipped by Tobias
`
	if got := club.Transcript(); got != want {
		t.Errorf("the group reads\n%s\nwant\n%s", got, want)
	}
	if n := tg.Unanswered(); n != 0 {
		t.Errorf("%d buttons spin", n)
	}
	close(done)
	club.Say(ines, "/flip@"+tg.Username()) // wakes the poll
	<-ended
}

// Fault tolerance a bot owes its users can be told from the outside.
func TestStormEnds(t *testing.T) {
	tg, bot, chat, _, _ := open(t)
	storm := tg.Inject("sendMessage", telegramtest.Always, telegramtest.RetryAfter(30), chat)
	for range 5 {
		_, err := bot.Send(html(chat.ID(), "x"))
		refused(t, err, 429, "retry after 30")
	}
	storm.Clear()
	send(t, bot, html(chat.ID(), "calm"))
	if storm.Hits() != 5 || chat.Await(2)[1].Text != "calm" {
		t.Errorf("hits %d, chat %+v", storm.Hits(), chat.FromBot())
	}
}
