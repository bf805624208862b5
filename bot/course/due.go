package course

import (
	"fmt"
	"strings"
	"time"

	"larderhand/curemath"
	"larderhand/scheduler/plan"
	"larderhand/store"
)

// The kinds of chore that are not steps.
const (
	AskReading  = "ask reading"
	UseByFridge = "use by fridge"
	UseByFrozen = "use by freezer"
	ComesBack   = "comes back" // from whom it was handed to
	AskTaste    = "ask taste"
)

// Rhythm is when a conversation wants to hear from us.
type Rhythm struct {
	Loc   *time.Location
	Hour  plan.HourMinute
	Quiet plan.Quiet
	Away  time.Time // routine pings wait until then
	Now   time.Time // what is said to have been sent later than that was sent on a wrong clock
}

// Wants says which chores a batch ought to have open, from its state and what has
// been said already. Time passing changes nothing: the same journal and the same
// pings said give the same wants, so working them out again is idle, and a
// chore that came due while nobody was running is still wanted afterwards.
func Wants(s State, r Rhythm, said []store.Chore) []store.Want {
	w := wanting{State: s, r: r}
	for _, c := range said {
		if c.State == store.StateSent || c.State == store.StateGivenUp {
			w.said = append(w.said, c)
		}
	}
	if s.End != "" {
		return nil
	}
	for _, g := range s.waiting() {
		w.step(g)
	}
	w.packed()
	w.putOff()
	w.comesBack()
	return w.out
}

type wanting struct {
	State
	r    Rhythm
	said []store.Chore
	out  []store.Want
}

// group is the pieces that wait for the same step.
type group struct {
	step    Step
	letters string // empty when it is all pieces
	since   time.Time
}

// waiting groups the pieces by the step they wait for, in the order of the steps.
func (s State) waiting() []group {
	var out []group
	for _, step := range order() {
		g := group{step: step}
		n := 0
		for _, p := range s.Pieces {
			if next, ok := p.nextStep(); ok && next == step {
				n++
				g.letters += p.Letter
				if since := p.Since(s.Opened); since.After(g.since) {
					g.since = since
				}
			}
		}
		if n == len(s.Pieces) {
			g.letters = ""
		}
		if n > 0 {
			out = append(out, g)
		}
	}
	return out
}

// How long after a step became the next one the person is first reminded of it.
// Our own choice, common practice, no source: nobody is nagged while at it.
const (
	settle    = time.Hour
	overnight = 8 * time.Hour
)

func (w *wanting) step(g group) {
	switch g.step {
	case Firm:
		w.curing(g)
	case Tacky, Chilled:
		w.daily(string(g.step), g.letters, g.since.Add(overnight), g.since)
		if g.step == Chilled {
			w.warmAfter(g)
		}
	case Smoked:
		w.smoking(g)
	case Cooled:
		w.chilling(g)
	case Fried:
		if !w.soaking(g) {
			w.daily(string(g.step), g.letters, g.since.Add(settle), g.since)
		}
	default:
		w.daily(string(g.step), g.letters, g.since.Add(settle), g.since)
		if g.step == Sliced || g.step == Packed {
			w.warmAfter(g)
		}
	}
}

// soaking asks for the next slice when a soak is over.
func (w *wanting) soaking(g group) bool {
	var over time.Time
	for _, letter := range w.lettersOf(g) {
		if p, ok := w.Find(letter); ok && p.Soaking.After(over) {
			over = p.Soaking
		}
	}
	slot := fmt.Sprintf("soak/%d", over.Unix())
	if over.IsZero() || w.saidSlot(string(Fried), slot) {
		return false
	}
	w.plant(string(Fried), g.letters, slot, over, store.Soon)
	return true
}

func (w *wanting) saidSlot(kind, slot string) bool {
	for _, c := range w.said {
		if c.Kind == kind && c.Slot == slot {
			return true
		}
	}
	return false
}

// LastTurned is when the pieces were last turned: at the last flip, or when they
// went into the cure.
func (s State) LastTurned() time.Time {
	if n := len(s.Flips); n > 0 {
		return s.Flips[n-1]
	}
	return s.Opened
}

// LastTold is when anything was last heard of the cure.
func (s State) LastTold() time.Time {
	last := s.Opened
	for _, l := range s.Log {
		if (progress(l.Kind) || l.Kind == Pings) && l.Recorded.After(last) {
			last = l.Recorded
		}
	}
	return last
}

// Keeping times of the US cold storage chart (FoodSafety.gov): bacon 7 days at
// 40 °F, 1 month at 0 °F for quality, counted as 30 days; fresh pork 3 to 5 days at
// 40 °F (from memory), of which the fewer.
const (
	FridgeDays      = 7
	FreshFridgeDays = 3
	FreezerDays     = 30
)

// How many days ahead of a use-by date a reminder comes: our own choice.
const (
	FridgeAhead  = 2
	FreezerAhead = 3
)

// UseBy gives the use-by dates of a piece packed at an instant. One that does not
// count as cured keeps in the fridge no longer than fresh pork.
func UseBy(ingoing curemath.PPM, packed time.Time, loc *time.Location) (fridge, freezer plan.Date) {
	day, days := plan.DateOf(packed, loc), FridgeDays
	if !curemath.Cured(ingoing) {
		days = FreshFridgeDays
	}
	return day.AddDays(days), day.AddDays(FreezerDays)
}

func (w *wanting) packed() {
	seen := map[string]bool{}
	for _, p := range w.Pieces {
		m, ok := p.Marks[Packed]
		if !ok || m.Skipped {
			continue
		}
		fridge, freezer := UseBy(p.Ingoing, m.At, w.r.Loc)
		w.useBy(seen, UseByFrozen, freezer.AddDays(-FreezerAhead))
		if !m.Body.Frozen {
			w.useBy(seen, UseByFridge, fridge.AddDays(-FridgeAhead))
		}
		if !w.tasted() {
			w.useBy(seen, AskTaste, plan.DateOf(m.At, w.r.Loc).AddDays(TasteAfter))
		}
	}
}

// TasteAfter is how many days after packing the tasters are asked: the smoke has
// settled by then (common practice, no source), and what lies in the fridge is good
// for some days yet.
const TasteAfter = 2

func (w *wanting) tasted() bool {
	for _, l := range w.Log {
		if l.Kind == Taste {
			return true
		}
	}
	return false
}

func (w *wanting) useBy(seen map[string]bool, kind string, day plan.Date) {
	if at, ok := plan.Instant(day, w.r.Hour, w.r.Loc); ok && !seen[kind+day.String()] {
		seen[kind+day.String()] = true
		w.plant(kind, "", day.String(), at, store.Routine)
	}
}

// plant adds a want; routine and soon ones keep out of the quiet hours and of the
// time the person is away, and are left out while nobody wants to hear them.
func (w *wanting) plant(kind, letters, slot string, at time.Time, urgency int) {
	if urgency < store.Urgent {
		if w.Muted && kind != ComesBack {
			return
		}
		at = w.reach(at)
	}
	w.out = append(w.out, store.Want{Piece: letters, Kind: kind, Slot: slot, Due: at, Urgency: urgency})
}

// putOff moves what is wanted before the instant the person named, or has been
// said and not answered, to that instant, once: progress made meanwhile, or the
// ping itself, ends it.
func (w *wanting) putOff() {
	if w.PutOff == 0 {
		return
	}
	var asked time.Time
	for _, l := range w.Log {
		if l.ID == w.PutOff {
			asked = l.Recorded
		}
		if l.ID > w.PutOff && progress(l.Kind) {
			return
		}
	}
	mark := PutOffSlot(w.PutOff)
	for _, c := range w.said {
		if strings.HasPrefix(c.Slot, mark) {
			return
		}
	}
	for i := range w.out {
		switch w.out[i].Kind { // what has its own time, or cannot wait
		case AskTaste, UseByFridge, UseByFrozen, string(Cooled):
			continue
		}
		if w.out[i].Urgency >= store.Urgent {
			continue
		}
		if !w.hanging(w.out[i].Kind, asked) && !w.out[i].Due.Before(w.Until) {
			continue
		}
		w.out[i].Due, w.out[i].Slot = w.Until, mark
	}
}

// PutOffSlot is the slot of a ping moved by an entry that put it off.
func PutOffSlot(entry int64) string { return fmt.Sprintf("later/%d", entry) }

// hanging says whether a ping of a kind had been said and not answered when the
// person asked to be asked later.
func (w *wanting) hanging(kind string, asked time.Time) bool {
	told := w.LastTold()
	for _, c := range w.said {
		if c.Kind == kind && c.Sent.After(told) && !c.Sent.After(asked) {
			return true
		}
	}
	return false
}

// comesBack tells both when a batch that was handed over is its keeper's again.
func (w *wanting) comesBack() {
	if w.Helper.Accepted {
		w.plant(ComesBack, "", fmt.Sprintf("%d", w.Helper.Until.Unix()), w.Helper.Until, store.Routine)
	}
}
