package telegramtest_test

import (
	"strings"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

func TestSendMessage(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	asked := chat.Start(ines, "")

	m := html(chat.ID(), " <b>Batch 3</b> &lt;juniper&gt;: flip on https://example.com/3\n")
	m.DisableNotification = true
	m.ReplyMarkup = tgbotapi.NewInlineKeyboardMarkup(
		tgbotapi.NewInlineKeyboardRow(tgbotapi.NewInlineKeyboardButtonData("Flipped", "f:3:1"), tgbotapi.NewInlineKeyboardButtonURL("Help", "https://example.com")))
	sent := send(t, bot, m)

	got := chat.AwaitAfter(asked)
	if got.Text != "Batch 3 <juniper>: flip on https://example.com/3" || !got.Silent || !got.Bot || !got.Preview {
		t.Errorf("read: %+v", got)
	}
	if b := got.Marked("bold"); len(b) != 1 || b[0] != "Batch 3" {
		t.Errorf("bold: %q", b)
	}
	if b, ok := got.Button("Flipped"); !ok || b.Data != "f:3:1" {
		t.Errorf("buttons: %+v", got.Buttons)
	}
	if want := "Batch 3 <juniper>: flip on https://example.com/3\n[Flipped] [Help]"; got.String() != want {
		t.Errorf("as read:\n%s\nwant\n%s", got, want)
	}
	if sent.MessageID != got.ID || sent.Text != got.Text || sent.From.ID != tg.BotID() || len(sent.ReplyMarkup.InlineKeyboard) != 1 {
		t.Errorf("answer: %+v", sent)
	}
}

func TestPreviewsOff(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Start(ines, "")
	if _, err := bot.MakeRequest("sendMessage", tgbotapi.Params{"chat_id": chatID(chat), "text": "see https://example.com",
		"link_preview_options": `{"is_disabled":true}`}); err != nil {
		t.Fatal(err)
	}
	if m := chat.Await(1)[0]; m.Preview {
		t.Errorf("a preview in %+v", m)
	}
}

func TestJSONBody(t *testing.T) {
	tg := start(t)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Start(ines, "")
	post(t, tg, "sendMessage", `{"chat_id":`+chatID(chat)+`,"text":"plain <b>","reply_markup":{"force_reply":true,"input_field_placeholder":"weight"}}`)
	if m := chat.Await(1)[0]; m.Text != "plain <b>" || !m.Force || m.Hint != "weight" {
		t.Errorf("read: %+v", m)
	}
}

func TestForceReplyReachesABotInPrivacyMode(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	club := tg.Group("Quarry Lane Smokehouse Club", ines)
	m := html(club.ID(), "How heavy?")
	m.ReplyMarkup = tgbotapi.ForceReply{ForceReply: true, Selective: true, InputFieldPlaceholder: "5 lb"}
	send(t, bot, m)
	question := club.AwaitText("How heavy?")
	drain(t, bot)
	club.Say(ines, "5 lb")
	club.Reply(ines, question, "5 lb")
	got := drain(t, bot)
	if len(got) != 1 || got[0].Message.ReplyToMessage == nil || got[0].Message.ReplyToMessage.MessageID != question.ID {
		t.Errorf("updates: %+v", got)
	}
}

func TestReplyParameters(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	said := chat.Say(ines, "hello")
	try := func(id, more string) error {
		_, err := bot.MakeRequest("sendMessage", tgbotapi.Params{"chat_id": chatID(chat), "text": "hi",
			"reply_parameters": `{"message_id":` + id + more + `}`})
		return err
	}
	if err := try("1", ""); err != nil {
		t.Fatal(err)
	}
	if m := chat.Await(1)[0]; m.ReplyTo != said.ID {
		t.Errorf("answers %d, want %d", m.ReplyTo, said.ID)
	}
	chat.Delete(said)
	refused(t, try("1", ""), 400, "message to be replied not found")
	if err := try("1", `,"allow_sending_without_reply":true`); err != nil {
		t.Error(err)
	}
}

// A bot cannot write first to a person.
func TestNobodyWroteYet(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines, marit := tg.User("Ines"), tg.User("Marit")
	tg.Group("Quarry Lane Smokehouse Club", ines)
	for _, u := range []*telegramtest.User{ines} {
		_, err := bot.Send(html(u.ID, "x"))
		refused(t, err, 403, "bot can't initiate conversation with a user")
	}
	_, err := bot.Send(html(marit.ID, "x"))
	refused(t, err, 400, "chat not found")
	if v := tg.Violations(); len(v) != 0 {
		t.Errorf("these are facts of life, no mistakes: %q", v)
	}
	tg.Allow("there is no chat 12")
	_, err = bot.Send(html(12, "x"))
	refused(t, err, 400, "chat not found")
	if v := tg.Violations(); len(v) != 1 {
		t.Errorf("violations: %q", v)
	}
}

func TestChatByName(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	club := tg.Supergroup("Quarry Lane Smokehouse Club", tg.User("Ines")).Named("quarry_lane_club")
	if _, err := bot.MakeRequest("sendMessage", tgbotapi.Params{"chat_id": "@quarry_lane_club", "text": "hi"}); err != nil {
		t.Fatal(err)
	}
	club.Await(1)
}

func TestCallsAreCounted(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	before := tally.Checked()
	ines := tg.User("Ines")
	tg.Private(ines).Start(ines, "")
	send(t, bot, html(ines.ID, "x"))
	want := 2 // getMe and sendMessage
	if !described() {
		want = 0
	}
	if tg.Checked() != want {
		t.Errorf("checked %d calls, want %d", tg.Checked(), want)
	}
	if described() && tally.Checked() <= before {
		t.Error("the tally did not move")
	}
	if s := tally.String(); !strings.Contains(s, "calls checked against the Bot API description") {
		t.Errorf("summary: %s", s)
	}
	calls := tg.AwaitCalls("sendMessage", 1)
	if calls[0].Params["text"] != "x" || calls[0].Code != 200 {
		t.Errorf("calls: %+v", calls)
	}
}
