package telegramtest_test

import (
	"strconv"
	"testing"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

func keyboard(label, data string) tgbotapi.InlineKeyboardMarkup {
	return tgbotapi.NewInlineKeyboardMarkup(tgbotapi.NewInlineKeyboardRow(tgbotapi.NewInlineKeyboardButtonData(label, data)))
}

// open gives a private chat in which the bot has said one thing.
func open(t *testing.T, opts ...telegramtest.Option) (*telegramtest.Server, *tgbotapi.BotAPI, *telegramtest.Room, telegramtest.Message, *telegramtest.User) {
	t.Helper()
	tg := start(t, opts...)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Start(ines, "")
	m := html(chat.ID(), "<b>Batch 3</b>")
	m.ReplyMarkup = keyboard("Flipped", "f:3:1")
	send(t, bot, m)
	return tg, bot, chat, chat.Await(1)[0], ines
}

func TestEditText(t *testing.T) {
	_, bot, chat, card, _ := open(t)
	edit := tgbotapi.NewEditMessageTextAndMarkup(chat.ID(), card.ID, "Batch 3, day 2", keyboard("Flipped", "f:3:2"))
	send(t, bot, edit)
	got := chat.AwaitEdit(card)
	if got.Text != "Batch 3, day 2" || got.Edits != 1 || got.Buttons[0][0].Data != "f:3:2" {
		t.Errorf("edited: %+v", got)
	}
	_, err := bot.Send(edit)
	refused(t, err, 400, "message is not modified")
	if now, _ := chat.Now(card); now.Edits != 1 {
		t.Errorf("an edit that changed nothing counted: %+v", now)
	}

	// An edit that gives no keyboard takes it away.
	send(t, bot, tgbotapi.NewEditMessageText(chat.ID(), card.ID, "Batch 3, day 2"))
	if now, _ := chat.Now(card); len(now.Buttons) != 0 {
		t.Errorf("buttons left: %+v", now.Buttons)
	}
}

func TestEditMarkup(t *testing.T) {
	_, bot, chat, card, _ := open(t)
	_, err := bot.Send(tgbotapi.NewEditMessageReplyMarkup(chat.ID(), card.ID, keyboard("Flipped", "f:3:1")))
	refused(t, err, 400, "message is not modified")
	send(t, bot, tgbotapi.NewEditMessageReplyMarkup(chat.ID(), card.ID, tgbotapi.InlineKeyboardMarkup{InlineKeyboard: [][]tgbotapi.InlineKeyboardButton{}}))
	if got := chat.AwaitEdit(card); len(got.Buttons) != 0 || got.Text != "Batch 3" {
		t.Errorf("after taking the keyboard away: %+v", got)
	}
}

func TestEditRefused(t *testing.T) {
	_, bot, chat, card, ines := open(t)
	said := chat.Say(ines, "mine")
	_, err := bot.Send(tgbotapi.NewEditMessageText(chat.ID(), said.ID, "yours"))
	refused(t, err, 400, "message can't be edited")
	_, err = bot.Send(tgbotapi.NewEditMessageCaption(chat.ID(), card.ID, "caption"))
	refused(t, err, 400, "there is no caption in the message to edit")
	asking := html(chat.ID(), "How heavy?")
	asking.ReplyMarkup = tgbotapi.ForceReply{ForceReply: true}
	question := send(t, bot, asking)
	_, err = bot.Send(tgbotapi.NewEditMessageText(chat.ID(), question.MessageID, "How thick?"))
	refused(t, err, 400, "message can't be edited")
	chat.Delete(card)
	_, err = bot.Send(tgbotapi.NewEditMessageText(chat.ID(), card.ID, "too late"))
	refused(t, err, 400, "message to edit not found")
}

func TestCaptionAndMedia(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Start(ines, "")
	photo := tgbotapi.NewPhoto(chat.ID(), tgbotapi.FileBytes{Name: "chart.png", Bytes: picture(t, 80, 40)})
	photo.Caption, photo.ParseMode = "<i>pit</i> 107 °C", tgbotapi.ModeHTML
	sent := send(t, bot, photo)
	got := chat.Await(1)[0]
	if got.Text != "pit 107 °C" || got.File == nil || !got.File.Photo || sent.Photo[1].Width != 80 {
		t.Fatalf("photo: %+v %+v", got, sent.Photo)
	}
	_, err := bot.Send(tgbotapi.NewEditMessageText(chat.ID(), got.ID, "text"))
	refused(t, err, 400, "there is no text in the message to edit")
	send(t, bot, tgbotapi.NewEditMessageCaption(chat.ID(), got.ID, "pit 110 °C"))
	_, err = bot.Send(tgbotapi.NewEditMessageCaption(chat.ID(), got.ID, "pit 110 °C"))
	refused(t, err, 400, "message is not modified")

	newer := picture(t, 90, 30)
	media := tgbotapi.NewInputMediaPhoto(tgbotapi.FileID("attach://chart"))
	media.Caption = "pit 112 °C"
	params := tgbotapi.Params{"chat_id": chatID(chat), "message_id": strconv.Itoa(got.ID)}
	if err := params.AddInterface("media", media); err != nil {
		t.Fatal(err)
	}
	if _, err := bot.UploadFiles("editMessageMedia", params, []tgbotapi.RequestFile{{Name: "chart", Data: tgbotapi.FileBytes{Name: "chart.png", Bytes: newer}}}); err != nil {
		t.Fatal(err)
	}
	now, _ := chat.Now(got)
	if now.Text != "pit 112 °C" || string(now.File.Data) != string(newer) || now.Edits != 2 {
		t.Errorf("after the media: %+v", now)
	}
}

func TestDelete(t *testing.T) {
	at := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	_, bot, chat, card, ines := open(t, telegramtest.WithClock(func() time.Time { return at }))
	old := send(t, bot, html(chat.ID(), "old"))
	if _, err := bot.Request(tgbotapi.NewDeleteMessage(chat.ID(), card.ID)); err != nil {
		t.Fatal(err)
	}
	chat.AwaitDeleted(card)
	_, err := bot.Request(tgbotapi.NewDeleteMessage(chat.ID(), card.ID))
	refused(t, err, 400, "message to delete not found")
	said := chat.Say(ines, "bots can delete incoming messages in private chats")
	if _, err := bot.Request(tgbotapi.NewDeleteMessage(chat.ID(), said.ID)); err != nil {
		t.Error(err)
	}
	at = at.Add(48 * time.Hour)
	_, err = bot.Request(tgbotapi.NewDeleteMessage(chat.ID(), old.MessageID))
	refused(t, err, 400, "message can't be deleted for everyone")
}

func TestPin(t *testing.T) {
	tg, bot, chat, card, ines := open(t)
	pin := func(r *telegramtest.Room, id int) error {
		_, err := bot.Request(tgbotapi.PinChatMessageConfig{ChatID: r.ID(), MessageID: id, DisableNotification: true})
		return err
	}
	if err := pin(chat, card.ID); err != nil {
		t.Fatal(err)
	}
	if now, _ := chat.Now(card); !now.Pinned {
		t.Error("not pinned")
	}
	club := tg.Supergroup("Quarry Lane Smokehouse Club", ines)
	m := send(t, bot, html(club.ID(), "x"))
	refused(t, pin(club, m.MessageID), 400, "not enough rights to manage pinned messages")
	club.PromoteBot(ines)
	if err := pin(club, m.MessageID); err != nil {
		t.Error(err)
	}
	if _, err := bot.Request(tgbotapi.UnpinChatMessageConfig{ChatID: club.ID()}); err != nil {
		t.Error(err)
	}
	if m := club.Await(1)[0]; m.Pinned {
		t.Error("still pinned")
	}
}
