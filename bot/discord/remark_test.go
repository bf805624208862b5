package discord_test

import (
	"strings"
	"testing"

	"larderhand/bot/adaptertest"
	"larderhand/bot/discord/discordtest"
)

// What somebody says of a batch is shown as it was said, to the last character, when
// it is noted and on the pages of the batch.
func TestRemarksComeBackWhole(t *testing.T) {
	l := newLive(t)
	here := l.ines.DM()
	l.open(here, "5 lb juniper 1.5 in")
	for _, remark := range adaptertest.Remarks() {
		m := l.slash(here, "note", opt("batch", "1"), opt("remark", "said: "+remark))
		whole(t, wordsOf(m), "said: "+remark)
	}
	all := l.pagesOf(here, l.slash(here, "batch", opt("batch", "1")))
	for _, remark := range adaptertest.Remarks() {
		whole(t, all, "said: "+remark)
	}
}

// Ten thousand characters come back whole, in messages and on pages.
func TestTenThousandCharactersComeBackWhole(t *testing.T) {
	l := newLive(t)
	here := l.ines.DM()
	l.open(here, "5 lb juniper 1.5 in")
	for _, long := range []string{adaptertest.LongRemark(10_000 - len("note 1 ")), strings.Repeat("\U0001F953", 9_993), strings.Repeat("\u05e9\u05dc\u05d5\u05dd ", 1_998)} {
		before := len(here.Messages())
		l.run.until(t, here.Say("note 1 "+long).ID)
		var texts []string
		for _, m := range here.Messages()[before+1:] {
			texts = append(texts, wordsOf(m))
		}
		whole(t, strings.Join(texts, "\n"), long)
	}
	before := len(here.Messages())
	l.run.until(t, here.Say("note 1 "+strings.Repeat("x", 10_000)).ID)
	if list := here.Messages()[before+1:]; len(list) != 1 || !strings.Contains(list[0].Text, "I read up to 10000.") {
		t.Errorf("more than that is answered by %d messages", len(list))
	}
}

// pagesOf turns all pages of an answer.
func (l *live) pagesOf(seat *discordtest.Seat, m discordtest.Message) string {
	l.t.Helper()
	text := wordsOf(m)
	for n := len(m.Labels()); n > 0 && strings.HasSuffix(m.Labels()[n-1], "▶"); n = len(m.Labels()) {
		m = l.press(seat, m, m.Labels()[n-1])
		text += "\n" + wordsOf(m)
	}
	return text
}

func whole(t *testing.T, text, want string) {
	t.Helper()
	if !strings.Contains(adaptertest.Solid(text), adaptertest.Solid(want)) {
		t.Errorf("no %.300q in:\n%.2000s", want, text)
	}
}
