package discordtest_test

import (
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

func textFile(name, body string) *discordgo.File {
	return &discordgo.File{Name: name, ContentType: "text/plain", Reader: strings.NewReader(body)}
}

func fileNames(m discordtest.Message) string {
	var out []string
	for _, f := range m.Attachments {
		out = append(out, f.Name+"="+string(f.Data))
	}
	return strings.Join(out, " ")
}

// reference.mdx, "Editing Message Attachments": an edit adds its files, and
// keeps of the old ones those it names, or all when it names none.
func TestFilesOverEdits(t *testing.T) {
	t.Parallel()
	s := discordtest.New(t)
	c := newClub(t, s)
	bot := newBot(t, s)
	sent, err := bot.ChannelMessageSendComplex(c.curing.ID, &discordgo.MessageSend{
		Files: []*discordgo.File{textFile("a", "1"), textFile("b", "2")}, AllowedMentions: quiet(),
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, step := range []struct {
		keep *[]*discordgo.MessageAttachment
		add  []*discordgo.File
		want string
	}{
		{nil, []*discordgo.File{textFile("c", "3")}, "a=1 b=2 c=3"},
		{&[]*discordgo.MessageAttachment{sent.Attachments[1]}, nil, "b=2"},
		{&[]*discordgo.MessageAttachment{}, []*discordgo.File{textFile("d", "4")}, "d=4"},
	} {
		edit := discordgo.NewMessageEdit(c.curing.ID, sent.ID)
		edit.Attachments, edit.Files, edit.AllowedMentions = step.keep, step.add, quiet()
		if _, err := bot.ChannelMessageEditComplex(edit); err != nil {
			t.Fatal(err)
		}
		if got := fileNames(c.ines.At(c.curing).Messages()[0]); got != step.want {
			t.Errorf("files %q, want %q", got, step.want)
		}
	}
}

func TestPicturesNeedTheirFile(t *testing.T) {
	t.Parallel()
	out := judged(t, nil, func(s *discordtest.Server) {
		c := newClub(t, s)
		newBot(t, s).ChannelMessageSendComplex(c.curing.ID, &discordgo.MessageSend{
			Embeds: []*discordgo.MessageEmbed{{Image: &discordgo.MessageEmbedImage{URL: "attachment://none.png"}}}, AllowedMentions: quiet(),
		})
	})
	if !strings.Contains(out.said(), "names the file none.png, which is not attached") {
		t.Errorf("said %q", out.said())
	}
}

// reference.mdx, "Uploading Files".
func TestBrokenForms(t *testing.T) {
	t.Parallel()
	form := func(parts ...string) string {
		return "--x\r\n" + strings.Join(parts, "\r\n--x\r\n") + "\r\n--x--\r\n"
	}
	payload := "Content-Disposition: form-data; name=\"payload_json\"\r\n\r\n" + `{"content":"x","allowed_mentions":{"parse":[]}}`
	file := func(name string) string {
		return "Content-Disposition: form-data; name=\"" + name + "\"; filename=\"a.txt\"\r\nContent-Type: text/plain\r\n\r\nsalt"
	}
	for _, tc := range []struct{ kind, body, want string }{
		{"multipart/form-data; boundary=x", form(payload, file("files[0]")), ""},
		{"multipart/form-data; boundary=x", form(payload, file("file")), `form part "file"`},
		{"multipart/form-data; boundary=x", form(payload, file("files[0]"), file("files[0]")), "two form parts"},
		{"multipart/form-data; boundary=x", form(payload, "Content-Disposition: form-data; name=\"files[0]\"\r\n\r\nsalt"), "has no filename"},
		{"multipart/form-data; boundary=x", "--x\r\n" + payload, "cut short"},
		{"multipart/form-data; boundary=x", form(payload, "Content-Disposition: form-data; name=\"files[0]\"; filename=\"a\"\r\n\r\n"+strings.Repeat("s", 10<<20+1)), "more than 10 MiB"},
		{"text/plain", "hello", "want application/json or multipart/form-data"},
		{"", "hello", "without a valid Content-Type"},
		{"application/json", "{", "is not JSON"},
	} {
		out := judged(t, nil, func(s *discordtest.Server) {
			c := newClub(t, s)
			url := discordgo.EndpointChannelMessages(c.curing.ID)
			_, err := newBot(t, s).RequestRaw("POST", url, tc.kind, []byte(tc.body), url, 0)
			if (err != nil) != (tc.want != "") {
				t.Errorf("want %q: error %v", tc.want, err)
			}
		})
		if said := out.said(); tc.want == "" && said != "" || !strings.Contains(said, tc.want) {
			t.Errorf("said %q, want %q", said, tc.want)
		}
	}
}
