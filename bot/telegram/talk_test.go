package telegram_test

import (
	"context"
	"flag"
	"fmt"
	"log/slog"
	"mime"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf16"

	"larderhand/bot"
	"larderhand/bot/convtest"
	"larderhand/bot/reply"
	"larderhand/bot/telegram"
	"larderhand/bot/telegram/telegramtest"
	"larderhand/bot/terminal"
	"larderhand/store"
)

// The golden talks, word for word as in the terminal: in a topic of a forum with
// privacy mode on, those of one person in a private chat too, those of several in a
// plain group, and those that go from place to place in several chats. Someone
// alone manages their group, as they do their terminal; of several nobody does.
func TestTalks(t *testing.T) {
	told := &sync.Map{} // talks that began somewhere
	t.Cleanup(func() {
		for file := range talks(t) {
			if _, ok := told.Load(file); !ok && onlyAll() {
				t.Errorf("%s is told in no kind of chat", file)
			}
		}
	})
	for _, kind := range []string{"private", "group", "topic", "places"} {
		t.Run(kind, func(t *testing.T) {
			for file, speakers := range talks(t) {
				owner := "Host"
				if len(speakers) == 1 {
					owner = speakers[0]
				}
				groups := groupsOf(t, file)
				if alone := len(speakers) == 1; kind == "private" && !alone || kind == "group" && alone || kind == "places" && len(groups) == 0 {
					continue
				}
				dir := "../testdata"
				if kind == "places" && file == "share_card.txtar" {
					dir = blanked(t, dir, file)
				}
				convtest.RunSome(t, dir, file, false, func(tb testing.TB) convtest.Channel {
					return &club{tb: tb, began: func() { told.Store(file, true) }, kind: kind, owner: owner, chiefs: chiefs(tb, file), groups: groups, grows: grows(tb, file)}
				})
			}
		})
	}
}

// onlyAll reports whether no talk was left out by who runs the tests.
func onlyAll() bool {
	return flag.Lookup("test.run").Value.String() == "" || !strings.Contains(flag.Lookup("test.run").Value.String(), "/")
}

// talksUnderRace are the talks that are enough to find races: steps, buttons in
// groups, pictures, files, hand-overs.
var talksUnderRace = regexp.MustCompile(`^(flip_later|step_undo|hand_over|smoke_two|smoke_thermometer|recipe_taken|moderate_group|welcome_first)`)

// chiefs are those who manage a talk's group.
func chiefs(tb testing.TB, file string) []string {
	tb.Helper()
	body, err := os.ReadFile(filepath.Join("../testdata", file))
	if err != nil {
		tb.Fatal(err)
	}
	if m := regexp.MustCompile(`(?m)^admin (.+)$`).FindSubmatch(body); m != nil {
		return strings.Fields(string(m[1]))
	}
	return nil
}

// talks lists the golden talks with who speaks in them.
func talks(t *testing.T) map[string][]string {
	t.Helper()
	files, err := filepath.Glob("../testdata/*.txtar")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d talks: %v", len(files), err)
	}
	out := map[string][]string{}
	for _, f := range files {
		if raceOn && !talksUnderRace.MatchString(filepath.Base(f)) {
			continue
		}
		body, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		script, _, _ := strings.Cut(string(body), "\n-- ")
		names := []string{}
		for _, m := range regexp.MustCompile(`(?m)^as (\S+)`).FindAllStringSubmatch(script, -1) {
			if !slices.Contains(names, m[1]) {
				names = append(names, m[1])
			}
		}
		out[filepath.Base(f)] = names
	}
	return out
}

// club is a talk's channel. In a group people answer the bot.
type club struct {
	tb     testing.TB
	began  func()
	kind   string
	owner  string
	tg     *telegramtest.Server
	db     *store.DB // the adapter's own facts; the talk's store is not ours to see
	rig    *rig
	room   *telegramtest.Room            // where people are
	rooms  map[string]*telegramtest.Room // of a talk in several places, by name
	groups []string                      // the names of its groups
	moves  bool                          // more than one place was spoken in
	grows  bool                          // a plain group that becomes a supergroup
	chats  chats
	place  string
	people map[string]*telegramtest.User
	chiefs []string // who manage the group, besides its owner
	now    func() time.Time
	zone   *time.Location

	last    map[int64]int // the newest message read in a chat
	buttons []shownButton
	pings   []string
}

type shownButton struct {
	label string
	on    telegramtest.Message
}

// Open starts the adapter, anew after a restart.
func (c *club) Open(b *bot.Bot, now func() time.Time, zone *time.Location) {
	c.now, c.zone = now, zone
	if c.tg == nil {
		c.began()
		c.tg = fake(c.tb, telegramtest.WithClock(func() time.Time { return c.now() }))
		var err error
		if c.db, err = store.Open(context.Background(), store.Memory); err != nil {
			c.tb.Fatal(err)
		}
		c.tb.Cleanup(func() { _ = c.db.Close() })
		host := c.tg.User(c.owner)
		c.people = map[string]*telegramtest.User{c.owner: host}
		c.rooms, c.last = map[string]*telegramtest.Room{}, map[int64]int{}
		switch c.kind {
		case "private":
			c.room = c.tg.Private(host)
		case "places":
			for _, name := range c.groups {
				c.rooms[name] = c.tg.Supergroup(name, host)
			}
			c.room = c.rooms[c.groups[0]]
		default:
			found := c.tg.Supergroup
			if c.Moves() {
				found = c.tg.Group
			}
			c.room = found(clubName, host)
		}
		if c.kind == "topic" {
			c.room.TopicsOn()
			c.room = c.room.NewTopic(host, "Bellies")
		}
		for _, name := range c.chiefs {
			c.room.Promote(c.who(bot.Person{Name: name}))
		}
		c.forget()
	} else if err := c.rig.stop(); err != nil {
		c.tb.Fatal(err)
	}
	c.rig = prepare(c.tb, c.tg, c.db, func(_ *telegram.Config, a *telegram.Adapter) {
		if a != nil {
			a.Bot, a.Places, a.Now = b, &c.chats, now
			a.Log = slog.New(slog.NewTextHandler(c.tb.Output(), nil))
		}
	}).start()
	c.rig.a.Handled = c.rig.note
	c.rig.settle()
	c.read()
}

// forget drops what the platform has to tell: the bot was let in long ago.
func (c *club) forget() { post(c.tb, c.tg, "getUpdates", `{"offset":2000000000}`) }

func (c *club) who(p bot.Person) *telegramtest.User {
	u, ok := c.people[p.Name]
	if !ok {
		u = c.tg.User(p.Name)
		c.people[p.Name] = u
		for _, name := range c.groups {
			if c.rooms[name] != nil {
				c.rooms[name].Join(u)
			}
		}
		if len(c.rooms) == 0 {
			c.room.Join(u)
		}
	}
	if c.place == "private" && c.kind == "places" {
		c.room = c.tg.Private(u)
		c.rooms["@"+strings.ToLower(p.Name)] = c.room
	}
	return u
}

// Say answers the newest thing the bot said, or names it where it said nothing yet.
func (c *club) Say(_ context.Context, who bot.Person, text string) (string, error) {
	u := c.who(who)
	if c.private() {
		c.room.Say(u, text)
	} else if list := c.room.FromBot(); len(list) > 0 {
		c.room.Reply(u, list[len(list)-1], text)
	} else {
		c.room.Say(u, "@"+c.tg.Username()+" "+text)
	}
	c.rig.settle()
	return strings.Join(c.read(), "\n\n"), nil
}

// Press presses a button and reads what came of it: an alert, a changed message or
// a new one.
func (c *club) Press(_ context.Context, who bot.Person, label string, oldest bool) (string, error) {
	for i := range c.buttons {
		b := c.buttons[len(c.buttons)-1-i]
		if oldest {
			b = c.buttons[i]
		}
		if b.label != label {
			continue
		}
		who := c.who(who)
		before, _ := c.room.Now(b.on)
		answer := c.room.Press(who, b.on, label).Await()
		c.rig.settle()
		var parts []string
		if answer.Text != "" {
			parts = append(parts, answer.Text)
		}
		if after, ok := c.room.Now(b.on); ok && after.Edits > before.Edits {
			parts = append(parts, c.asTyped(after))
		}
		return strings.Join(append(parts, c.read()...), "\n\n"), nil
	}
	return "", fmt.Errorf("no button is labelled %q", label)
}

// Send delivers a ping and reads it.
func (c *club) Send(ctx context.Context, to store.Address, key string, r reply.Reply) (string, error) {
	ref, err := c.rig.a.Send(ctx, to, key, r)
	if err == nil {
		room, where := c.at(to)
		c.saw(where, strings.Join(c.readIn(room), "\n\n"))
	}
	return ref, err
}

// Remove takes a message down and looks whether it is gone.
func (c *club) Remove(ctx context.Context, to store.Address, ref string) error {
	if err := c.rig.a.Remove(ctx, to, ref); err != nil {
		return err
	}
	room, where := c.at(to)
	for _, m := range room.FromBot() {
		if fmt.Sprint(m.ID) == ref[1:] {
			c.tb.Errorf("message %s is still there", ref)
		}
	}
	c.saw(where, "(taken down)")
	return nil
}

// Edit changes a message and reads what it is now.
func (c *club) Edit(ctx context.Context, to store.Address, ref string, r reply.Reply) error {
	if err := c.rig.a.Edit(ctx, to, ref, r); err != nil {
		return err
	}
	room, where := c.at(to)
	for _, m := range room.FromBot() {
		if fmt.Sprint(m.ID) == ref[1:] {
			c.saw(where+", changed", c.asTyped(m))
		}
	}
	return nil
}

// Seen gives the pings since the last call.
func (c *club) Seen() []string {
	seen := c.pings
	c.pings = nil
	return seen
}

// read gives what the bot said where people are since it was last read.
func (c *club) read() []string { return c.readIn(c.room) }

func (c *club) readIn(room *telegramtest.Room) []string {
	var out []string
	for _, m := range room.FromBot() {
		if m.ID > c.last[room.ID()] {
			c.last[room.ID()] = m.ID
			out = append(out, c.asTyped(m))
		}
	}
	return out
}

// asTyped writes a message down the way the terminal shows a reply, and takes up
// its buttons.
func (c *club) asTyped(m telegramtest.Message) string {
	if m.Preview {
		c.tb.Errorf("a link in it shows a preview:\n%s", m)
	}
	text := utf16.Encode([]rune(m.Text))
	var b strings.Builder
	at := 0
	for _, e := range m.Entities {
		if e.Type == "code" {
			b.WriteString(string(utf16.Decode(text[at:e.Offset])) + "`" + c.unslashed(e.Text) + "`")
			at = e.Offset + e.Length
		}
	}
	b.WriteString(string(utf16.Decode(text[at:])))
	r := reply.Reply{}
	r.Say(strings.NewReplacer("\u2060", "", "·  ", "   ").Replace(b.String()))
	if m.File != nil {
		kind := mime.TypeByExtension(filepath.Ext(m.File.Name))
		if m.File.Photo {
			kind = "image/png"
		}
		r.Files = []reply.File{{Name: m.File.Name, Type: kind, Data: m.File.Data}}
	}
	for _, row := range m.Buttons {
		var out []reply.Button
		for _, btn := range row {
			c.buttons = append(c.buttons, shownButton{btn.Label, m})
			var made reply.Button
			if _, code, ok := strings.Cut(btn.URL, "?start="); ok { // opens what was shared in private
				made.Line = "shared " + code
			} else {
				var err error
				if made, err = reply.ParseToken(btn.Data); err != nil {
					c.tb.Errorf("the button %q: %v", btn.Label, err)
				}
			}
			made.Label = btn.Label
			out = append(out, made)
		}
		r.Press(out...)
	}
	return terminal.Render(r, nil)
}

// unslashed takes off the slash that a line to be typed has in a group.
func (c *club) unslashed(line string) string {
	rest, ok := strings.CutPrefix(line, "/")
	if !ok {
		return line
	}
	word, _, _ := strings.Cut(rest, " ")
	for _, cmd := range c.rig.a.Bot.Commands() {
		for _, w := range append([]string{cmd.Name}, cmd.Also...) {
			if w == word {
				return rest
			}
		}
	}
	return line
}
