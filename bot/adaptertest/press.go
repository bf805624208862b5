package adaptertest

import (
	"fmt"
	"slices"
	"testing"

	"larderhand/bot"
	"larderhand/bot/reply"
)

func buttonRows(t *testing.T, s *stage) {
	r := one("Pick.")
	r.Press(reply.Button{Label: "One", Line: "look 1"}, reply.Button{Label: "Two", Line: "look 2"})
	r.Press(reply.Button{Label: "Three", Line: "look 3", Version: 7})
	s.send(s.Here, r)
	list := s.Shown(s.Here)
	last := list[len(list)-1]
	if !s.Has.Buttons {
		s.want(joined(list), "One", "look 1", "Two", "look 2", "Three", "look 3")
		return
	}
	if want := [][]string{{"One", "Two"}, {"Three"}}; fmt.Sprint(last.Buttons) != fmt.Sprint(want) {
		t.Errorf("rows are %q, want %q", last.Buttons, want)
	}
}

func pressed(t *testing.T, s *stage) {
	r := one("Pick.")
	r.Press(reply.Button{Label: "Go", Line: "look 3", Version: 41})
	s.send(s.Here, r)
	s.bot.On(func(bot.Message) reply.Reply { return one("seen to") })
	s.Press("Go")
	got := s.bot.Got()
	if len(got) == 0 {
		t.Fatal("the press did not reach the bot")
	}
	m := got[len(got)-1]
	if line(m) != "look 3" {
		t.Errorf("the bot was asked %q", line(m))
	}
	if m.Press != nil && m.Press.Version != 41 {
		t.Errorf("the version is %d", m.Press.Version)
	}
	if m.Conversation != s.Here || m.Sender.Key != s.Person {
		t.Errorf("it came from %s in %s", m.Sender.Key, m.Conversation)
	}
	s.want(joined(s.Shown(s.Here)), "Pick.", "seen to")
}

// asks: the answers complete the line; an optional one may be left out.
func asks(t *testing.T, s *stage) {
	r := one("Weigh it.")
	r.Press(reply.Button{Label: "Weigh", Line: "weigh 3", Ask: true})
	s.send(s.Here, r)
	if !s.Has.Buttons {
		s.want(joined(s.Shown(s.Here)), "Weigh", "weigh 3")
		return
	}
	s.bot.On(func(m bot.Message) reply.Reply { return one("noted: " + line(m)) })
	s.Press("Weigh")
	if got := s.bot.Got(); len(got) > 0 && line(got[len(got)-1]) == "weigh 3" {
		t.Fatal("the line was run before it was complete")
	}
	s.Answer("5 lb", "", "yesterday")
	got := s.bot.Got()
	if len(got) == 0 || line(got[len(got)-1]) != "weigh 3 5 lb from yesterday" {
		t.Fatalf("the bot was asked %+v", got)
	}
	s.want(joined(s.Shown(s.Here)), "noted: weigh 3 5 lb from yesterday")
}

func alone(t *testing.T, s *stage) {
	r := one("Pick.")
	r.Press(reply.Button{Label: "Go", Line: "look 3"})
	s.send(s.Here, r)
	s.bot.On(func(bot.Message) reply.Reply {
		r := one("for you alone")
		r.Private = true
		return r
	})
	s.Press("Go")
	list := s.Shown(s.Here)
	s.want(joined(list), "Pick.", "for you alone")
	if s.Has.Alone && !list[len(list)-1].Private {
		t.Errorf("everyone can read %q", list[len(list)-1].Text)
	}
	s.Say("look 3")
	if s.want(joined(s.Shown(s.Here)), "Pick.", "for you alone", "for you alone"); t.Failed() {
		t.Log("a private answer to something typed was lost")
	}
}

func replaced(t *testing.T, s *stage) {
	r := one("Flip it.")
	r.Press(reply.Button{Label: "Flipped", Line: "look 3"})
	s.send(s.Here, r)
	before := len(s.Shown(s.Here))
	s.bot.On(func(bot.Message) reply.Reply {
		r := one("Flipped, day 4.")
		r.Replace = true
		r.Press(reply.Button{Label: "How is it", Line: "look 4"})
		return r
	})
	s.Press("Flipped")
	list := s.Shown(s.Here)
	s.want(joined(list), "Flipped, day 4.")
	if !s.Has.Change {
		return
	}
	if len(list) != before {
		t.Errorf("%d messages became %d", before, len(list))
	}
	last := list[len(list)-1]
	if !last.Edited || fmt.Sprint(last.Buttons) != "[[How is it]]" {
		t.Errorf("the message is %+v", last)
	}
	s.Press("How is it") // answered as it already is: no failure, nothing new
	if n := len(s.Shown(s.Here)); n != before {
		t.Errorf("%d messages after a press that changes nothing, want %d", n, before)
	}
}

func changed(t *testing.T, s *stage) {
	if s.Editor == nil {
		t.Skip("messages cannot be changed")
	}
	ref := s.send(s.Here, one("in the smoke"))
	before := len(s.Shown(s.Here))
	for range 2 { // the second time it is that already
		if err := s.Editor.Edit(t.Context(), s.Here, ref, one("out of the smoke")); err != nil {
			t.Fatalf("edit: %v", err)
		}
	}
	list := s.Shown(s.Here)
	if len(list) != before || tidy(list[len(list)-1].Text) != "out of the smoke" {
		t.Errorf("shown is %q", joined(list))
	}
}

func inOrder(t *testing.T, s *stage) {
	s.bot.On(func(m bot.Message) reply.Reply { return one("answer to " + line(m)) })
	var want []string
	for i := range 6 {
		ping, look := fmt.Sprintf("ping %d.", i), fmt.Sprintf("look %d", i)
		s.send(s.Here, one(ping))
		s.Say(look)
		want = append(want, ping, "answer to "+look)
	}
	s.want(joined(s.Shown(s.Here)), want...)
	if s.There == "" {
		return
	}
	s.send(s.There, one("elsewhere"))
	if slices.ContainsFunc(s.Shown(s.Here), func(m Shown) bool { return tidy(m.Text) == "elsewhere" }) {
		t.Error("what was sent to one conversation is shown in another")
	}
	s.want(joined(s.Shown(s.There)), "elsewhere")
}
