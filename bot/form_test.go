package bot_test

import (
	"testing"
	"time"

	"larderhand/bot"
)

// A form asks for what a button's line lacks and makes a line that can be run.
func TestFormAsksForWhatIsMissing(t *testing.T) {
	b := bot.New(bot.Config{Zone: time.UTC})
	for _, c := range []struct {
		line    string
		answers []string
		want    string
	}{
		{`use "winter juniper"`, []string{"6.2 lb", "1.5 in"}, `use "winter juniper" 6.2 lb 1.5 in`},
		{"ask card 7", []string{"which wood?"}, "ask card 7 which wood?"},
		{"share 3", []string{"club"}, "share 3 in club"},
		{"cure", []string{"5 lb", "", "juniper"}, "cure 5 lb juniper"},
		{"taste 3", []string{"salt 4"}, "taste 3 salt 4"},
		{"temp 1", []string{"148/121"}, "temp 1 148/121"},
	} {
		form, ok := b.Form(c.line)
		if !ok {
			t.Errorf("%s has no form", c.line)
			continue
		}
		if len(c.answers) != len(form.Fields) {
			t.Errorf("%s asks for %v", c.line, form.Fields)
		}
		if got := form.Fill(c.answers); got != c.want {
			t.Errorf("%s filled is %q, want %q", c.line, got, c.want)
		}
	}
}
