package discord_test

import (
	"bytes"
	"image"
	"image/png"
	"strings"
	"testing"

	"larderhand/bot/discord/discordtest"
)

// A file goes along with a command as it does with a message.
func TestFileWithACommand(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	var square bytes.Buffer
	if err := png.Encode(&square, image.NewGray(image.Rect(0, 0, 8, 8))); err != nil {
		t.Fatal(err)
	}
	bag := discordtest.File{Name: "bag.png", Type: "image/png", Data: square.Bytes()}
	l.slash(here, "note", opt("batch", "1"), opt("remark", "bag was a bit loose"), opt("file", bag))
	shown := l.slash(here, "photos", opt("batch", "1"))
	if len(shown.Attachments) != 1 || string(shown.Attachments[0].Data) != string(bag.Data) {
		t.Errorf("%d pictures come back", len(shown.Attachments))
	}
	if m := l.slash(here, "import", opt("file", discordtest.File{Name: "r.json", Type: "application/json", Data: []byte("{}")})); !m.Ephemeral || strings.Contains(m.Text, "attach") {
		t.Errorf("a file that is no recipe is answered %q", m.Text)
	}
}

// One that cannot be had, or is too large, is left out and said; what was asked is
// answered all the same.
func TestFileThatCannotBeHad(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	big := discordtest.File{Name: "video.mov", Type: "video/quicktime", Data: make([]byte, 8<<20+1)}
	m := l.slash(here, "note", opt("batch", "1"), opt("remark", "see the video"), opt("file", big))
	if !strings.Contains(m.Text, "see the video") || !strings.Contains(m.Text, "Left out: video.mov") {
		t.Errorf("it reads %q", m.Text)
	}
}
