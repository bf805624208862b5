package adaptertest

import (
	"slices"
	"strings"
	"testing"

	"larderhand/bot/reply"
)

// hostile is what people may type to get something other than text out of it, and
// what merely is hard to carry.
var hostile = []string{
	"<b>bold</b>", "</b></pre></code>", "<a href=\"tg://user?id=77\">Marit</a>", "a < b && c > d", "&lt;&amp;&#60;",
	"**bold** __under__ ~~gone~~ ||spoiler||", "*bold* _italic_ `code`", "```block```", "[name](https://example.org/x)",
	"@everyone @here", "<@77> <@!77> <@&77> <#77> <t:0:R>", "@marit_smokes", "https://example.org/x", "example.org",
	"# title", "> quote", "- item", "/close 3", "\\*", "quarry lane \"club\" 'n' co",
	"\U0001F469\U0001F3FD\u200d\U0001F373 \U0001F1E9\U0001F1EA \U0001F953\ufe0f 1\ufe0f\u20e3", "\u05d1\u05d9\u05d9\u05e7\u05d5\u05df \u0644\u062d\u0645 bacon",
	"e\u0301 \u0e01\u0e33 \ud55c\uad6d\uc5b4",
}

func userText(t *testing.T, s *stage) {
	for _, text := range hostile {
		before := len(s.Shown(s.Here))
		var r reply.Reply
		r.Say("said: ", text, " :end")
		r.Table([][]string{{"piece", "meat"}, {text, "980 g"}})
		s.send(s.Here, r)
		list := s.since(s.Here, before)
		s.want(joined(list), "said: "+text+" :end", text)
		for _, m := range list {
			if slices.ContainsFunc(append(m.Bold, m.Code...), func(x string) bool { return !strings.Contains(x, "980 g") }) {
				t.Errorf("%q became bold %q or code %q", text, m.Bold, m.Code)
			}
			if len(m.Pings) > 0 || len(m.At) > 0 {
				t.Errorf("%q pinged %q or named an instant %v", text, m.Pings, m.At)
			}
		}
	}
	// In marked text, in a button and as a name it is text too.
	before := len(s.Shown(s.Here))
	var r reply.Reply
	r.Say(reply.B("x<i>y</i>*z*"), " by ", reply.Who("88", "<u>T</u> & `co`"), " type ", reply.Type("note 3 a`b <c>"))
	r.Press(reply.Button{Label: "<b>A</b> & *B*", Line: "look 3"})
	s.send(s.Here, r)
	list := s.since(s.Here, before)
	s.want(joined(list), "x<i>y</i>*z*", "<u>T</u> & `co`", "<c>")
	if s.Has.Buttons && list[len(list)-1].Buttons[0][0] != "<b>A</b> & *B*" {
		t.Errorf("the button says %q", list[len(list)-1].Buttons[0][0])
	}
}

func pings(t *testing.T, s *stage) {
	if !s.Has.Pings {
		t.Skip("the platform notifies nobody by name")
	}
	named := one("")
	named.Blocks = nil
	named.Say("It is your turn, ", reply.Who(s.Person, "Ines"), ".")
	s.send(s.Here, named)
	named.Mentions = []string{s.Person}
	s.send(s.Here, named)
	list := s.Shown(s.Here)
	list = list[len(list)-2:]
	s.want(joined(list[:1]), "It is your turn, Ines.")
	if len(list[0].Pings) > 0 {
		t.Errorf("a name that may not be pinged pinged %q", list[0].Pings)
	}
	if !slices.Equal(list[1].Pings, []string{s.Person}) {
		t.Errorf("pinged are %q, want %q", list[1].Pings, s.Person)
	}
}

func longText(t *testing.T, s *stage) {
	var r reply.Reply
	var words []string
	for i := range 1000 {
		words = append(words, "word"+strings.Repeat("y", i%7)+"<"+string(rune('a'+i%26))+">")
	}
	r.Say(strings.Join(words, " "))
	rows := [][]string{{"when", "core"}}
	for range 120 {
		rows = append(rows, []string{"Mon 1 Mar 09:00 & on", "41.5 °C"})
	}
	r.Table(rows)
	r.Par(reply.B("last"))
	r.Press(reply.Button{Label: "How is it", Line: "look 3"})
	s.send(s.Here, r)
	list := s.Shown(s.Here)
	all := joined(list)
	s.want(strings.Join(strings.Fields(all), " "), append(words, "last")...)
	if n := strings.Count(all, "09:00 & on"); n != 120 {
		t.Errorf("%d of 120 rows arrived", n)
	}
	if s.Has.Buttons {
		for i, m := range list {
			if last := i == len(list)-1; (len(m.Buttons) > 0) != last {
				t.Errorf("message %d of %d has the buttons %q", i+1, len(list), m.Buttons)
			}
		}
	}
}

func nothing(t *testing.T, s *stage) {
	before := len(s.Shown(s.Here))
	s.send(s.Here, reply.Reply{})
	if got := s.since(s.Here, before); len(got) > 0 {
		t.Errorf("a reply that says nothing shows %q", joined(got))
	}
}
