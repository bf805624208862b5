package telegramtest_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

type params = tgbotapi.Params

// Every rule broken here has to fail the test of whoever breaks it, with a text
// that says what is wrong. answer is part of the server's error, "" where the
// server lets it pass.
func TestLimits(t *testing.T) {
	buttons := func(rows, each int) string {
		var all [][]map[string]string
		for range rows {
			var row []map[string]string
			for i := range each {
				row = append(row, map[string]string{"text": "b", "callback_data": fmt.Sprint(i)})
			}
			all = append(all, row)
		}
		raw, _ := json.Marshal(map[string]any{"inline_keyboard": all})
		return string(raw)
	}
	button := func(fields string) string { return `{"inline_keyboard":[[{` + fields + `}]]}` }
	commands := func(name, description string) string {
		raw, _ := json.Marshal([]telegramtest.Command{{Name: name, Description: description}})
		return string(raw)
	}
	long := func(n int) string { return strings.Repeat("🥓", n/2) + strings.Repeat("x", n%2) }
	many, _ := json.Marshal(make([]telegramtest.Command, 101))

	for _, c := range []struct {
		name, method string
		params       params
		want, answer string
		source       string
	}{
		{"text too long", "sendMessage", params{"text": long(4097)}, "4097 UTF-16 units", "message is too long", "sendMessage"},
		{"text empty", "sendMessage", params{"text": ""}, "empty text", "message text is empty", "sendMessage"},
		{"text blank", "sendMessage", params{"text": " \n "}, "nothing is left", "text must be non-empty", "sendMessage"},
		{"text of tags", "sendMessage", params{"text": "<b></b>", "parse_mode": "HTML"}, "nothing is left", "text must be non-empty", "sendMessage"},
		{"unescaped text", "sendMessage", params{"text": "salt <2 %", "parse_mode": "HTML"}, "can't parse entities", "can't parse entities: Unsupported start tag \"2\" at byte offset 5", "html-style"},
		{"bare ampersand", "sendMessage", params{"text": "salt & sugar", "parse_mode": "HTML"}, "a bare &", "", "html-style"},
		{"other parse mode", "sendMessage", params{"text": "x", "parse_mode": "MarkdownV2"}, "only the parse mode HTML", "unsupported parse_mode", "this fake"},
		{"two ways of formatting", "sendMessage", params{"text": "x", "parse_mode": "HTML", "entities": `[]`}, "both a parse mode and entities", "", "sendMessage"},
		{"entity outside", "sendMessage", params{"text": "x", "entities": `[{"type":"bold","offset":0,"length":2}]`}, "outside the text", "", "MessageEntity"},
		{"callback data", "sendMessage", params{"text": "x", "reply_markup": button(`"text":"a","callback_data":"` + strings.Repeat("x", 65) + `"`)}, "65 bytes of callback_data", "BUTTON_DATA_INVALID", "InlineKeyboardButton"},
		{"callback data empty", "sendMessage", params{"text": "x", "reply_markup": button(`"text":"a","callback_data":""`)}, "0 bytes of callback_data", "BUTTON_DATA_INVALID", "InlineKeyboardButton"},
		{"button without a label", "sendMessage", params{"text": "x", "reply_markup": button(`"text":"","callback_data":"a"`)}, "without a text", "must be non-empty", "ReplyMarkup.cpp"},
		{"button that does nothing", "sendMessage", params{"text": "x", "reply_markup": button(`"text":"a"`)}, "does 0 things", "Text buttons are unallowed", "InlineKeyboardButton"},
		{"button that does two things", "sendMessage", params{"text": "x", "reply_markup": button(`"text":"a","callback_data":"a","url":"https://example.com"`)}, "does 2 things", "", "InlineKeyboardButton"},
		{"button address", "sendMessage", params{"text": "x", "reply_markup": button(`"text":"a","url":"batch 3"`)}, "no HTTP", "Wrong HTTP URL", "InlineKeyboardButton"},
		{"too many buttons", "sendMessage", params{"text": "x", "reply_markup": buttons(17, 6)}, "102 buttons", "reply markup is too long", "from memory"},
		{"too wide a row", "sendMessage", params{"text": "x", "reply_markup": buttons(1, 9)}, "9 buttons in a row", "", "from memory"},
		{"empty row", "sendMessage", params{"text": "x", "reply_markup": `{"inline_keyboard":[[]]}`}, "an empty row", "", "common practice, no source"},
		{"two markups", "sendMessage", params{"text": "x", "reply_markup": `{"inline_keyboard":[],"force_reply":true}`}, "has to be one of", "", "sendMessage"},
		{"hint", "sendMessage", params{"text": "x", "reply_markup": `{"force_reply":true,"input_field_placeholder":"` + long(65) + `"}`}, "65 characters", "", "ForceReply"},
		{"keyboard in an edit", "editMessageText", params{"text": "y", "message_id": "2", "reply_markup": `{"force_reply":true}`}, "inline keyboard only", "inline keyboard expected", "editMessageText"},
		{"edit of nothing", "editMessageText", params{"text": "y"}, "are needed together", "message identifier is not specified", "editMessageText"},
		{"caption", "editMessageCaption", params{"message_id": "2", "caption": long(1025)}, "1025 UTF-16 units", "message caption is too long", "sendPhoto"},
		{"no photo", "sendPhoto", params{}, "no photo in the call", "there is no photo in the request", "sendPhoto"},
		{"address for a photo", "sendPhoto", params{"photo": "https://example.com/a.png"}, "fetches no addresses", "wrong remote file identifier", "this fake"},
		{"answer too long", "answerCallbackQuery", params{"callback_query_id": "1", "text": long(201)}, "201 characters", "MESSAGE_TOO_LONG", "answerCallbackQuery"},
		{"answer to nobody", "answerCallbackQuery", params{"callback_query_id": "1"}, "never was a callback query", "query is too old", "answerCallbackQuery"},
		{"command name", "setMyCommands", params{"commands": commands("Flip", "x")}, `the command "Flip"`, "BOT_COMMAND_INVALID", "BotCommand"},
		{"command name length", "setMyCommands", params{"commands": commands(strings.Repeat("x", 33), "x")}, "1–32", "BOT_COMMAND_INVALID", "BotCommand"},
		{"command description", "setMyCommands", params{"commands": commands("flip", long(257))}, "257 characters", "BOT_COMMAND_DESCRIPTION_INVALID", "BotCommand"},
		{"too many commands", "setMyCommands", params{"commands": string(many)}, "101 commands", "BOT_COMMAND", "setMyCommands"},
		{"scope", "setMyCommands", params{"commands": "[]", "scope": `{"type":"everybody"}`}, "Unsupported type", "Unsupported type specified", "BotCommandScope"},
		{"scope's chat", "getMyCommands", params{"scope": `{"type":"chat","chat_id":12}`}, "chat not found", "chat not found", "BotCommandScope"},
		{"language", "setMyCommands", params{"commands": "[]", "language_code": "de-DE"}, "no two-letter language code", "invalid language code", "setMyCommands"},
		{"description", "setMyDescription", params{"description": long(513)}, "513 characters", "too long", "setMyDescription"},
		{"short description", "setMyShortDescription", params{"short_description": long(121)}, "121 characters", "too long", "setMyShortDescription"},
		{"action", "sendChatAction", params{"action": "smoking"}, `no action "smoking"`, "wrong parameter action", "sendChatAction"},
		{"stranger", "getChatMember", params{"user_id": "12"}, "there is no user 12", "user not found", "getChatMember"},
		{"poll limit", "getUpdates", params{"limit": "101"}, "not within 1–100", "", "getUpdates"},
		{"not modelled", "sendDice", params{}, "does not model the method", "method not found", "this fake"},
	} {
		t.Run(c.name, func(t *testing.T) {
			rec := &recorder{TB: t}
			tg := start(rec)
			bot := client(t, tg)
			ines := tg.User("Ines")
			chat := tg.Private(ines)
			chat.Start(ines, "")
			send(t, bot, html(chat.ID(), "x"))
			p := params{}
			if c.method != "answerCallbackQuery" && !strings.Contains(c.method, "My") && c.method != "getUpdates" {
				p["chat_id"] = chatID(chat)
			}
			for k, v := range c.params {
				p[k] = v
			}
			_, err := bot.MakeRequest(c.method, p)
			if c.answer == "" {
				if err != nil {
					t.Errorf("answered %v, want a success (%s)", err, c.source)
				}
			} else if err == nil || !strings.Contains(err.Error(), c.answer) {
				t.Errorf("answered %v, want %q (%s)", err, c.answer, c.source)
			}
			if !strings.Contains(rec.text(), c.want) {
				t.Errorf("the test heard %q, want %q (Bot API, %s)", rec.text(), c.want, c.source)
			}
		})
	}
}

func TestLimitsAreMet(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Start(ines, "")
	m := html(chat.ID(), "<b>"+strings.Repeat("🥓", 2048)+"</b>")
	m.ReplyMarkup = keyboard("a", strings.Repeat("x", 64))
	send(t, bot, m)
	photo := tgbotapi.NewPhoto(chat.ID(), tgbotapi.FileBytes{Name: "a.png", Bytes: picture(t, 9000, 1000)})
	photo.Caption = strings.Repeat("🥓", 512)
	send(t, bot, photo)
	press := chat.Press(ines, chat.Await(1)[0], "a")
	if _, err := bot.Request(tgbotapi.NewCallback(press.ID, strings.Repeat("x", 200))); err != nil {
		t.Error(err)
	}
}

func TestUploadLimits(t *testing.T) {
	for _, c := range []struct {
		name, field string
		data        []byte
		want        string
	}{
		{"photo too large", "photo", append(picture(t, 10, 10), make([]byte, 10<<20)...), "at most 10485760 are allowed"},
		{"photo too wide", "photo", picture(t, 9000, 1001), "9000×1001"},
		{"photo too thin", "photo", picture(t, 210, 10), "210×10"},
		{"photo that is none", "photo", []byte("BEGIN:VCALENDAR"), "no PNG, JPEG or GIF"},
		{"empty document", "document", nil, "an empty file"},
		{"document too large", "document", bytes.Repeat([]byte{1}, 50<<20+1), "at most 52428800 are allowed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			rec := &recorder{TB: t}
			tg := start(rec)
			bot := client(t, tg)
			ines := tg.User("Ines")
			chat := tg.Private(ines)
			chat.Start(ines, "")
			method := "send" + strings.ToUpper(c.field[:1]) + c.field[1:]
			_, err := bot.UploadFiles(method, params{"chat_id": chatID(chat)}, []tgbotapi.RequestFile{{Name: c.field, Data: tgbotapi.FileBytes{Name: "a.bin", Bytes: c.data}}})
			if err == nil || !strings.Contains(rec.text(), c.want) {
				t.Errorf("%v; the test heard %q, want %q (Bot API, %s)", err, rec.text(), c.want, method)
			}
		})
	}
}

// A call is checked even when an injected fault then refuses it.
func TestRefusedCallsAreCheckedToo(t *testing.T) {
	rec := &recorder{TB: t}
	tg := start(rec)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Start(ines, "")
	tg.Inject("sendMessage", 1, telegramtest.RetryAfter(1))
	_, err := bot.Send(html(chat.ID(), "<p>"))
	refused(t, err, 429, "")
	if !strings.Contains(rec.text(), "can't parse entities") {
		t.Errorf("the test heard %q", rec.text())
	}
}

func TestDescriptionIsHeldTo(t *testing.T) {
	telegramtest.RequireDescription(t)
	for want, p := range map[string]params{
		`no parameter "reply_to_message_id"`: {"text": "x", "reply_to_message_id": "1"},
		`"text" is required`:                 {},
		"disable_notification":               {"text": "x", "disable_notification": "1"},
		"reply_markup":                       {"text": "x", "reply_markup": `{"inline_keyboard":[[{"text":"a","callback_data":"b","colour":"red"}]]}`},
		"reply_parameters":                   {"text": "x", "reply_parameters": `{"message":1}`},
	} {
		rec := &recorder{TB: t}
		tg := start(rec)
		bot := client(t, tg)
		ines := tg.User("Ines")
		chat := tg.Private(ines)
		chat.Start(ines, "")
		p["chat_id"] = chatID(chat)
		bot.MakeRequest("sendMessage", p)
		if !strings.Contains(rec.text(), want) {
			t.Errorf("%v: the test heard %q, want %q", p, rec.text(), want)
		}
	}
}
