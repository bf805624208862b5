package convtest

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strconv"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/ledger"
	"larderhand/bot/reply"
	"larderhand/bot/terminal"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

// Channel is the chat a talk goes through. Each call gives what a person would
// see as text.
type Channel interface {
	// Open is called once the bot can answer; and again after a restart.
	Open(b *bot.Bot, now func() time.Time, zone *time.Location)
	// Say has a person say something and gives the answer.
	Say(ctx context.Context, who bot.Person, text string) (string, error)
	// Press has a person press a button and gives the answer. oldest takes the
	// first with that label instead of the last.
	Press(ctx context.Context, who bot.Person, label string, oldest bool) (string, error)
	// Send delivers a ping; what a person would see of it goes to Seen.
	bot.Sender
	// Seen gives the pings since the last call, as a person would see them.
	Seen() []string
}

// Grouped is a channel that has several places: a private chat for each person and
// groups, by name. Without a word about it everyone speaks in one place.
type Grouped interface {
	// Places says how many there can be: 0 means that all is said in private, 1 that
	// all is said in one group.
	Places() int
	In(place string) error
}

// Attacher is a channel where files can be sent along.
type Attacher interface {
	Attach(ctx context.Context, who bot.Person, f reply.File, text string) (string, error)
}

// desk is a talk under way.
type desk struct {
	tb    testing.TB
	file  string
	ch    Channel
	clock scheduler.HandClock
	zone  *time.Location
	who   bot.Person
	db    *store.DB
	sched *scheduler.Scheduler
	talk  strings.Builder
	codes int
	lease int
	fails []error
	dies  bool // at the next sending
	died  bool
	chief map[string]bool // names of those who manage the groups
}

func newDesk(tb testing.TB, file string, open func(testing.TB) Channel) *desk {
	return &desk{tb: tb, file: file, ch: open(tb), who: person("Ines")}
}

func person(name string) bot.Person {
	return bot.Person{Key: strings.ToLower(name), Name: name}
}

func (d *desk) close() {
	if d.db != nil {
		if err := d.db.Close(); err != nil {
			d.tb.Errorf("close the store: %v", err)
		}
	}
}

func (d *desk) begin(args string) error {
	at, zone, _ := strings.Cut(args, " ")
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return err
	}
	if d.zone, err = time.LoadLocation(zone); err != nil {
		return err
	}
	d.clock.At = t.In(d.zone)
	return d.open()
}

func (d *desk) open() error {
	rules, err := curemath.LoadRules()
	if err != nil {
		return err
	}
	if d.db, err = store.Open(context.Background(), d.file); err != nil {
		return err
	}
	log := slog.New(slog.NewTextHandler(logWriter{d.tb}, &slog.HandlerOptions{Level: slog.LevelWarn}))
	b := bot.New(bot.Config{Ledger: ledger.Ledger{DB: d.db}, Clock: &d.clock, Zone: d.zone, Log: log, Rules: rules, Rehearse: ledger.Rehearse, Roll: everyone{},
		Code: func() string { d.codes++; return "look" + strconv.Itoa(d.codes) }})
	d.ch.Open(b, d.clock.Now, d.zone)
	d.sched = &scheduler.Scheduler{Due: d.db, Reach: d.db, Deliver: bot.Deliverer{Bot: b, Sender: faulty{d}}, Log: log,
		Lease: func() string { d.lease++; return strconv.Itoa(d.lease) }}
	return nil
}

// everyone is in every group.
type everyone struct{}

func (everyone) Inside(context.Context, store.Address, string) (bool, error) { return true, nil }

func (d *desk) as(name string) error {
	d.who = person(name)
	d.who.Admin = d.chief[name]
	return nil
}

func (d *desk) admin(names string) error {
	d.chief = map[string]bool{}
	for _, n := range strings.Fields(names) {
		d.chief[n] = true
	}
	d.who.Admin = d.chief[d.who.Name]
	return nil
}

func (d *desk) in(place string) error {
	ch, ok := d.ch.(Grouped)
	if !ok {
		return errors.New("this channel has no groups")
	}
	fmt.Fprintf(&d.talk, "(In %s.)\n\n", place)
	return ch.In(place)
}

func (d *desk) attach(name string, data []byte, text string) error {
	ch, ok := d.ch.(Attacher)
	if !ok {
		return errors.New("this channel takes no files")
	}
	fmt.Fprintf(&d.talk, "%s sends %s: %s\n\n", d.who.Name, name, text)
	f := reply.File{Name: name, Type: mediaType(name), Data: data}
	out, err := ch.Attach(context.Background(), d.who, f, text)
	d.tell(out)
	return err
}

func mediaType(name string) string {
	switch {
	case strings.HasSuffix(name, ".json"):
		return "application/json"
	case strings.HasSuffix(name, ".csv"):
		return "text/csv"
	case strings.HasSuffix(name, ".png"):
		return "image/png"
	case strings.HasSuffix(name, ".jpg"):
		return "image/jpeg"
	}
	return "application/octet-stream"
}

func (d *desk) say(text string) error {
	fmt.Fprintf(&d.talk, "%s: %s\n\n", d.who.Name, text)
	out, err := d.ch.Say(context.Background(), d.who, text)
	d.tell(out)
	return err
}

func (d *desk) press(label string, oldest bool) error {
	fmt.Fprintf(&d.talk, "%s presses [%s]\n\n", d.who.Name, label)
	out, err := d.ch.Press(context.Background(), d.who, label, oldest)
	d.tell(out)
	return err
}

func (d *desk) tell(out string) {
	if out != "" {
		d.talk.WriteString(strings.TrimRight(out, "\n") + "\n\n")
	}
}

func (d *desk) wait(how string) error {
	s := terminal.Simulated{Now: d.clock.Now, Zone: func(context.Context) *time.Location { return d.zone },
		Move: func(ctx context.Context, to time.Time) error {
			err := d.sched.Advance(ctx, &d.clock, to)
			for _, ping := range d.ch.Seen() {
				d.tell(ping)
			}
			return err
		}}
	_, err := s.Wait(context.Background(), how)
	if d.died {
		fmt.Fprintf(&d.talk, "(The process dies.)\n\n")
		return nil
	}
	return err
}

func (d *desk) restart(string) error {
	if err := d.db.Close(); err != nil {
		return err
	}
	fmt.Fprintf(&d.talk, "(The process starts again.)\n\n")
	d.died = false
	return d.open()
}

func (d *desk) fail(args string) error {
	n, kind, _ := strings.Cut(args, " ")
	times, err := strconv.Atoi(n)
	if err != nil {
		return err
	}
	f := &store.Failure{Cause: errors.New("made to fail")}
	switch kind {
	case "unknown":
		f.Kind = store.Unknown
	case "wait":
		f.Kind, f.After = store.Wait, 90*time.Second
	case "gone":
		f.Kind = store.Gone
	case "refused":
		f.Kind = store.Refused
	default:
		return fmt.Errorf("no failure is called %q", kind)
	}
	for range times {
		d.fails = append(d.fails, f)
	}
	return nil
}

func (d *desk) crash(string) error {
	d.dies = true
	return nil
}

// faulty is the channel's sender with the failures a talk asks for.
type faulty struct{ d *desk }

func (f faulty) Send(ctx context.Context, to store.Address, key string, r reply.Reply) (string, error) {
	if len(f.d.fails) > 0 {
		err := f.d.fails[0]
		f.d.fails = f.d.fails[1:]
		return "", err
	}
	ref, err := f.d.ch.Send(ctx, to, key, r)
	if f.d.dies {
		// Whatever would be written from here on is lost with the process.
		f.d.dies, f.d.died = false, true
		return "", errors.Join(errors.New("the process died"), f.d.db.Close())
	}
	return ref, err
}

// Edit changes a message where the channel can.
func (f faulty) Edit(ctx context.Context, to store.Address, ref string, r reply.Reply) error {
	if e, ok := f.d.ch.(bot.Editor); ok {
		return e.Edit(ctx, to, ref, r)
	}
	return &store.Failure{Kind: store.Refused, Cause: errors.New("nothing can be changed here")}
}

// Remove takes a message down where the channel can.
func (f faulty) Remove(ctx context.Context, to store.Address, ref string) error {
	if r, ok := f.d.ch.(bot.Remover); ok {
		return r.Remove(ctx, to, ref)
	}
	return &store.Failure{Kind: store.Refused, Cause: errors.New("nothing can be taken down here")}
}

// logWriter sends the log to the test's own.
type logWriter struct{ tb testing.TB }

func (w logWriter) Write(p []byte) (int, error) {
	w.tb.Log(strings.TrimSpace(string(p)))
	return len(p), nil
}
