package telegramtest_test

import (
	"net/http"
	"strings"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
)

func TestBodiesNobodyCanRead(t *testing.T) {
	for name, c := range map[string]struct{ kind, query, body, want string }{
		"broken JSON":     {"application/json", "", `{"chat_id":`, "not a JSON object"},
		"no object":       {"application/json", "", `[1]`, "not a JSON object"},
		"broken form":     {"multipart/form-data; boundary=x", "", "--y", "multipart body cannot be read"},
		"no boundary":     {"multipart/form-data", "", "--y", "multipart body cannot be read"},
		"a name twice":    {"application/x-www-form-urlencoded", "", "text=a&text=b", `"text" is given more than once`},
		"once in the URL": {"application/x-www-form-urlencoded", "?text=a", "text=b", `"text" is given more than once`},
		"a part twice": {"multipart/form-data; boundary=x", "",
			strings.Repeat("--x\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"a\"\r\n\r\nz\r\n", 2) + "--x--\r\n", `"photo" is uploaded more than once`},
	} {
		t.Run(name, func(t *testing.T) {
			rec := &recorder{TB: t}
			tg := start(rec)
			resp, err := http.Post(tg.URL()+"/bot"+tg.Token()+"/sendMessage"+c.query, c.kind, strings.NewReader(c.body))
			if err != nil {
				t.Fatal(err)
			}
			resp.Body.Close()
			if resp.StatusCode != 400 || !strings.Contains(rec.text(), c.want) {
				t.Errorf("%s; the test heard %q, want %q", resp.Status, rec.text(), c.want)
			}
		})
	}
}

func TestParametersInTheURL(t *testing.T) {
	tg := start(t)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Start(ines, "")
	resp, err := http.Get(tg.URL() + "/bot" + tg.Token() + "/sendMessage?text=x&chat_id=" + chatID(chat))
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	chat.Await(1)
}

func TestReplyKeyboard(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Start(ines, "")
	m := html(chat.ID(), "Which?")
	m.ReplyMarkup = tgbotapi.NewOneTimeReplyKeyboard(tgbotapi.NewKeyboardButtonRow(tgbotapi.NewKeyboardButton("Juniper"), tgbotapi.NewKeyboardButton("Honey")))
	send(t, bot, m)
	if got := chat.Await(1)[0]; got.String() != "Which?\n{Juniper} {Honey}" {
		t.Errorf("read:\n%s", got)
	}
}

func TestTyping(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	forum := tg.Forum(clubName, ines)
	juniper := forum.NewTopic(ines, "Juniper")
	p := params{"chat_id": chatID(forum), "action": "upload_photo"}
	p.AddNonZero("message_thread_id", juniper.Thread())
	if _, err := bot.MakeRequest("sendChatAction", p); err != nil {
		t.Error(err)
	}
	juniper.DeleteTopic()
	_, err := bot.MakeRequest("sendChatAction", p)
	refused(t, err, 400, "message thread not found")
}
