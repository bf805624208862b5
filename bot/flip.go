package bot

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/scheduler/plan"
	"larderhand/store"
)

func flipCommands() []Command {
	return []Command{
		{Name: "flip", Also: []string{"flipped", "turn", "turned"}, Group: groupDaily, Form: "flip 3", Help: "record that a batch was flipped",
			Example: "flip 1", Batch: true, Fields: []Field{whenField("")}, Run: (*Turn).flip},
		{Name: "later", Also: []string{"snooze"}, Group: groupDaily, Form: "later 2h [3]", Help: "put a ping off",
			Example: "later 2h", Fields: []Field{{Name: "How long", Example: "2h", Optional: true}, batchField()}, Run: (*Turn).later},
	}
}

func inCure(s course.State) bool { return s.Stage() == course.Curing }

// inBag says whether a batch's cure check is still to come, until which it is turned.
func inBag(s course.State) bool {
	next, _, ok := s.Next()
	return ok && next.Step == course.Firm
}

// flip records a flip. Anyone may; a second one on the same local day changes
// nothing and does no harm.
func (t *Turn) flip(args string) (reply.Reply, error) {
	var r reply.Reply
	if word, rest := firstWord(args); strings.EqualFold(word, "all") {
		if rest != "" {
			return r, &Error{Kind: BadInput, Why: fmt.Sprintf("I can't do “all” with “%s” behind it; nothing was recorded.", clip(rest, 40)), Understood: "flip all", Example: t.flipThese(rest)}
		}
		return t.flipAll()
	}
	if several.MatchString(args) {
		return t.flipSeveral(numbers.FindAllString(args, -1))
	}
	p, err := t.which("flip", args, inCure)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := ended(s); err != nil {
		return r, err
	}
	if !inBag(s) {
		return r, &Error{Kind: NotNow, Why: fmt.Sprintf("%s is past its cure (%s); it needs no more flips.", name(s), t.standing(s)), Example: fmt.Sprintf("batch %d", s.Number)}
	}
	if err := t.permit(flip, s); err != nil {
		return r, err
	}
	if list, err := t.piecesOf("flip", p); err == nil && len(list.Of) > 0 {
		p.Letter, p.Rest = list.Of[0], list.Rest
	}
	at, err := t.when(s, p.Rest)
	if err != nil {
		return r, err
	}
	r, err = t.flipAt(s, at)
	if err == nil && p.Letter != "" && len(s.Pieces) > 1 {
		r.Say("A flip is noted for the whole batch (", letters(s), "): turn the others too if you have not.")
	}
	if err == nil && r.Replace {
		err = t.stillToFlip(&r)
	}
	return r, err
}

// flipThese is a line that flips the batches in their cure but for those a text names.
func (t *Turn) flipThese(but string) string {
	open, err := t.openBatches()
	if err != nil {
		return "batches"
	}
	not, line := numbers.FindAllString(but, -1), "flip"
	for _, s := range open {
		if n := fmt.Sprint(s.Number); inCure(s) && !slices.Contains(not, n) {
			line += " " + n
		}
	}
	if line == "flip" {
		return "batches"
	}
	return line
}

// stillToFlip keeps the buttons of the other batches a ping spoke of: the answer to
// a press takes the place of the ping.
func (t *Turn) stillToFlip(r *reply.Reply) error {
	open, err := t.openBatches()
	if err != nil {
		return err
	}
	var names []string
	var row []reply.Button
	for _, s := range open {
		if !inBag(s) || plan.DateOf(s.LastTurned(), t.Loc) == plan.DateOf(t.Now, t.Loc) || t.permit(flip, s) != nil {
			continue
		}
		names = append(names, name(s))
		row = append(row, reply.Button{Label: fmt.Sprintf("Flipped %d", s.Number), Line: fmt.Sprintf("flip %d", s.Number)})
	}
	if len(row) > 0 {
		r.Say("Still to flip today: ", strings.Join(names, ", "), ".")
		r.Press(row...)
	}
	return nil
}

func (t *Turn) flipAt(s course.State, at time.Time) (reply.Reply, error) {
	var r reply.Reply
	for _, f := range s.Flips {
		if plan.DateOf(f, t.Loc) == plan.DateOf(at, t.Loc) {
			r.Say(name(s), " already has its flip for that day, at ", reply.When(f, f.In(t.Loc).Format("15:04")), ". Twice does no harm; nothing to add.")
			r.Private = t.Msg.Press != nil
			return r, nil
		}
	}
	if old, stale := t.stale(s); stale {
		return old, nil
	}
	s, err := t.record(s.Batch, "", course.Flip, at, course.Body{})
	if err != nil {
		return r, err
	}
	r.Replace = t.Msg.Press != nil
	r.Say(reply.B(name(s)), " flipped, ", day(s, at, t.Loc), ".")
	return r, t.sayNextPing(&r, s)
}

// several matches a list of batch numbers and nothing else: "2 3", "4, 5 and 7".
var (
	several = regexp.MustCompile(`(?i)^\s*#?\d{1,5}(?:\s*(?:,|\s|and|&|\+)\s*#?\d{1,5})+\s*$`)
	numbers = regexp.MustCompile(`\d+`)
)

// flipSeveral records a flip of each batch named, or of none if one cannot be.
func (t *Turn) flipSeveral(list []string) (reply.Reply, error) {
	var r reply.Reply
	for _, n := range list {
		one, err := t.flip(n)
		if err != nil {
			return reply.Reply{}, err
		}
		r.Append(one)
	}
	return r, nil
}

func (t *Turn) flipAll() (reply.Reply, error) {
	var r reply.Reply
	open, err := t.openBatches()
	if err != nil {
		return r, err
	}
	for _, s := range open {
		if !inBag(s) || t.permit(flip, s) != nil {
			continue
		}
		one, err := t.flipAt(s, t.Now)
		if err != nil {
			return r, err
		}
		r.Append(one)
	}
	r.Replace = t.Msg.Press != nil
	if r.Empty() {
		return r, &Error{Kind: NoSuch, Why: "No batch is in its cure just now.", Example: "batches"}
	}
	return r, nil
}

// when reads the time a record says it happened at; nothing means now. It may
// not be in the future nor before the batch began.
func (t *Turn) when(s course.State, text string) (time.Time, error) {
	text = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(text), "at "))
	if text == "" {
		return t.Now, nil
	}
	at, err := parse.Past(text, t.Now)
	if err != nil {
		return t.Now, offering(err, fmt.Sprintf("batch %d", s.Number))
	}
	return at, t.happened(s, at)
}

// offering puts a line that works by itself in the place of a problem's own example,
// which is only a part of one.
func offering(err error, line string) error {
	var p *parse.Problem
	if !errors.As(err, &p) {
		return err
	}
	e := fromProblem(p)
	e.Example = line
	return e
}

func (t *Turn) happened(s course.State, at time.Time) error {
	switch {
	case at.After(t.Now.Add(time.Minute)):
		return &Error{Kind: BadInput, Why: fmt.Sprintf("%s has not come yet; a record is of what was done.", at.In(t.Loc).Format("Mon 2 Jan 15:04")), Example: fmt.Sprintf("batch %d", s.Number)}
	case at.Before(s.Opened):
		return &Error{Kind: BadInput, Why: fmt.Sprintf("%s only went into the cure on %s.", name(s), s.Opened.In(t.Loc).Format("Mon 2 Jan 15:04")), Example: fmt.Sprintf("batch %d", s.Number)}
	}
	return nil
}

// later puts off the pings of one batch, or of all that run.
func (t *Turn) later(args string) (reply.Reply, error) {
	var r reply.Reply
	until, only, err := t.putOffUntil(args)
	if err != nil {
		return r, err
	}
	open, err := t.openBatches()
	if err != nil {
		return r, err
	}
	var names []string
	running := false
	for _, s := range open {
		if only != 0 && s.Number != only {
			continue
		}
		if only == 0 && t.mayChange(s) != nil {
			continue // in a group, "later" without a number speaks for one's own
		}
		if err := t.mayChange(s); err != nil {
			return r, err
		}
		moved, err := t.putOff(s, until)
		if err != nil {
			return r, err
		}
		if moved {
			names = append(names, name(s))
		}
		running = true
	}
	if running && len(names) == 0 {
		return r, &Error{Kind: NotNow, Why: "Nothing is waiting to be asked again before then.", Example: "batches"}
	}
	switch {
	case len(names) == 0 && only != 0:
		return r, t.noBatch("later 2h", only)
	case len(names) == 0:
		return r, &Error{Kind: NoSuch, Why: "There is no running batch to put off.", Example: "5 lb juniper 1.5 in"}
	}
	r.Say(strings.Join(names, " and "), ": I'll ask again ", t.dayHour(until), ".")
	r.Replace = t.Msg.Press != nil
	return r, nil
}

// putOff records that a batch's pings are put off; moved is false, and what is
// recorded is struck out, if none would come later for it.
func (t *Turn) putOff(s course.State, until time.Time) (moved bool, err error) {
	entry, err := t.Tx.Append(store.Entry{Batch: s.ID, Kind: course.Later, At: t.Now, Member: t.Me.ID, Body: course.Body{Until: until.Unix()}.JSON()})
	if err != nil {
		return false, err
	}
	if _, err := replan(t.Tx, t.Conv, t.Loc, s.Batch); err != nil {
		return false, err
	}
	chores, err := t.Tx.Chores(s.ID)
	if err != nil {
		return false, err
	}
	for _, c := range chores {
		if c.Slot == course.PutOffSlot(entry.ID) {
			return true, nil
		}
	}
	if err := t.Tx.Strike(entry.ID, t.Me.ID); err != nil {
		return false, err
	}
	_, err = replan(t.Tx, t.Conv, t.Loc, s.Batch)
	return false, err
}

// putOffUntil reads "2h", "2h 3", "3 2h" or "until 18:00".
func (t *Turn) putOffUntil(args string) (until time.Time, batch int, err error) {
	text := strings.TrimSpace(args)
	if ref, rest, ok, err := parse.Batch(text); err == nil && ok && rest != "" {
		if at, err := t.later1(rest); err == nil {
			return at, ref.Number, nil
		}
	}
	if i := strings.LastIndexAny(text, " \t"); i > 0 {
		if ref, rest, ok, err := parse.Batch(text[i:]); err == nil && ok && rest == "" {
			if at, err := t.later1(text[:i]); err == nil {
				return at, ref.Number, nil
			}
		}
	}
	if text == "" {
		text = "2h"
	}
	until, err = t.later1(text)
	return until, 0, err
}

func (t *Turn) later1(text string) (time.Time, error) {
	text = strings.TrimSpace(text)
	if d, err := parse.Duration(text); err == nil {
		if d <= 0 || d > 7*24*time.Hour {
			return t.Now, &Error{Kind: BadInput, Why: "I can put a ping off by up to 7 days; meat in a cure should not wait longer.", Example: "later 2h"}
		}
		return t.Now.Add(d), nil
	}
	at, err := parse.ClockTime(strings.TrimPrefix(text, "until "), t.Now)
	if err != nil {
		return t.Now, &Error{Kind: BadInput, Why: fmt.Sprintf("I can't read “%s” as a time to wait.", clip(text, 40)), Example: "later 2h"}
	}
	if !at.After(t.Now) || at.After(t.Now.AddDate(0, 0, 7)) {
		return t.Now, &Error{Kind: BadInput, Why: "That is not within the next 7 days.", Understood: at.In(t.Loc).Format("Mon 2 Jan 15:04"), Example: "later until 18:00"}
	}
	return at, nil
}
