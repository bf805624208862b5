package discord_test

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
	_ "time/tzdata"

	"larderhand/bot"
	"larderhand/bot/convtest"
	"larderhand/bot/discord"
	"larderhand/bot/discord/discordtest"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

var update = flag.Bool("update", false, "write down what was sent in the requests")

// The talks of the main job, said to the bot in private, or in a server's channel
// where several people take part: what a person reads there is what the terminal
// shows.
func TestTalks(t *testing.T) {
	talks(t, false)
}

// The same talks with slash commands for every line that is one.
func TestTalksBySlash(t *testing.T) {
	talks(t, true)
}

var speaks = regexp.MustCompile(`(?m)^as (\w+)$`)

// talksUnderRace are the talks that are enough to find races: steps, buttons in
// groups, pictures, files, hand-overs.
var talksUnderRace = regexp.MustCompile(`^(flip_later|step_undo|hand_over|smoke_two|smoke_thermometer|recipe_taken|moderate_group|welcome_first)`)

func talks(t *testing.T, slash bool) {
	files, err := filepath.Glob("../testdata/*.txtar")
	if err != nil || len(files) < 8 {
		t.Fatalf("only %d talks (%v)", len(files), err)
	}
	for _, f := range files {
		if raceOn && !talksUnderRace.MatchString(filepath.Base(f)) {
			continue
		}
		if b := filepath.Base(f); b == "open_restart.txtar" || b == "share_restart_and_loss.txtar" {
			f = saidOnce(t, f)
		}
		body, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		who := map[string]bool{}
		for _, m := range speaks.FindAllStringSubmatch(string(body), -1) {
			who[m[1]] = true
		}
		convtest.RunSome(t, filepath.Dir(f), filepath.Base(f), false, func(tb testing.TB) convtest.Channel {
			name := strings.TrimSuffix(filepath.Base(f), ".txtar")
			return &talk{tb: tb, slash: slash, down: slash && slices.Contains(asRequests, name), name: name, group: len(who) > 1, chiefs: chiefs.FindStringSubmatch(string(body))}
		})
	}
}

// nextSaid is where the next ping or what a person says begins.
var nextSaid = regexp.MustCompile(`\n\n(\[[A-Z][a-z]{2} \d|Ines)`)

// ofServer is what stands behind the name of a channel on Discord alone.
const ofServer = " (Quarry Lane Smokehouse Club)"

// saidOnce rewrites a talk in which the process dies between sending a ping and
// noting it: where a message is known again by its key, it is not there twice.
func saidOnce(t *testing.T, file string) string {
	t.Helper()
	body, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	const again = "(The process dies.)\n\n(The process starts again.)\n\n"
	before, after, found := strings.Cut(string(body), again+"[")
	next := nextSaid.FindStringIndex(after)
	if !found || next == nil || !strings.Contains(after[:next[0]], "flip it") {
		t.Fatalf("%s says no ping twice", file)
	}
	once := filepath.Join(t.TempDir(), filepath.Base(file))
	if err := os.WriteFile(once, []byte(before+again+after[next[0]+2:]), 0o600); err != nil {
		t.Fatal(err)
	}
	return once
}

var chiefs = regexp.MustCompile(`(?m)^admin (.+)$`)

// talk is a talk on Discord.
type talk struct {
	tb     testing.TB
	group  bool
	chiefs []string // the line that says who manages the channel, and who
	slash  bool
	name   string
	down   bool // its requests are written down
	spy    *spy
	zone   *time.Location
	club   *club
	run    *running
	here   *discordtest.Channel
	place  string // where people are, if the talk says
	rooms  map[string]*discordtest.Channel
	moves  bool // more than one place was spoken in
	reader *discordtest.Person
	told   []discordtest.Message // as each was when it was shown
	pings  []string

	mu  sync.Mutex
	now func() time.Time
}

// Open starts the adapter, or, after a restart, another.
func (c *talk) Open(b *bot.Bot, now func() time.Time, zone *time.Location) {
	c.spy, c.zone, c.now = &spy{Bot: b}, zone, now
	if c.club == nil {
		c.club = newClub(c.tb)
		c.here, c.rooms = c.club.curing, map[string]*discordtest.Channel{}
		c.manage(c.here)
		if c.down {
			c.tb.Cleanup(func() { asWrittenDown(c.tb, c.name+".requests.txt", written(c.tb, c.club.s.Requests("", ""))) })
		}
	} else {
		c.run.stop()
	}
	c.run = start(c.tb, c.club, c.spy, func(_ *discord.Config, p *discord.Parts) { p.Now = c.stand() })
}

// stand copies the talk's clock for the adapter's goroutines; the talk moves it
// only between what is said.
func (c *talk) stand() func() time.Time {
	at := c.now()
	c.tick(at)
	return func() time.Time {
		c.mu.Lock()
		defer c.mu.Unlock()
		return at.Add(c.club.s.Clock().Now().Sub(at))
	}
}

// tick brings Discord's clock to the talk's.
func (c *talk) tick(at time.Time) {
	if d := at.Sub(c.club.s.Clock().Now()); d != 0 {
		c.club.s.Clock().Advance(d)
	}
}

// seat is where somebody sits; alone they write to the bot in private.
func (c *talk) seat(who bot.Person) *discordtest.Seat {
	for _, p := range c.people() {
		if p.Name != who.Name {
			continue
		}
		c.reader = p
		if !c.group && c.place == "" || c.place == "private" {
			c.here = p.DM().Channel()
			c.rooms["@"+strings.ToLower(p.Name)] = c.here
		}
		return p.At(c.here)
	}
	c.tb.Fatalf("%s is not of the club", who.Name)
	return nil
}

// Say types a line with a mention of the bot, or uses the command it begins with.
func (c *talk) Say(_ context.Context, who bot.Person, text string) (string, error) {
	c.tick(c.now())
	seat := c.seat(who)
	if c.slash {
		if name, opts, ok := c.options(text); ok {
			use := seat.Slash(name, opts...)
			c.run.until(c.tb, use.ID())
			if use.Ack() != 9 {
				return c.card(seat, use), nil
			}
			// A form comes: one that may stay empty is sent so, another not at all.
			form := use.WaitForm()
			if !slices.ContainsFunc(form.Fields, func(f discordtest.Field) bool { return f.Required }) {
				use = form.Submit(nil)
				c.run.until(c.tb, use.ID())
				return c.card(seat, use), nil
			}
		}
	}
	before := len(seat.Messages())
	m := seat.Tell(text)
	c.run.until(c.tb, m.ID)
	return c.plain(seat.Messages()[before+1:]), nil
}

// options puts a line into a command's options: the batch, and the rest into the
// first that takes any text.
func (c *talk) options(text string) (name string, opts []discordtest.OptionValue, ok bool) {
	name, rest, _ := strings.Cut(text, " ")
	def := c.definition(name)
	if def == nil {
		return "", nil, false
	}
	var free, batch string
	for _, o := range def["options"].([]any) {
		o := o.(map[string]any)
		n := o["name"].(string)
		switch {
		case n == "batch":
			batch = n
		case free == "" && o["choices"] == nil && n != "when" && n != "core" && n != "since_when":
			free = n
		}
	}
	if ref, after, found, err := parse.Batch(rest); batch != "" && err == nil && found && name != "why" && name != "later" {
		opts, rest = append(opts, discordtest.Opt(batch, fmt.Sprint(ref.Number)+ref.Piece)), after
	}
	for _, k := range c.spy.Commands() { // a prefix with nothing behind it is no option
		if k.Name == name && slices.ContainsFunc(k.Fields, func(f bot.Field) bool { return f.Prefix == rest && rest != "" }) {
			return "", nil, false
		}
	}
	if rest != "" {
		if free == "" {
			return "", nil, false
		}
		opts = append(opts, discordtest.Opt(free, rest))
	}
	for _, o := range def["options"].([]any) {
		o := o.(map[string]any)
		if o["required"] == true && !slices.ContainsFunc(opts, func(v discordtest.OptionValue) bool { return v.Name == o["name"] }) {
			return "", nil, false
		}
	}
	return name, opts, true
}

func (c *talk) definition(name string) map[string]any {
	for _, k := range c.club.s.Commands() {
		if k.Name == name {
			return k.Definition
		}
	}
	return nil
}

// Press presses a button as it was when it was shown.
func (c *talk) Press(_ context.Context, who bot.Person, label string, oldest bool) (string, error) {
	c.tick(c.now())
	for i := range c.told {
		m := c.told[len(c.told)-1-i]
		if oldest {
			m = c.told[i]
		}
		at := -1
		for j, l := range m.Labels() {
			if strings.TrimSuffix(l, ofServer) == label && (at < 0 || !oldest) {
				at = j // of two alike the one shown last
			}
		}
		if at < 0 {
			continue
		}
		use := c.seat(who).PressStale(m, m.Buttons[at].CustomID)
		c.run.until(c.tb, use.ID())
		return c.card(c.seat(who), use), nil
	}
	return "", fmt.Errorf("no button is labelled %q", label)
}

// Send delivers a ping.
func (c *talk) Send(ctx context.Context, to store.Address, key string, r reply.Reply) (string, error) {
	c.tick(c.now())
	seat, where := c.room(to)
	before := len(seat.Messages())
	ref, err := c.run.Send(ctx, to, key, r)
	if err != nil {
		return "", err
	}
	if text := c.plain(seat.Messages()[before:]); text != "" {
		c.saw(where, text)
	}
	return ref, nil
}

// Edit changes a message and reads what it is now.
func (c *talk) Edit(ctx context.Context, to store.Address, ref string, r reply.Reply) error {
	c.tick(c.now())
	if err := c.run.Edit(ctx, to, ref, r); err != nil {
		return err
	}
	seat, where := c.room(to)
	for _, m := range seat.Messages() {
		if m.ID == ref {
			c.saw(where+", changed", c.plain([]discordtest.Message{m}))
		}
	}
	return nil
}

// Remove takes a message down and looks whether it is gone.
func (c *talk) Remove(ctx context.Context, to store.Address, ref string) error {
	c.tick(c.now())
	if err := c.run.Remove(ctx, to, ref); err != nil {
		return err
	}
	seat, where := c.room(to)
	for _, m := range seat.Messages() {
		if m.ID == ref {
			c.tb.Errorf("message %s is still there", ref)
		}
	}
	c.saw(where, "(taken down)")
	return nil
}

// Seen gives the pings since the last call.
func (c *talk) Seen() []string {
	seen := c.pings
	c.pings = nil
	return seen
}
