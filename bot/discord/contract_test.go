package discord_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/adaptertest"
	"larderhand/bot/discord/discordtest"
	"larderhand/bot/reply"
	"larderhand/store"
)

func TestContract(t *testing.T) {
	adaptertest.Exercise(t, func(t testing.TB, b *adaptertest.Bot) adaptertest.Fixture {
		c := newClub(t)
		r := start(t, c, b)
		ines := c.ines.At(c.curing)
		var use *discordtest.Use
		f := adaptertest.Fixture{Sender: r, Editor: r, Here: at(c.curing), There: at(c.elsewhere), Person: c.ines.ID, Secret: c.s.Token(),
			Has: adaptertest.Abilities{Marks: true, Instants: true, Pings: true, Buttons: true, Pictures: true, Files: true, Silent: true, Alone: true, Change: true}}
		f.Say = func(text string) { r.until(t, ines.Tell(text).ID) }
		f.Press = func(label string) {
			use = ines.Press(newest(t, ines, label), label)
			r.until(t, use.ID())
		}
		f.Answer = func(answers ...string) {
			open := use.WaitForm()
			in := map[string]string{}
			for i, a := range answers {
				in[open.Fields[i].CustomID] = a
			}
			r.until(t, open.Submit(in).ID())
		}
		f.Shown = func(at store.Address) []adaptertest.Shown {
			seat := ines
			if at == f.There {
				seat = c.ines.At(c.elsewhere)
			}
			return shown(c, seat)
		}
		f.After = 90 * time.Second
		f.Fail = map[store.FailureKind]func(){}
		for kind, fault := range map[store.FailureKind]discordtest.FaultKind{
			store.Unknown: discordtest.ServerError(502),
			store.Wait:    discordtest.RateLimited(f.After),
			store.Gone:    discordtest.MissingAccess(),
			store.Refused: discordtest.Refused(400, 50035, "Invalid Form Body"),
		} {
			f.Fail[kind] = func() { c.s.Inject("POST", "/channels/*/messages", fault) }
		}
		return f
	})
}

// newest is the latest message with a button of that label.
func newest(t testing.TB, seat *discordtest.Seat, label string) discordtest.Message {
	t.Helper()
	return seat.WaitMessage("a button "+label, func(m discordtest.Message) bool {
		for _, l := range m.Labels() {
			if l == label {
				return true
			}
		}
		return false
	})
}

// shown is what the bot showed at a seat.
func shown(c *club, seat *discordtest.Seat) []adaptertest.Shown {
	var out []adaptertest.Shown
	ids := map[string]string{}
	for _, p := range []*discordtest.Person{c.ines, c.tobias, c.marit} {
		ids[p.Name] = p.ID
	}
	for _, m := range seat.Messages() {
		if m.Author != c.s.Bot().Name {
			continue
		}
		read := read(sourceOf(m), func(at time.Time, _ string) string { return at.UTC().Format("Mon 2 Jan 15:04") })
		s := adaptertest.Shown{Text: strings.ReplaceAll(read.text, "@Ines", "Ines"), Bold: read.bold, Code: read.code, At: read.at,
			Buttons: rowsOf(m), Silent: m.Silent, Private: m.Ephemeral, Edited: m.Edits > 0}
		for _, p := range m.Pings {
			s.Pings = append(s.Pings, ids[p])
		}
		for _, a := range m.Attachments {
			s.Files = append(s.Files, reply.File{Name: a.Name, Type: a.Type, Data: a.Data})
		}
		out = append(out, s)
	}
	return out
}
