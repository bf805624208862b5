package course

import (
	"time"

	"larderhand/scheduler/plan"
	"larderhand/store"
)

// used is what has been said of one kind: the latest date it stood for, the latest
// date it went out on, and how often it went out since anything was last heard.
type used struct {
	slot, on plan.Date
	n        int
}

// used looks at the pings of a kind; n counts those since an instant.
func (w *wanting) used(kind string, since time.Time) used { return w.usedOf(kind, "", since) }

// usedOf looks at those that spoke of a piece.
func (w *wanting) usedOf(kind, letter string, since time.Time) used {
	var u used
	for _, c := range w.said {
		if c.Kind != kind || !speaksOf(c.Piece, letter) {
			continue
		}
		if d, err := plan.ParseDate(c.Slot); err == nil {
			u.slot = later(u.slot, d)
		}
		if w.r.Now.IsZero() || !c.Sent.After(w.r.Now) {
			u.on = later(u.on, plan.DateOf(c.Sent, w.r.Loc))
		}
		if !c.Sent.Before(since) {
			u.n++
		}
	}
	return u
}

// mostDays bounds the search for the next day: longer than anyone is away.
const mostDays = 100

// nextDay is the date and instant of the next of something said once a day, after
// an instant. It never stands for a date that has had its ping, never goes out on
// a date on which one went out already (a late one serves for the day it came on),
// nor on or before the date not. Unanswered ones come less often.
func (w *wanting) nextDay(after time.Time, u used, not plan.Date) (plan.Date, time.Time) {
	last := u.slot
	if !not.IsZero() { // the quiet hours can put a ping into the next day
		last = later(last, not.AddDays(-2))
	}
	day, at := plan.NextDaily(after, w.r.Hour, w.r.Loc, last)
	for range mostDays {
		usual, out := plan.DateOf(w.r.Quiet.PushOut(at, w.r.Loc), w.r.Loc), plan.DateOf(w.reach(at), w.r.Loc)
		if (not.IsZero() || usual.After(not)) && (u.on.IsZero() || out.DaysSince(u.on) >= plan.Reping(u.n)) {
			break
		}
		day, at = plan.NextDaily(at, w.r.Hour, w.r.Loc, day)
	}
	return day, at
}

// reach is when something meant for an instant can be said to the person: not
// while they are away, unless a helper has the batch, and not in the quiet hours.
func (w *wanting) reach(at time.Time) time.Time {
	if w.r.Away.After(at) && !w.Helper.At(at) {
		at = w.r.Away
	}
	return w.r.Quiet.PushOut(at, w.r.Loc)
}

// curing plants the next flip, or the cure check once that comes first: of each piece on
// its own day, and while another still has days to go that one is flipped. A flip is
// wanted on the day after the last turn, and not before the batch was told of.
func (w *wanting) curing(g group) {
	after := w.Opened
	if len(w.Log) > 0 {
		after = w.Log[0].Recorded
	}
	day, at := w.nextDay(after, w.used(Flip, w.LastTold()), plan.DateOf(w.LastTurned(), w.r.Loc))
	if w.rub(day) {
		return
	}
	flipped, due := false, false
	for _, letter := range w.lettersOf(g) {
		if day.Before(w.CheckDateOf(letter, w.r.Loc)) {
			flipped = true
		} else {
			due = true
		}
	}
	if flipped {
		w.plant(Flip, "", day.String(), at, store.Routine)
	}
	if due {
		w.check(g)
	}
}

// check plants the cure check of the pieces whose days are over when the first of them
// is to be asked for: one that was asked for in vain does not put off another.
func (w *wanting) check(g group) {
	var first plan.Date
	var at time.Time
	for _, letter := range w.lettersOf(g) {
		u := w.usedOf(string(Firm), letter, w.LastTold())
		u.slot = later(u.slot, w.CheckDateOf(letter, w.r.Loc).AddDays(-1))
		if day, when := w.nextDay(w.Opened, u, plan.Date{}); first.IsZero() || day.Before(first) {
			first, at = day, when
		}
	}
	letters, all := "", w.lettersOf(g)
	for _, letter := range all {
		if !first.Before(w.CheckDateOf(letter, w.r.Loc)) {
			letters += letter
		}
	}
	if len(letters) == len(all) {
		letters = g.letters
	}
	w.plant(string(Firm), letters, first.String(), at, store.Routine)
}

// rub plants the next go of a box cure once its day has come; a cure with goes
// still to come is not checked.
func (w *wanting) rub(flip plan.Date) bool {
	if w.RubsDone >= len(w.Plan.Rubs) {
		return false
	}
	due := plan.DateOf(w.Opened, w.r.Loc).AddDays(w.Plan.Rubs[w.RubsDone].Day)
	if flip.Before(due) {
		return false
	}
	u := w.used(Rub, w.LastTold())
	u.slot = later(u.slot, due.AddDays(-1))
	day, at := w.nextDay(w.Opened, u, plan.Date{})
	w.plant(Rub, "", day.String(), at, store.Routine)
	return true
}

// daily plants a reminder at the ping hour, first at or after from, then every
// day, and every third day once three have gone unanswered.
func (w *wanting) daily(kind, letters string, from, since time.Time) {
	day, at := w.nextDay(from.Add(-time.Nanosecond), w.used(kind, since), plan.Date{})
	w.plant(kind, letters, day.String(), at, store.Routine)
}

func later(a, b plan.Date) plan.Date {
	if b.After(a) {
		return b
	}
	return a
}
