package bot

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

// Rehearsal is a set of books for a batch that is only shown. It is empty at
// first, nothing of it is kept, and it says what falls due in it.
type Rehearsal interface {
	Ledger
	Upcoming(ctx context.Context) (map[string]time.Time, error)
	Claim(ctx context.Context, now time.Time, lane, lease string, until time.Time, limit int) ([]store.Chore, error)
	Close() error
}

// page is one page of the tour: what it is about, what is said before it without
// being shown, and what is said on it.
type page struct {
	title  string
	about  string
	before []string
	said   []string
}

// pages are the tour. Everything in them is said to a bot of its own, on a clock of
// its own, so that it answers as it would.
func pages(metric bool) []page {
	weight, thick, slice, packed, first, last, cooler, cold := "5 lb", "1.5 in", "3/16 in", "4 lb 5 oz", "pit 148 core 96", "core 151", "core 78", "core 41"
	if metric {
		weight, thick, slice, packed, first, last, cooler, cold = "2.3 kg", "38 mm", "4 mm", "1.95 kg", "pit 64 core 36", "core 66", "core 26", "core 5"
	}
	days := strings.Split(strings.Repeat("wait 1d|flip|", 6), "|")
	return []page{
		{"Work out a cure", "Ines, who is made up, has a belly from the butcher. She types what it weighs.", nil, []string{weight + " juniper " + thick}},
		{"Open a batch", "She presses Open a batch. Before anyone's first one I show what can hurt, and ask about the scale.", []string{"open"}, []string{"yes"}},
		{"Flip it every day", "Next morning I ping her.", nil, []string{"wait 1d", "flip"}},
		{"The cure check", "Seven more mornings, and it is due to be through.", append(days[:12:12], "wait 22h"), []string{"wait 2h", "firm"}},
		{"Rinse, fry, dry", "A test slice says whether it is too salty. Then the surface dries overnight.", []string{"rinse"}, []string{"fry", "dry"}},
		{"Smoke day", "I ask for readings and watch them with her.", []string{"wait 24h", "tacky", "season"}, []string{"smoke", "wait 2h", first}},
		{"Out of the smoke", "The core is where she wants it; now it has to get cold fast enough.", []string{"wait 22h"}, []string{"smoked " + last}},
		{"Packed", "Cold, chilled overnight, sliced and packed, with a label for the packet.", []string{"wait 4h", cooler, "wait 5h", cold, "cooled", "wait 14h", "chilled", "slice " + slice}, []string{"pack " + packed + " frozen"}},
	}
}

// tour plays a page of a made-up batch, or all of them.
func (t *Turn) tour(args string) (reply.Reply, error) {
	all := pages(t.units() == metric)
	word, _ := firstWord(args)
	n, err := strconv.Atoi(word)
	switch {
	case strings.EqualFold(word, "all"):
		return t.play(all, 0, len(all))
	case word == "":
		n = 1
	case err != nil || n < 1 || n > len(all):
		return reply.Reply{}, &Error{Kind: BadInput, Why: fmt.Sprintf("The tour has pages 1 to %d.", len(all)), Example: "tour"}
	}
	r, err := t.play(all, n-1, n)
	if err != nil {
		return r, err
	}
	r.Replace = t.Msg.Press != nil
	if n < len(all) {
		r.Press(reply.Button{Label: "Next: " + all[n].title, Line: fmt.Sprintf("tour %d", n+1)}, reply.Button{Label: "Enough", Line: "welcome"})
		return r, nil
	}
	r.Par("That was all of it, in ten days of hers and two minutes of yours. Now yours: what does your belly weigh?")
	r.Press(t.firstWeights()...)
	r.Press(reply.Button{Label: "Another weight", Line: "cure", Ask: true}, reply.Button{Label: "Help", Line: "help"})
	return r, nil
}

// play says everything up to a page in empty books, and shows what was said from
// one page on.
func (t *Turn) play(all []page, from, to int) (reply.Reply, error) {
	var r reply.Reply
	if t.bot.Rehearse == nil {
		return r, &Error{Kind: NotNow, Why: "The tour is not to be had here.", Example: "help"}
	}
	books, err := t.bot.Rehearse(t.ctx)
	if err != nil {
		return r, fmt.Errorf("open the books of the tour: %w", err)
	}
	defer func() { _ = books.Close() }()
	s := newStage(t, books)
	for i, p := range all[:to] {
		var show *reply.Reply
		if i >= from {
			show = &r
			r.Par(reply.B(fmt.Sprintf("Tour, %d of %d: %s.", i+1, len(all), p.title)), " ", p.about, " Nothing here is real.")
		}
		if err := s.all(p.before, nil); err != nil {
			return r, err
		}
		if err := s.all(p.said, show); err != nil {
			return r, err
		}
	}
	return r, nil
}

// stage is where the tour is played.
type stage struct {
	ctx    context.Context
	bot    *Bot
	books  Rehearsal
	clock  *stageClock
	leases int
	heard  []reply.Reply // pings since they were last looked at
	at     []time.Time
}

type stageClock struct{ at time.Time }

func (c *stageClock) Now() time.Time { return c.at }

const stageAddress store.Address = "tour:"

func newStage(t *Turn, books Rehearsal) *stage {
	c := &stageClock{at: time.Date(t.Now.Year(), t.Now.Month(), t.Now.Day(), 9, 0, 0, 0, t.Loc)}
	cfg := t.bot.Config
	cfg.Ledger, cfg.Clock, cfg.Zone, cfg.Rehearse = books, c, t.Loc, nil
	return &stage{ctx: t.ctx, bot: New(cfg), books: books, clock: c}
}

func (s *stage) all(lines []string, show *reply.Reply) error {
	for _, line := range lines {
		if line == "" {
			continue
		}
		if how, ok := strings.CutPrefix(line, "wait "); ok {
			if err := s.wait(how, show); err != nil {
				return err
			}
			continue
		}
		answer := s.bot.Handle(s.ctx, Message{Conversation: stageAddress, Direct: true, Sender: Person{Key: "ines", Name: "Ines"}, Text: line, At: s.clock.at})
		if show != nil {
			show.Par(reply.B("Ines: "), reply.Type(line))
			shown(show, answer)
		}
	}
	return nil
}

// wait moves the clock on and has what falls due said at its time.
func (s *stage) wait(how string, show *reply.Reply) error {
	d, err := parse.Duration(how)
	if err != nil {
		return err
	}
	end := s.clock.at.Add(d)
	for {
		due, err := s.books.Upcoming(s.ctx)
		if err != nil {
			return err
		}
		at, ok := due[stageAddress.Lane()]
		if !ok || at.After(end) {
			break
		}
		if at.After(s.clock.at) {
			s.clock.at = at
		}
		if err := s.say(); err != nil {
			return err
		}
	}
	s.clock.at = end
	for i, r := range s.heard {
		if show != nil {
			show.Par(reply.B(s.at[i].Format("Mon 15:04") + ", I ping her:"))
			shown(show, r)
		}
	}
	s.heard, s.at = nil, nil
	return nil
}

func (s *stage) say() error {
	s.leases++
	now := s.clock.at
	chores, err := s.books.Claim(s.ctx, now, stageAddress.Lane(), fmt.Sprint("tour-", s.leases), now.Add(time.Minute), 20)
	if err != nil || len(chores) == 0 {
		return err
	}
	d := Deliverer{Bot: s.bot, Sender: s}
	done, err := d.Deliver(s.ctx, now, chores)
	if err != nil {
		return err
	}
	return d.Settle(s.ctx, now, done)
}

// Send keeps a ping for the page.
func (s *stage) Send(_ context.Context, _ store.Address, _ string, r reply.Reply) (string, error) {
	s.heard, s.at = append(s.heard, r), append(s.at, s.clock.at.In(s.bot.Zone))
	return "", nil
}

// shown adds a reply below another with its buttons as words, since pressed here
// they would do something real.
func shown(to *reply.Reply, r reply.Reply) {
	to.Blocks = append(to.Blocks, r.Blocks...)
	var labels []string
	for _, row := range r.Buttons {
		for _, b := range row {
			labels = append(labels, "["+b.Label+"]")
		}
	}
	if len(labels) > 0 {
		to.Par(strings.Join(labels, " "))
	}
}
