package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler/plan"
	"larderhand/store"
)

// maxPieces is how many pieces a batch may have: one letter each.
const maxPieces = 26

func openCommands() []Command {
	return []Command{
		{Name: "open", Also: []string{"start"}, Group: groupCure, Form: "open / open 6 lb juniper, 3.2 kg coffee chilli", Help: "open a batch: from the cure just worked out, or from weights", Example: "open 6 lb juniper 1.5 in, 3.2 kg coffee and chilli 4 cm",
			Run: (*Turn).open, Fields: []Field{{Name: "Pieces", Example: "6 lb juniper 1.5 in, 3.2 kg coffee and chilli 4 cm", Long: true, Optional: true}, {Name: "Since when", Prefix: "from", Example: "yesterday 18:00", Optional: true}}},
		{Name: "no", Also: []string{"nope"}, Group: groupCure, Form: "no", Help: "say no to what I asked", Example: "no", Run: (*Turn).no},
		{Name: "yes", Also: []string{"confirm"}, Group: groupCure, Form: "yes", Help: "say that you weigh curing mix on a 0.1 g scale", Example: "yes", Run: (*Turn).yes},
		{Name: "thick", Also: []string{"thickness"}, Group: groupCure, Form: "thick 3a 1.5 in", Help: "say how thick a piece is", Example: "thick 1 1.5 in", Batch: true, Fields: []Field{{Name: "Thickness", Example: "1.5 in"}}, Run: (*Turn).thick},
	}
}

// open opens a batch from the line, or from the cure worked out last.
func (t *Turn) open(args string) (reply.Reply, error) {
	d, err := t.toOpen(args)
	if err != nil {
		return reply.Reply{}, err
	}
	return t.openDraft(d)
}

// openDraft opens what a draft says, unless there is something to ask before.
func (t *Turn) openDraft(d draft) (reply.Reply, error) {
	if d.Asked != "" {
		s, err := t.solveWet(d.Asked)
		if err != nil {
			return reply.Reply{}, err
		}
		if w, ok := t.weakWet(s, d.Asked); ok {
			return t.askHigher(d, w)
		}
		if t.Me.Confirmed.IsZero() {
			c, err := t.solveWet(d.Asked)
			if err != nil {
				return reply.Reply{}, err
			}
			return t.askScale(d, needs(c.portion))
		}
		return t.openedWet(d)
	}
	c, err := t.solve(d.Line)
	if err != nil {
		return reply.Reply{}, err
	}
	if len(c.cures) > maxPieces {
		return reply.Reply{}, &Error{Kind: BadInput, Why: fmt.Sprintf("A batch holds up to %d pieces.", maxPieces), Example: "open 6 lb juniper 1.5 in"}
	}
	if _, err := t.since(d.Line); err != nil {
		return reply.Reply{}, err
	}
	if w, ok := t.weakCure(c); ok {
		return t.askHigher(d, w)
	}
	if t.Me.Confirmed.IsZero() {
		return t.askScale(d, c.needs())
	}
	return t.opened(c, d.Recipe)
}

// toOpen is what a line asks to open: what it says itself, or the cure worked out
// last with what it says over it.
func (t *Turn) toOpen(args string) (draft, error) {
	if err := t.mayOpen(); err != nil {
		return draft{}, err
	}
	d, ok, err := t.draft()
	if err != nil {
		return d, err
	}
	none := &Error{Kind: NotNow, Why: "There is no cure worked out yet; start with a weight.", Example: "open 6 lb juniper 1.5 in"}
	if strings.TrimSpace(args) == "" {
		if !ok || len(d.Line.Pieces) == 0 {
			return d, none
		}
		return draft{Line: d.Line, Asked: d.Asked, Recipe: d.Recipe}, nil
	}
	line, err := parse.Cure(args, t.Now)
	if err != nil {
		return d, err
	}
	if line.Bare != nil {
		return d, &Error{Kind: BadInput, Why: fmt.Sprintf("%s what? Pounds and kilograms are more than twofold apart, so I don't guess.", trim(*line.Bare, 4)),
			Example: fmt.Sprintf("open %s lb", trim(*line.Bare, 4))}
	}
	if len(line.Pieces) > 0 {
		return draft{Line: line}, nil
	}
	if !ok || len(d.Line.Pieces) == 0 { // "open from yesterday 18:00" speaks of the draft
		return d, none
	}
	merge(&d.Line, line)
	if d.Asked != "" {
		d.Asked = amended(d.Asked, line)
	}
	return draft{Line: d.Line, Asked: d.Asked, Recipe: d.Recipe}, nil
}

// since is when the cure began: now, or the time said if it can be.
func (t *Turn) since(line parse.CureLine) (time.Time, error) {
	if line.From == nil {
		return t.Now, nil
	}
	from := *line.From
	if from.After(t.Now.Add(time.Minute)) {
		return from, &Error{Kind: BadInput, Why: fmt.Sprintf("%s has not come yet. Open the batch when the meat goes into its cure.", from.In(t.Loc).Format("Mon 2 Jan 15:04")), Example: "open from yesterday 18:00"}
	}
	if from.Before(t.Now.AddDate(0, 0, -30)) {
		return from, &Error{Kind: BadInput, Why: fmt.Sprintf("%s is more than 30 days ago; a belly in cure that long is past its days.", from.In(t.Loc).Format("Mon 2 Jan 2006")), Example: "open from yesterday 18:00"}
	}
	return from, nil
}

// askScale shows the cautions before the first batch someone opens, and waits
// for their word that they weigh the mix.
func (t *Turn) askScale(d draft, need map[string]curemath.Grams) (reply.Reply, error) {
	var r reply.Reply
	d.Opening = true
	if err := t.saveDraft(d); err != nil {
		return r, err
	}
	r.Say(reply.B("Before your first batch, once:"))
	for _, topic := range []string{"nitrite", "cold", "heat"} {
		r.Append(mustCaution(topic))
	}
	share := t.Conv.Settings.Mix
	if d.Line.Mix != nil {
		share = *d.Line.Mix
	}
	r.Par("Do you weigh curing mix on a scale that shows 0.1 g, and does your packet say ", percent(share), " sodium nitrite? Type ", reply.Type("yes"), " and I open the batch. Another percent: ", reply.Type("mix 0.6%"), " first.")
	t.sayShort(&r, need)
	r.Press(reply.Button{Label: "Yes, I weigh it", Line: "yes"}, reply.Button{Label: "No", Line: "no"})
	return r, nil
}

// no drops readings asked about, or answers the question about the scale.
func (t *Turn) no(string) (reply.Reply, error) {
	var r reply.Reply
	sl, err := t.slate()
	if err != nil {
		return r, err
	}
	d := sl.draft
	switch {
	case len(sl.Waiting) > 0 && (d.Higher > 0 || d.Opening):
		return r, twoAsked(d, "drop")
	case len(sl.Waiting) > 0:
		return t.dropReadings("")
	case d.Opening:
		d.Opening = false
		if err := t.saveDraft(d); err != nil {
			return r, err
		}
		r.Say("Then I open nothing. A spoon of mix can be a third more or less than another, which is the difference between a cure and a poison. A pocket scale that shows 0.1 g is cheap; read the percent of sodium nitrite off the packet.")
		r.Say("Ready later? ", reply.Type("open"))
		return r, nil
	case d.Higher > 0:
		d.Higher = 0
		if err := t.saveDraft(d); err != nil {
			return r, err
		}
		r.Say("Then I open nothing. With so little nitrite it is fresh pork. ", asFreshPork, ".")
		return r, nil
	}
	return r, &Error{Kind: NotNow, Why: "There is nothing I asked you.", Example: "batches"}
}

// yes answers the question about the scale, or keeps readings asked about.
func (t *Turn) yes(string) (reply.Reply, error) {
	var r reply.Reply
	sl, err := t.slate()
	if err != nil {
		return r, err
	}
	d := sl.draft
	switch {
	case len(sl.Waiting) > 0 && (d.Higher > 0 || d.Opening):
		return r, twoAsked(d, "keep")
	case d.Higher > 0:
		return t.openDraft(d.raised())
	}
	if len(sl.Waiting) > 0 {
		return t.keepReadings("")
	}
	if t.Me.Confirmed.IsZero() {
		if !d.Opening {
			return r, &Error{Kind: NotNow, Why: "There is nothing I asked you to confirm; open a batch first.", Example: "open 5 lb juniper 1.5 in"}
		}
		if err := t.Tx.Confirm(t.Me.ID); err != nil {
			return r, err
		}
		t.Me.Confirmed = t.Now
	}
	if !d.Opening {
		r.Say("You have said so already; thank you.")
		return r, nil
	}
	return t.openDraft(d)
}

// opened writes the batch down with its first entry and its chores.
func (t *Turn) opened(c cured, recipe string) (reply.Reply, error) {
	var r reply.Reply
	from, err := t.since(c.line)
	if err != nil {
		return r, err
	}
	least, most := c.span()
	aims := c.cures[0].Targets
	b := store.Batch{Opened: from,
		Plan: store.Plan{Method: curemath.DryRub.String(), Nitrite: aims.Nitrite, Salt: aims.Salt, Sugar: aims.Sugar, Mix: aims.Mix.Nitrite, Ascorbate: aims.Ascorbate,
			Rules: c.rules.ID, Days: least, DaysMax: most, Wanted: wanted(c), Recipe: recipe}}
	for i, cure := range c.cures {
		p := c.line.Pieces[i]
		b.Pieces = append(b.Pieces, store.Piece{Letter: letter(i), Weight: p.Weight, Thickness: p.Thickness, RindOn: cure.Targets.RindOn,
			Flavouring: p.Flavouring, MixWeight: cure.Weigh.Mix, SaltWeight: cure.Weigh.Salt, Sugar: cure.Weigh.Sugar,
			Ingoing: cure.Ingoing, Days: c.days[i].Min})
	}
	s, err := t.begin(b)
	if err != nil {
		return r, err
	}
	return r, t.sayOpened(&r, s, c)
}

// begin keeps a new batch as the sender's, with its first entry and its chores,
// and drops the draft it came from. Who may open is asked here too: it may have
// been changed while the question about the scale stood.
func (t *Turn) begin(b store.Batch) (course.State, error) {
	if err := t.mayOpen(); err != nil {
		return course.State{}, err
	}
	b.Conversation, b.Keeper, b.Stage = t.Conv.ID, t.Me.ID, string(course.Curing)
	b, err := t.Tx.CreateBatch(b)
	if err != nil {
		return course.State{}, err
	}
	s, err := t.record(b, "", course.Opened, b.Opened, course.Body{})
	if err != nil {
		return s, err
	}
	return s, t.saveDraft(draft{})
}

func (t *Turn) sayOpened(r *reply.Reply, s course.State, c cured) error {
	r.Say(reply.B(name(s)), " is open, in the cure since ", t.dayHour(s.Opened), ".")
	rows := [][]string{{"", "meat", c.cures[0].Targets.Mix.Name, "salt", "sugar"}}
	for i, cure := range c.cures {
		rows = append(rows, []string{letter(i) + " " + orElse(s.Pieces[i].Flavouring, "plain") + rindText(cure.Targets.RindOn), t.units().meat(cure.Targets.Green),
			mixGrams(cure), saltGrams(cure.Weigh.Salt, cure), saltGrams(cure.Weigh.Sugar, cure)})
	}
	r.Table(rows)
	r.Par("Rub it in all over, bag it flat with the air pressed out but room to move, and keep it at 34 to 38 °F (1 to 3 °C). Write ", reply.B(fmt.Sprintf("batch %d", s.Number)), " on the bag.")
	switch of := c.unmeasured(); {
	case of != "":
		r.Say("I don't know how thick ", of, " is and count it as 2 in (51 mm). Tell me: ", reply.Type(fmt.Sprintf("thick %d%s %s", s.Number, of[len(of)-1:], t.exampleThickness())))
	case !c.thick:
		r.Say("I don't know how thick it is and count ", count(s.Days(), "day"), " as for 2 in (51 mm). Tell me: ", reply.Type(fmt.Sprintf("thick %d %s", s.Number, t.exampleThickness())))
	}
	if lastTurn := plan.DateOf(s.Opened, t.Loc); lastTurn.Before(plan.DateOf(t.Now, t.Loc)) {
		r.Say("If you have turned it since, say ", reply.Type(fmt.Sprintf("flip %d", s.Number)), ".")
	}
	if c.remark != "" {
		r.Say(c.remark)
	}
	r.Say("Cure check: ", t.checkDates(s), ".")
	t.sayLow(r, takes(s.Batch))
	return t.sayNextPing(r, s)
}

// wanted is how many days the person asked for, where the rule asks for no more of
// some piece.
func wanted(c cured) int {
	if c.line.Days == nil || !slices.ContainsFunc(c.days, func(d curemath.Days) bool { return d.Min <= *c.line.Days }) {
		return 0
	}
	return *c.line.Days
}

// thick takes up how thick a piece is and counts its days anew.
func (t *Turn) thick(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("thick", args, inCure)
	if err != nil {
		return r, err
	}
	s := p.State
	if old, done, err := t.changing(s); done || err != nil {
		return old, err
	}
	mm, err := parse.Thickness(p.Rest)
	if err != nil {
		return r, &Error{Kind: BadInput, Why: fmt.Sprintf("I can't read “%s” as a thickness.", clip(p.Rest, 40)), Example: fmt.Sprintf("thick %d %s", s.Number, t.exampleThickness())}
	}
	for _, piece := range s.Pieces {
		if p.Letter != "" && p.Letter != piece.Letter {
			continue
		}
		if _, err := curemath.DayRule(mm, piece.RindOn); err != nil {
			return r, err
		}
	}
	if s, err = t.record(s.Batch, p.Letter, course.Thick, t.Now, course.Body{Thick: mm}); err != nil {
		return r, err
	}
	r.Say(reply.B(t.pieceOrBatch(s, p.Letter)), ": ", t.units().thickness(mm), "; ", dayOf(s, p.Letter, t.Now, t.Loc), ", cure check ", dateText(s.CheckDateOf(p.Letter, t.Loc)), ".")
	return r, t.sayNextPing(&r, s)
}
