package telegram_test

import (
	"bytes"
	"image"
	"image/png"
	"strings"
	"testing"

	"larderhand/bot/adaptertest"
	"larderhand/bot/reply"
	"larderhand/bot/telegram/telegramtest"
)

func drawn(t *testing.T, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, w, h))); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Files people send reach the bot, in a group those with a command under them.
func TestFilesIn(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room, club := tg.Private(ines), tg.Supergroup(clubName, ines)
	b := &adaptertest.Bot{}
	r := run(t, tg, scripted(b))
	r.settle()
	before := len(b.Got())
	csv := []byte("at,core\n09:00,41\n")
	room.Attach(ines, telegramtest.Attachment{Name: "smoke.csv", MIME: "text/csv", Data: csv, Caption: "look 3"})
	room.Attach(ines, telegramtest.Attachment{Photo: true, Data: drawn(t, 64, 64)})
	club.Attach(ines, telegramtest.Attachment{Name: "smoke.csv", MIME: "text/csv", Data: csv, Caption: "/look@" + tg.Username() + " 3"})
	club.Attach(ines, telegramtest.Attachment{Name: "party.csv", MIME: "text/csv", Data: csv, Caption: "for Tobias"})
	r.settle()
	got := b.Got()[before:]
	if len(got) != 3 {
		t.Fatalf("the bot got %d messages", len(got))
	}
	for _, m := range got {
		if len(m.Files) != 1 || len(m.Files[0].Data) == 0 {
			t.Fatalf("without its file: %+v", m)
		}
	}
	byType := map[string]reply.File{}
	for _, m := range got {
		byType[m.Files[0].Type] = m.Files[0]
	}
	if f := byType["text/csv"]; f.Name != "smoke.csv" || !bytes.Equal(f.Data, csv) {
		t.Errorf("the table is %+v", f)
	}
	room.Attach(ines, telegramtest.Attachment{Name: "film.mp4", MIME: "video/mp4", Data: csv, Size: 19 << 20})
	r.settle()
	if m := last(t, room); !strings.Contains(m.Text, "too large") {
		t.Errorf("a film is answered %q", m.Text)
	}
	tg.Inject(telegramtest.Download, 1, telegramtest.ServerError())
	room.Attach(ines, telegramtest.Attachment{Name: "smoke.csv", MIME: "text/csv", Data: csv})
	r.settle()
	if m := last(t, room); !strings.Contains(m.Text, "send it again") || strings.Contains(r.log.String(), tg.Token()) {
		t.Errorf("a file that could not be fetched is answered %q", m.Text)
	}
}

// A picture goes with the text as its caption while that fits, as a photo while it
// can be one, and buttons are under whatever comes last.
func TestFilesOut(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg, scripted(&adaptertest.Bot{}))
	room.Say(ines, "hello")
	r.settle()
	send := func(text string, files ...reply.File) []telegramtest.Message {
		t.Helper()
		before := len(room.FromBot())
		var out reply.Reply
		out.Say(text)
		out.Files = files
		out.Press(reply.Button{Label: "How is it", Line: "look 3"})
		if _, err := r.a.Send(t.Context(), address(room), "", out); err != nil {
			t.Fatal(err)
		}
		list := room.FromBot()[before:]
		for i, m := range list {
			if (len(m.Buttons) > 0) != (i == len(list)-1) {
				t.Errorf("message %d of %d has the buttons %v", i+1, len(list), m.Buttons)
			}
		}
		return list
	}
	chart := reply.File{Name: "smoke.png", Type: "image/png", Data: drawn(t, 640, 360)}
	if m := send("The smoke so far.", chart); len(m) != 1 || m[0].Text != "The smoke so far." || !m[0].File.Photo {
		t.Errorf("a short text and a picture make %v", m)
	}
	if m := send(strings.Repeat("The smoke so far. ", 70), chart); len(m) != 2 || m[1].Text != "" || !m[1].File.Photo {
		t.Errorf("a long text and a picture make %d messages", len(m))
	}
	for name, data := range map[string][]byte{"a strip": drawn(t, 2000, 50), "a poster": drawn(t, 9000, 2000), "no picture": []byte("PNG?")} {
		if m := send(name, reply.File{Name: "x.png", Type: "image/png", Data: data}); len(m) != 1 || m[0].File.Photo || m[0].File.Name != "x.png" {
			t.Errorf("%s makes %v", name, m)
		}
	}
	tg.Inject("sendPhoto", 1, telegramtest.Refuse(400, "Bad Request: IMAGE_PROCESS_FAILED"))
	if m := send("refused as a photo", chart); len(m) != 1 || m[0].File.Photo {
		t.Errorf("a picture the platform cannot show makes %v", m)
	}
	if m := send("label", reply.File{Name: "../../étiquette \"3\".pdf", Type: "application/pdf", Data: []byte("%PDF")}); m[0].File.Name != "étiquette \"3\".pdf" {
		t.Errorf("the document is called %q", m[0].File.Name)
	}
	if m := send("nothing in it", reply.File{Name: "empty.csv", Type: "text/csv"}); len(m) != 1 || !strings.Contains(strings.ReplaceAll(m[0].Text, "\u2060", ""), "empty.csv cannot be sent") {
		t.Errorf("an empty file makes %v", m)
	}
	tg.Inject("sendDocument", 1, telegramtest.RetryAfter(3)) // its error comes without a code
	if _, err := r.a.Send(t.Context(), address(room), "", reply.Reply{Files: []reply.File{{Name: "a.csv", Type: "text/csv", Data: []byte("1")}}}); err == nil || !strings.Contains(err.Error(), "asked to wait") {
		t.Errorf("a refused upload gives %v", err)
	}
}

// Names and remarks of people in any script, with emoji, and with markup in them.
func TestNamesAndEmoji(t *testing.T) {
	tg := fake(t)
	odd := tg.Person(telegramtest.User{FirstName: "<b>Tobias</b> & 🥓", LastName: "עידו \u202eevil"})
	ines := tg.User("Ines")
	club := tg.Supergroup(clubName, odd, ines)
	r := run(t, tg)
	r.settle()
	r.openBatch(club, odd)
	for _, remark := range []string{"👩🏽‍🍳 says 🇩🇪 ok 1️⃣", "ריח ערער", "رائحة العرعر 5 lb", "<i>&amp; <script>", "@everyone /close"} {
		club.Say(odd, "/note@"+tg.Username()+" 1 "+remark)
		r.settle()
	}
	club.Say(ines, "/batch@"+tg.Username()+" 1")
	r.settle()
	m := last(t, club)
	text := strings.ReplaceAll(m.Text, "\u2060", "")
	for _, part := range []string{"<b>Tobias</b> & 🥓 עידו evil"} {
		if !strings.Contains(text, part) {
			t.Errorf("no %q in:\n%s", part, text)
		}
	}
	if strings.Contains(m.Text, "\u202e") {
		t.Error("a mark that turns the text round got through")
	}
	for _, e := range m.Entities {
		if e.Type == "mention" || e.Type == "bot_command" || e.Type == "italic" {
			t.Errorf("%q became a %s", e.Text, e.Type)
		}
	}
}
