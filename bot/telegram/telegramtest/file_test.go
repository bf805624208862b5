package telegramtest_test

import (
	"io"
	"net/http"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

func fetch(t *testing.T, tg *telegramtest.Server, path string) (int, string) {
	t.Helper()
	resp, err := http.Get(tg.URL() + "/file/bot" + tg.Token() + "/" + path)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	return resp.StatusCode, string(body)
}

func TestAttachments(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Attach(ines, telegramtest.Attachment{Name: "pit log.csv", MIME: "text/csv", Data: []byte("10:00,107"), Caption: "/import 3"})
	chat.Attach(ines, telegramtest.Attachment{Data: picture(t, 64, 48), Photo: true})
	chat.Attach(ines, telegramtest.Attachment{Name: "film.mp4", Data: []byte("x"), Size: 20<<20 + 1})
	got := drain(t, bot)
	doc := got[0].Message
	if doc.Document.FileName != "pit log.csv" || doc.Document.MimeType != "text/csv" || doc.Document.FileSize != 9 || doc.Caption != "/import 3" || doc.CaptionEntities[0].Type != "bot_command" {
		t.Errorf("document: %+v", doc)
	}
	f, err := bot.GetFile(tgbotapi.FileConfig{FileID: doc.Document.FileID})
	if err != nil {
		t.Fatal(err)
	}
	if code, body := fetch(t, tg, f.FilePath); code != 200 || body != "10:00,107" {
		t.Errorf("download: %d %q", code, body)
	}
	if code, _ := fetch(t, tg, "documents/none"); code != 404 {
		t.Errorf("a file that is not there: %d", code)
	}
	if sizes := got[1].Message.Photo; len(sizes) != 2 || sizes[1].Width != 64 {
		t.Errorf("photo: %+v", sizes)
	}
	_, err = bot.GetFile(tgbotapi.FileConfig{FileID: got[2].Message.Document.FileID})
	refused(t, err, 400, "file is too big")
	_, err = bot.GetFile(tgbotapi.FileConfig{FileID: "nonsense"})
	refused(t, err, 400, "invalid file_id")

	// A file the server has can be sent again.
	send(t, bot, tgbotapi.NewDocument(chat.ID(), tgbotapi.FileID(doc.Document.FileID)))
	if m := chat.Await(1)[0]; string(m.File.Data) != "10:00,107" || m.String() != "<file pit log.csv>" {
		t.Errorf("sent again: %+v", m)
	}
	if n := len(tg.Calls(telegramtest.Download)); n != 2 {
		t.Errorf("%d downloads recorded", n)
	}
}

func TestDocument(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Start(ines, "")
	doc := tgbotapi.NewDocument(chat.ID(), tgbotapi.FileBytes{Name: "batch-3.ics", Bytes: []byte("BEGIN:VCALENDAR")})
	doc.Caption = "Batch 3"
	doc.ReplyMarkup = keyboard("Done", "d")
	sent := send(t, bot, doc)
	m := chat.Await(1)[0]
	if m.File.Name != "batch-3.ics" || m.Text != "Batch 3" || string(m.File.Data) != "BEGIN:VCALENDAR" || sent.Document.FileName != "batch-3.ics" {
		t.Errorf("document: %+v", m)
	}
}
