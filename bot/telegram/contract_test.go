package telegram_test

import (
	"regexp"
	"strconv"
	"testing"
	"time"

	"larderhand/bot/adaptertest"
	"larderhand/bot/reply"
	"larderhand/bot/telegram"
	"larderhand/bot/telegram/telegramtest"
	"larderhand/store"
)

// The contract of all adapters, in a private chat and in a group's topic.
func TestContract(t *testing.T) {
	t.Run("private", func(t *testing.T) {
		adaptertest.Exercise(t, func(t testing.TB, b *adaptertest.Bot) adaptertest.Fixture {
			tg := fake(t)
			ines := tg.User("Ines")
			tobias := tg.User("Tobias")
			room, other := tg.Private(ines), tg.Private(tobias)
			room.Say(ines, "hello")
			other.Start(tobias, "")
			return contract(t, b, tg, ines, room, other)
		})
	})
	t.Run("topic", func(t *testing.T) {
		adaptertest.Exercise(t, func(t testing.TB, b *adaptertest.Bot) adaptertest.Fixture {
			tg := fake(t)
			ines := tg.User("Ines")
			club := tg.Forum("Quarry Lane Smokehouse Club", tg.User("Marit"), ines)
			return contract(t, b, tg, ines, club.NewTopic(ines, "Bellies"), club.NewTopic(ines, "Smoke"))
		})
	})
}

func contract(t testing.TB, b *adaptertest.Bot, tg *telegramtest.Server, ines *telegramtest.User, room, other *telegramtest.Room) adaptertest.Fixture {
	r := run(t, tg, func(_ *telegram.Config, a *telegram.Adapter) {
		if a != nil {
			a.Bot = b
		}
	})
	tg.AwaitPolling()
	r.settle()
	rooms := map[store.Address]*telegramtest.Room{address(room): room, address(other): other}
	var alerts []adaptertest.Shown
	// An alert is shown where the conversation had got to when it came up.
	at := map[int]int{}
	f := adaptertest.Fixture{Sender: r.a, Editor: r.a, Here: address(room), There: address(other), Person: strconv.FormatInt(ines.ID, 10),
		Secret: tg.Token(), After: 7 * time.Second, Moved: "telegram:-1002000000099",
		Has: adaptertest.Abilities{Marks: true, Instants: true, Pings: true, Buttons: true, Pictures: true, Files: true, Silent: true, Alone: true, Change: true},
	}
	f.Say = func(text string) {
		if f.Here != store.Address("telegram:"+f.Person) {
			text = "/" + text
			text = regexp.MustCompile(`^/\S+`).ReplaceAllString(text, "$0@"+tg.Username())
		}
		room.Say(ines, text)
		r.settle()
	}
	f.Press = func(label string) {
		list := room.FromBot()
		for i := range list {
			m := list[len(list)-1-i]
			if _, ok := m.Button(label); ok {
				answer := room.Press(ines, m, label).Await()
				r.settle()
				if answer.Text != "" {
					at[len(alerts)] = len(room.FromBot())
					alerts = append(alerts, adaptertest.Shown{Text: answer.Text, Private: true})
				}
				return
			}
		}
		t.Fatalf("no button is labelled %q", label)
	}
	f.Answer = func(answers ...string) {
		for _, a := range answers {
			list := room.FromBot()
			prompt := list[len(list)-1]
			if !prompt.Force {
				t.Fatalf("nothing is asked, the last message is %q", prompt.Text)
			}
			if a == "" {
				a = "-"
			}
			room.Reply(ines, prompt, a)
			r.settle()
		}
	}
	f.Shown = func(a store.Address) []adaptertest.Shown {
		var out []adaptertest.Shown
		next := 0
		for i, m := range rooms[a].FromBot() {
			for ; a == f.Here && next < len(alerts) && at[next] <= i; next++ {
				out = append(out, alerts[next])
			}
			out = append(out, shown(t, m))
		}
		if a == f.Here {
			out = append(out, alerts[next:]...)
		}
		return out
	}
	f.Fail = map[store.FailureKind]func(){
		store.Unknown: func() { tg.Inject("sendMessage", 1, telegramtest.BadGateway()) },
		store.Wait:    func() { tg.Inject("sendMessage", 1, telegramtest.RetryAfter(7)) },
		store.Gone:    func() { tg.Inject("sendMessage", 1, telegramtest.Blocked()) },
		store.Refused: func() { tg.Inject("sendMessage", 1, telegramtest.Refuse(400, "Bad Request: MESSAGE_TOO_STRANGE")) },
		store.Moved:   func() { tg.Inject("sendMessage", 1, telegramtest.Moved(-1002000000099)) },
	}
	return f
}

func address(r *telegramtest.Room) store.Address {
	a := "telegram:" + strconv.FormatInt(r.ID(), 10)
	if r.Thread() != 0 {
		a += "/" + strconv.Itoa(r.Thread())
	}
	return store.Address(a)
}

func shown(t testing.TB, m telegramtest.Message) adaptertest.Shown {
	t.Helper()
	if m.Preview {
		t.Errorf("a link in it shows a preview:\n%s", m)
	}
	s := adaptertest.Shown{Text: m.Text, Silent: m.Silent, Edited: m.Edits > 0, Bold: m.Marked("bold"), Code: append(m.Marked("code"), m.Marked("pre")...)}
	for _, e := range m.Entities {
		switch e.Type {
		case "text_mention", "mention":
			s.Pings = append(s.Pings, strconv.FormatInt(e.UserID, 10))
		case "date_time":
			s.At = append(s.At, e.Unix)
		case "url", "bot_command", "hashtag", "cashtag", "email":
			s.Code = append(s.Code, "a link: "+e.Text)
		}
	}
	for _, row := range m.Buttons {
		var labels []string
		for _, b := range row {
			labels = append(labels, b.Label)
		}
		s.Buttons = append(s.Buttons, labels)
	}
	if m.File != nil {
		s.Files = []reply.File{{Name: m.File.Name, Type: m.File.MIME, Data: m.File.Data}}
	}
	return s
}
