package discord_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"larderhand/bot/adaptertest"
	"larderhand/bot/discord/discordtest"
	"larderhand/bot/reply"
)

// A batch of several pieces is opened with a form, a piece on each line; without
// anything in it the form opens what was worked out last.
func TestOpenWithAForm(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	form := here.Slash("open").WaitForm()
	if len(form.Fields) != 2 || !form.Fields[0].Long || form.Fields[0].Required || form.Fields[0].Placeholder == "" {
		t.Errorf("the form is %+v", form.Fields)
	}
	use := form.Submit(map[string]string{form.Fields[0].Label: "6 lb juniper 1.5 in\n3.2 kg coffee and chilli 4 cm"})
	m := l.press(here, use.WaitReply(), "Yes, I weigh it")
	if !strings.Contains(m.Text, "b coffee and chilli") {
		t.Errorf("opened: %q", m.Text)
	}
	l.slash(here, "cure", opt("weight", "5 lb"), opt("thickness", "1.5 in"), opt("flavouring", "black pepper and honey"))
	if m := here.Slash("open").WaitForm().Submit(nil).WaitReply(); !strings.Contains(wordsOf(m), "Batch 2 (black pepper and honey) is open") {
		t.Errorf("opened from the cure: %q", m.Text)
	}
}

// Two members press the same button: it is done once, and the second is told so
// alone.
func TestDoubleClickFromTwoMembers(t *testing.T) {
	l := newLive(t)
	l.open(l.ines.At(l.curing), "5 lb juniper 1.5 in")
	l.pass(23 * time.Hour)
	ping := l.ines.At(l.curing).WaitText("flip it")
	one, two := l.ines.At(l.curing).PressStale(ping, "Flipped 1"), l.tobias.At(l.curing).PressStale(ping, "Flipped 1")
	l.run.until(t, one.ID())
	l.run.until(t, two.ID())
	if one.WaitAck() != 7 {
		t.Errorf("the first press is answered with type %d", one.Ack())
	}
	if m := two.WaitReply(); !m.Ephemeral || !strings.Contains(m.Text, "already has its flip") {
		t.Errorf("the second press reads (ephemeral %v) %q", m.Ephemeral, m.Text)
	}
	if m := l.slash(l.ines.At(l.curing), "batch"); !strings.Contains(m.Text, "1 flip, the last") {
		t.Errorf("the batch reads %q", m.Text)
	}
}

// A button made before something changed says how things stand, to the presser
// alone, and does nothing.
func TestStalePress(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	l.s.Clock().Advance(8 * 24 * time.Hour)
	firm := l.slash(here, "firm")
	l.press(here, firm, "Rinsed")
	m := l.press(here, firm, "Rinsed")
	if !m.Ephemeral || !strings.Contains(m.Text, "That button is from earlier; nothing was changed.") {
		t.Errorf("reads (ephemeral %v) %q", m.Ephemeral, m.Text)
	}
	if m := l.slash(here, "batch"); strings.Count(m.Text, "rinsed and patted dry") != 1 {
		t.Errorf("the batch reads %q", m.Text)
	}
}

// A form about a batch that has changed since is told so.
func TestStaleForm(t *testing.T) {
	c := newClub(t)
	b := &adaptertest.Bot{}
	r := start(t, c, b)
	here := c.ines.At(c.curing)
	var ping reply.Reply
	ping.Say("Weigh it.").Press(reply.Button{Label: "Weigh", Line: "weigh 3", Version: 41, Ask: true})
	if _, err := r.Send(t.Context(), at(c.curing), "k", ping); err != nil {
		t.Fatal(err)
	}
	form := here.Press(newest(t, here, "Weigh"), "Weigh").WaitForm()
	r.until(t, form.Submit(map[string]string{form.Fields[0].CustomID: "5 lb"}).ID())
	got := b.Got()
	last := got[len(got)-1]
	if last.Press == nil || last.Press.Version != 41 || last.Press.Line != "weigh 3 5 lb" {
		t.Errorf("the bot was asked %+v", last.Press)
	}
}

// Buttons and forms of a version long gone, or of nobody, get a private word.
func TestUnknownButtons(t *testing.T) {
	c := newClub(t)
	b := &adaptertest.Bot{}
	r := start(t, c, b)
	here := c.ines.At(c.curing)
	for i, id := range []string{"L0:old:flip 3", "whatever", "P1:99:x:y", "P9:1:17003087659008001:batches", "M1:L1:0:nothing"} {
		body := map[string]any{"content": fmt.Sprint("ping ", i), "allowed_mentions": map[string]any{"parse": []string{}},
			"components": []any{map[string]any{"type": 1, "components": []any{map[string]any{"type": 2, "style": 2, "label": "Old", "custom_id": id}}}}}
		postRaw(t, c, body)
		use := here.Press(newest(t, here, "Old"), "Old")
		r.until(t, use.ID())
		if m := use.WaitReply(); !m.Ephemeral || !strings.Contains(m.Text, "nothing was changed") {
			t.Errorf("%q: (ephemeral %v) %q", id, m.Ephemeral, m.Text)
		}
	}
	if got := b.Got(); len(got) > 0 {
		t.Errorf("the bot was asked %+v", got)
	}
}

// A ping of several batches keeps what it says of the others when one is dealt
// with.
func TestAnswerInPlaceKeepsTheOtherBatches(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	l.open(here, "3 kg coffee and chilli 4 cm")
	l.pass(23 * time.Hour)
	ping := here.WaitText("flip it")
	m := l.press(here, ping, "Flipped 1")
	if m.ID != ping.ID || !strings.Contains(wordsOf(m), "Batch 2 (coffee and chilli), day 1 of 9: flip it.") || !strings.Contains(wordsOf(m), "Batch 1 (juniper) flipped") || strings.Contains(wordsOf(m), "day 1 of 8: flip it") {
		t.Errorf("after one flip the ping reads %q", m.Text)
	}
	if labels := fmt.Sprint(m.Labels()); !strings.Contains(labels, "Flipped 2") || strings.Contains(labels, "Flipped 1") {
		t.Errorf("its buttons are %s", labels)
	}
	m = l.press(here, m, "Flipped 2")
	if labels := fmt.Sprint(m.Labels()); strings.Contains(labels, "Flipped") {
		t.Errorf("when both are flipped its buttons are %s", labels)
	}
}

// Long answers come in pages, turned by buttons that go on working after a
// restart.
func TestPaging(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	for i := range 60 {
		l.s.Clock().Advance(time.Minute) // at a person's pace
		l.open(here, fmt.Sprintf("%d lb juniper 1.5 in", 4+i%5))
	}
	first := l.slash(here, "batches")
	if n := len(first.Buttons); n != 1 || first.Buttons[0].Label != "Page 2 of 2 ▶" || strings.Contains(first.Text, "**60**") {
		t.Fatalf("the first page has buttons %v and reads %q", first.Labels(), first.Text)
	}
	l.run.stop()
	l.begin()
	second := l.press(here, first, "Page 2 of 2 ▶")
	if second.ID != first.ID || !strings.Contains(second.Text, "**60**") || second.Labels()[0] != "◀ Page 1 of 2" {
		t.Errorf("the second page has buttons %v and reads %q", second.Labels(), second.Text)
	}
	if back := l.press(l.tobias.At(l.curing), second, "◀ Page 1 of 2"); back.Text != first.Text {
		t.Errorf("back on the first page it reads %q", back.Text)
	}
}

// Pages of an answer that changed something are what was answered then; nothing is
// done again.
func TestPagingDoesNothingTwice(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	m := l.slash(here, "open", opt("pieces", strings.Repeat("5 lb juniper 1.5 in, ", 25)+"5 lb honey 1.5 in"))
	m = l.press(here, m, "Yes, I weigh it")
	if len(m.Labels()) == 0 {
		why := l.slash(here, "why", opt("batch", "1"))
		page := l.press(here, why, "Page 2 of "+lastPage(why)+" ▶")
		if page.Text == why.Text {
			t.Error("the second page is the first")
		}
	}
	if got := l.slash(here, "batches").Text; !strings.Contains(got, "1 batch:") {
		t.Errorf("there are %q", got)
	}
}

func lastPage(m discordtest.Message) string {
	f := strings.Fields(m.Labels()[len(m.Labels())-1])
	return f[3]
}
