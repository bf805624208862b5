package telegram_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"larderhand/bot/adaptertest"
	"larderhand/bot/telegram/telegramtest"
)

// What somebody says of a batch is shown as it was said, to the last character, when
// it is noted and when the batch is looked at.
func TestRemarksComeBackWhole(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg)
	r.openBatch(room, ines)
	for _, remark := range adaptertest.Remarks() {
		before := len(room.FromBot())
		room.Say(ines, "note 1 said: "+remark)
		r.settle()
		whole(t, room.FromBot()[before:], "said: "+remark)
	}
	before := len(room.FromBot())
	room.Say(ines, "batch 1")
	r.settle()
	for _, remark := range adaptertest.Remarks() {
		whole(t, room.FromBot()[before:], "said: "+remark)
	}
}

// Ten thousand characters come back whole; more than that is not kept, and not half
// of it either.
func TestTenThousandCharactersComeBackWhole(t *testing.T) {
	tg, r, listen := hooked(t, "")
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r.openBatch(room, ines)
	secret := tg.Calls("setWebhook")[0].Params["secret_token"]
	id := 0
	say := func(text string) []telegramtest.Message {
		t.Helper()
		id++
		body, err := json.Marshal(map[string]any{"update_id": 810000000 + id, "message": map[string]any{"message_id": 900 + id, "date": time.Now().Unix(), "text": text,
			"chat": map[string]any{"id": room.ID(), "type": "private", "first_name": "Ines"}, "from": map[string]any{"id": ines.ID, "is_bot": false, "first_name": "Ines"}}})
		if err != nil {
			t.Fatal(err)
		}
		before := len(room.FromBot())
		if code := deliver(t, listen, secret, string(body)); code != http.StatusOK {
			t.Fatalf("it gets %d", code)
		}
		r.settle()
		return room.FromBot()[before:]
	}
	long := adaptertest.LongRemark(10_000 - len("note 1 "))
	whole(t, say("note 1 "+long), long)
	words := strings.Fields(strings.ReplaceAll(textOf(say("note 1 "+long)), "\u2060", ""))
	if want := strings.Fields(long); len(words) < len(want) || strings.Join(words[len(words)-len(want):], " ") != long {
		t.Error("a word of it is broken")
	}
	for _, long := range []string{strings.Repeat("\U0001F953", 9_993), strings.Repeat("\u05e9\u05dc\u05d5\u05dd ", 1_998)} {
		whole(t, say("note 1 "+long), long)
	}
	if text := textOf(say("note 1 " + long + " and so on " + long[:20])); !strings.Contains(text, "I read up to 10000.") {
		t.Errorf("more than that is answered %.200q", text)
	}
	if text := textOf(say("batch 1")); strings.Contains(text, "and so on") {
		t.Error("a part of what was too long was kept")
	}
}

func textOf(list []telegramtest.Message) string {
	var all []string
	for _, m := range list {
		all = append(all, m.Text)
	}
	return strings.Join(all, "\n")
}

// whole reports what does not show a text whole, or makes more of it than text.
func whole(t *testing.T, list []telegramtest.Message, want string) {
	t.Helper()
	if !strings.Contains(adaptertest.Solid(textOf(list)), adaptertest.Solid(want)) {
		t.Errorf("no %.300q in:\n%.2000s", want, textOf(list))
	}
	for _, m := range list {
		for _, e := range m.Entities {
			if e.Type != "bold" && e.Type != "code" && e.Type != "pre" && e.Type != "date_time" {
				t.Errorf("%q became a %s", e.Text, e.Type)
			}
		}
	}
}
