package discord_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/discord/discordtest"
)

// A recipe is pasted into a form, as many lines as it has, and checked for one's own
// piece.
func TestCheckWithAForm(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	form := here.Slash("check").WaitForm()
	if len(form.Fields) != 2 || !form.Fields[0].Long || !form.Fields[0].Required || form.Fields[1].Required {
		t.Fatalf("the form is %+v", form.Fields)
	}
	use := form.Submit(map[string]string{form.Fields[0].Label: "for 5 lb belly\n53 g salt\n23 g brown sugar\n5.4 g curing mix 6.25 %", form.Fields[1].Label: "10 lb"})
	l.run.until(t, use.ID())
	m := use.WaitReply()
	if !strings.Contains(wordsOf(m), "148.8 ppm") || !strings.Contains(wordsOf(m), "46 g") {
		t.Errorf("the recipe is read as %q", wordsOf(m))
	}
	if m := l.slash(here, "check", opt("recipe", "53 g salt, 5.4 g curing mix 6.25 % for 5 lb belly")); !strings.Contains(m.Text, "ppm") {
		t.Errorf("given at once it is read as %q", m.Text)
	}
}

// A reading is logged with a form: by the button of the ping that asks for it, by the
// command alone, and by the command for a batch.
func TestLogAReadingWithAForm(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.open(here, "5 lb juniper 1.5 in")
	l.s.Clock().Advance(8 * 24 * time.Hour)
	for _, name := range []string{"firm", "done", "done", "done"} {
		l.slash(here, name)
	}
	l.s.Clock().Advance(24 * time.Hour)
	for _, name := range []string{"tacky", "season", "smoke"} {
		l.slash(here, name)
	}
	l.pass(90 * time.Minute)
	ping := here.WaitText("what do pit and core read?")
	log := func(form *discordtest.Form, reading, want string) {
		t.Helper()
		if len(form.Fields) != 1 || !form.Fields[0].Long || form.Fields[0].Placeholder == "" {
			t.Fatalf("the form is %+v", form.Fields)
		}
		use := form.Submit(map[string]string{form.Fields[0].Label: reading})
		l.run.until(t, use.ID())
		if m := use.WaitReply(); !strings.Contains(wordsOf(m), want) {
			t.Errorf("%q is answered %q, without %q", reading, wordsOf(m), want)
		}
		l.s.Clock().Advance(10 * time.Minute)
	}
	log(here.Press(ping, "Log a reading").WaitForm(), "pit 154 core 71", "core 71 °F")
	log(here.Slash("temp").WaitForm(), "pit 156\ncore 83", "core 83 °F")
	log(here.Slash("temp", opt("batch", "1")).WaitForm(), "157/94", "core 94 °F")
	if m := l.slash(here, "temp", opt("batch", "1"), opt("reading", "158/101")); !strings.Contains(wordsOf(m), "core 101 °F") {
		t.Errorf("given at once it is answered %q", wordsOf(m))
	}
	if m := l.slash(here, "batch"); !strings.Contains(wordsOf(m), "101 °F") {
		t.Errorf("the batch reads %q", wordsOf(m))
	}
}
