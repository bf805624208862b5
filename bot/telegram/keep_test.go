package telegram_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"larderhand/bot/adaptertest"
	"larderhand/bot/reply"
	"larderhand/bot/telegram"
	"larderhand/store"
)

// A button too long to send is kept while anyone may press it, and then forgotten; each
// time it is shown counts.
func TestOldLongButtonsAreForgotten(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	at := time.Now()
	r := run(t, tg, scripted(&adaptertest.Bot{}), func(_ *telegram.Config, a *telegram.Adapter) {
		if a != nil {
			a.Now = func() time.Time { return at }
		}
	})
	room.Start(ines, "")
	r.settle()
	show := func(line string) {
		t.Helper()
		var say reply.Reply
		say.Say("Here.").Press(reply.Button{Label: "Long", Line: line + strings.Repeat(" and so on", 10)})
		if _, err := r.a.Send(t.Context(), address(room), "", say); err != nil {
			t.Fatal(err)
		}
	}
	kept := func() int {
		t.Helper()
		if err := r.a.Tidy(t.Context()); err != nil {
			t.Fatal(err)
		}
		list, err := store.Keeper{DB: r.db}.List(t.Context(), "telegram:7000000001:button:")
		if err != nil {
			t.Fatal(err)
		}
		return len(list)
	}
	old := store.Fact{Name: "telegram:7000000001:button:OLD", Value: `{"label":"Long","line":"from before times were noted"}`}
	if err := (store.Keeper{DB: r.db}).Put(t.Context(), old); err != nil {
		t.Fatal(err)
	}
	show("look 1")
	show("look 2")
	pressable := last(t, room)
	for _, step := range []struct {
		days, want int
	}{{0, 3}, {60, 3}, {29, 3}, {2, 1}} {
		at = at.Add(time.Duration(step.days) * 24 * time.Hour)
		if step.days == 60 {
			show("look 2")
		}
		if n := kept(); n != step.want {
			t.Errorf("after %d days more %d are kept, want %d", step.days, n, step.want)
		}
	}
	room.Press(ines, pressable, "Long").Await()
	r.settle()
	if m := last(t, room); strings.Contains(m.Text, "another version") {
		t.Errorf("the button shown again reads %q", m.Text)
	}
	at = at.Add(91 * 24 * time.Hour)
	if n := kept(); n != 0 {
		t.Errorf("%d are kept for good", n)
	}
}

// stuck drops no questions.
type stuck struct{ store.Keeper }

func (s stuck) Drop(ctx context.Context, names ...string) error {
	if strings.Contains(names[0], ":ask:") {
		return errors.New("made to fail")
	}
	return s.Keeper.Drop(ctx, names...)
}

// A question that cannot be dropped would take the next message too, so that is logged.
func TestQuestionThatStaysIsLogged(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	b := &adaptertest.Bot{}
	r := prepare(t, tg, nil, scripted(b), func(_ *telegram.Config, a *telegram.Adapter) {
		if a != nil {
			a.Keep = stuck{a.Keep.(store.Keeper)}
		}
	}).start()
	for _, line := range []string{"/weigh", "look 3"} {
		room.Say(ines, line)
		r.settle()
	}
	if got := b.Got(); len(got) == 0 || got[len(got)-1].Text != "look 3" {
		t.Errorf("the bot was asked %v", got)
	}
	if !strings.Contains(r.log.String(), "a question could not be dropped") {
		t.Errorf("nothing is logged of it:\n%s", r.log)
	}
}
