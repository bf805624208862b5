package discord_test

import (
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/adaptertest"
	"larderhand/bot/discord/discordtest"
	"larderhand/bot/reply"
)

// What goes over the wire, written down: an answer on a card, a form, a private
// word, a ping, an answer in place and the page of a long one. Ids differ from run
// to run and are left out.
func TestRequestsAreAsWrittenDown(t *testing.T) {
	c := newClub(t)
	b := &adaptertest.Bot{}
	r := start(t, c, b)
	here := c.ines.At(c.curing)
	noon := time.Date(2027, 3, 1, 12, 0, 0, 0, time.UTC)
	answer := func(text string, change func(*reply.Reply)) {
		b.On(func(bot.Message) reply.Reply {
			var out reply.Reply
			out.Say(reply.B("Batch 3"), " ", text, " ", reply.When(noon, "Mon 1 Mar 12:00"), ", type ", reply.Type("look 3"))
			out.Table([][]string{{"", "meat", "salt"}, {"a juniper", "2.72 kg", "61 g"}, {"b *honey*", "980 g", "22 g"}})
			change(&out)
			return out
		})
	}
	slash := func(opts ...discordtest.OptionValue) {
		use := here.Slash("look", opts...)
		r.until(t, use.ID())
	}
	answer("*juniper* @everyone <@77> https://example.org # 1.", func(out *reply.Reply) {
		out.Press(reply.Button{Label: "Flipped", Line: "look 3", Version: 41}, reply.Button{Label: "Weigh", Line: "weigh 3", Ask: true})
	})
	slash(opt("details", "3"))
	r.until(t, here.Press(newest(t, here, "Weigh"), "Weigh").ID())
	answer("for you alone", func(out *reply.Reply) { out.Private = true })
	slash()
	answer("many lines", func(out *reply.Reply) {
		for range 60 {
			out.Par("one line")
		}
	})
	slash()
	var ping reply.Reply
	ping.Say("For ", reply.Who(c.ines.ID, "Ines"), " and ", reply.Who(c.tobias.ID, "Tobias"), ": flip it.").Press(reply.Button{Label: "Done", Line: "look 3"})
	ping.Mentions, ping.Silent = []string{c.ines.ID}, true
	if _, err := r.Send(t.Context(), at(c.curing), "a key", ping); err != nil {
		t.Fatal(err)
	}
	answer("flipped", func(out *reply.Reply) { out.Replace = true })
	r.until(t, here.Press(newest(t, here, "Done"), "Done").ID())

	asWrittenDown(t, "requests.txt", written(t, c.s.Requests("POST", "")))
}
