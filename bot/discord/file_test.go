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
	if !strings.Contains(m.Text, "see the video") || !strings.Contains(m.Text, "Left out: video.mov. I take up to 5 files of up to 8 MB each.") || strings.Contains(m.Text, "could not get") {
		t.Errorf("it reads %q", m.Text)
	}
}

// What is sent along is fetched only for what has a use for it, and not for someone
// who says too much at once.
func TestFilesAreFetchedWhereTheyAreOfUse(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	photo := discordtest.File{Name: "bag.jpg", Type: "image/jpeg", Data: []byte("a picture")}
	tell := func(line string, files ...discordtest.File) string {
		t.Helper()
		before := len(here.Messages())
		l.run.until(t, here.Tell(line, files...).ID)
		return wordsOf(here.Messages()[before+1])
	}
	for _, tc := range []struct {
		line string
		file discordtest.File
		want int
	}{
		{"batches", photo, 0},
		{"what is this?", photo, 0},
		{"", photo, 0},
		{"5 lb", photo, 0},
		{"note 1 bag was a bit loose", photo, 1},
		{"1 note bag was a bit loose", photo, 1},
		{"", discordtest.File{Name: "winter.json", Type: "application/json", Data: []byte("{}")}, 1},
		{"1", discordtest.File{Name: "pit.csv", Type: "text/csv", Data: []byte("time,pit\n")}, 1},
	} {
		before := l.s.Fetched()
		text := tell(tc.line, tc.file)
		if got := l.s.Fetched() - before; got != tc.want {
			t.Errorf("%q with %s fetched %d files, want %d; it reads %q", tc.line, tc.file.Name, got, tc.want, text)
		}
	}
	for range 80 {
		if strings.Contains(tell("note 1 bag was a bit loose"), "a lot at once") {
			break
		}
	}
	before := l.s.Fetched()
	if text := tell("note 1 bag was a bit loose", photo); !strings.Contains(text, "a lot at once") || l.s.Fetched() != before {
		t.Errorf("after a flood %d files were fetched; it reads %q", l.s.Fetched()-before, text)
	}
}

// Of a file longer than it said nothing is kept, rather than its beginning; and what is
// over the bounds is told apart from what could not be had.
func TestFileLongerThanItSaid(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	long := discordtest.File{Name: "bag.jpg", Type: "image/jpeg", Data: make([]byte, 8<<20+1), Size: 1000}
	m := l.slash(here, "note", opt("batch", "1"), opt("remark", "loose"), opt("file", long))
	if !strings.Contains(m.Text, "could not get bag.jpg") || strings.Contains(m.Text, "up to") {
		t.Errorf("it reads %q", m.Text)
	}
	if m := l.slash(here, "photos", opt("batch", "1")); !strings.Contains(m.Text, "no pictures") {
		t.Errorf("the torn file was kept: %q", m.Text)
	}
}
