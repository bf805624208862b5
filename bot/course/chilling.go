package course

import (
	"fmt"
	"time"

	"larderhand/curemath"
	"larderhand/store"
)

// The pings of a cooling window.
const (
	WindowCloses = "window closes" // an hour before its time is up
	WindowOver   = "window over"   // its time is up and nobody said how it went
)

// The pace of a cooling: our own choice, common practice, no source.
const (
	closesBefore = time.Hour
	coreAgain    = 2 * time.Hour // between asks for a core that cools
	warmAsk      = time.Hour     // the same of one that is warm again
)

// OpenWindow is the cooling window a piece is in, or comes to next: when its time
// is up at the earliest the readings allow. It is what the pings count by, and the
// deadlines are those of CoolingOf. ok is false when none is open.
func (s State) OpenWindow(letter string) (index int, window curemath.CoolingWindow, deadline time.Time, ok bool) {
	p, found := s.Find(letter)
	off, smoked := p.Marks[Smoked]
	if !found || !smoked || off.Skipped {
		return 0, window, deadline, false
	}
	last := off.At
	if list := Since(s.Cores(letter), off.At); len(list) > 0 {
		last = list[len(list)-1].At
	}
	rule := curemath.CoolingRuleFor(p.Ingoing)
	c, read := s.CoolingOf(letter, last)
	if !read { // unread: it may have come into the first window the moment it came off the heat
		return 0, rule.Windows[0], off.At.Add(rule.Windows[0].Within), true
	}
	if c.Verdict == curemath.CoolingFailed {
		return 0, window, deadline, false
	}
	for i, w := range c.Windows {
		if w.State != curemath.WindowMet && w.State != curemath.WindowUnshown {
			return i, w.Window, w.Deadline, true
		}
	}
	return 0, window, deadline, false
}

// chilling plants what is to be said while pieces cool: a question for the core
// now and then, and two urgent ones for each window.
func (w *wanting) chilling(g group) {
	var ask, warm, failed []due
	for _, letter := range w.lettersOf(g) {
		p, _ := w.Find(letter)
		off := p.Marks[Smoked]
		c, read := w.CoolingOf(letter, w.lastReading(off.At))
		if read && c.Verdict == curemath.CoolingFailed {
			failed = append(failed, due{letter, off.At, true})
			continue
		}
		if read && c.Verdict == curemath.CoolingWarmAgain {
			warm = append(warm, due{letter, w.lastReading(off.At).Add(warmAsk), true})
			continue
		}
		ask = append(ask, due{letter, w.lastReading(p.Since(w.Opened)).Add(coreAgain), true})
	}
	for _, d := range w.gather(failed) { // that is to be thrown away; nothing is urgent any more
		w.daily(string(Cooled), d.letters, d.at.Add(settle), d.at)
	}
	w.warm(warm, g.since)
	for _, d := range w.gather(ask) {
		// Once every window is over unread, a day's ping is enough.
		if over := w.windowsOver(d.letters); w.next([]string{string(Cooled)}, d.letters, g.since, d.at, coreAgain).After(over) {
			w.daily(string(Cooled), d.letters, latest(d.at, over), latest(g.since, w.Heard()))
			continue
		}
		w.repeat(string(Cooled), d.letters, g.since, d.at, coreAgain, store.Soon)
	}
	for index := range w.mostWindows() {
		var closes, over []due
		for _, letter := range w.lettersOf(g) {
			i, _, deadline, ok := w.OpenWindow(letter)
			if !ok || i != index {
				continue
			}
			if !w.saidWindow(WindowCloses, letter, i) {
				closes = append(closes, due{letter, deadline.Add(-closesBefore), true})
			}
			if !w.saidWindow(WindowOver, letter, i) {
				over = append(over, due{letter, deadline, true})
			}
		}
		w.window(WindowCloses, index, closes)
		w.window(WindowOver, index, over)
	}
}

// warm asks, by night too, for the cores of pieces that are warm again.
func (w *wanting) warm(list []due, since time.Time) {
	for _, d := range w.gather(list) {
		w.repeat(string(Cooled), d.letters, since, d.at, warmAsk, store.Urgent)
	}
}

// warmAfter does so for pieces that were noted as cooled.
func (w *wanting) warmAfter(g group) {
	var list []due
	for _, letter := range w.lettersOf(g) {
		last := w.lastReading(g.since)
		if c, read := w.CoolingOf(letter, last); read && c.Verdict == curemath.CoolingWarmAgain {
			list = append(list, due{letter, last.Add(warmAsk), true})
		}
	}
	w.warm(list, g.since)
}

// windowsOver is when the last window of pieces is over, if nothing more is read.
func (w *wanting) windowsOver(letters string) time.Time {
	var over time.Time
	for _, letter := range w.lettersOf(group{letters: letters}) {
		if p, ok := w.Find(letter); ok {
			over = latest(over, w.lastReading(p.Marks[Smoked].At).Add(CoolingTime(p.Ingoing)))
		}
	}
	return over
}

// CoolingTime is how long the windows of the rule for a cure are together.
func CoolingTime(ingoing curemath.PPM) time.Duration {
	var all time.Duration
	for _, c := range curemath.CoolingRuleFor(ingoing).Windows {
		all += c.Within
	}
	return all
}

func (w *wanting) mostWindows() int {
	most := 0
	for _, r := range curemath.CoolingRules() {
		most = max(most, len(r.Windows))
	}
	return most
}

func (w *wanting) window(kind string, index int, list []due) {
	for _, d := range w.gather(list) {
		first := d.letters
		if first == "" {
			first = w.Pieces[0].Letter
		}
		w.plant(kind, d.letters, w.windowSlot(first[:1], index), d.at, store.Urgent)
	}
}

// windowSlot names one window of one chill: taken out of the smoke anew, or warm
// again, a piece has its windows anew.
func (w *wanting) windowSlot(letter string, index int) string {
	p, _ := w.Find(letter)
	index = w.turn(letter, index)
	return fmt.Sprintf("%d/%d", p.Marks[Smoked].Entry, index)
}

// turn numbers the windows on each time a core is warm again.
func (w *wanting) turn(letter string, index int) int {
	p, _ := w.Find(letter)
	if c, ok := w.CoolingOf(letter, w.lastReading(p.Marks[Smoked].At)); ok && index < len(c.Windows) {
		return index + c.Windows[index].Spells*w.mostWindows()
	}
	return index
}

func (w *wanting) saidWindow(kind, letter string, index int) bool {
	p, _ := w.Find(letter)
	slot := w.windowSlot(letter, index)
	for _, c := range w.said {
		if c.Kind == kind && speaksOf(c.Piece, letter) && (c.Slot == slot || !c.Sent.Before(p.Marks[Smoked].At) && endsIn(c.Slot, w.turn(letter, index))) {
			return true
		}
	}
	return false
}

func endsIn(slot string, index int) bool {
	var entry, i int
	n, err := fmt.Sscanf(slot, "%d/%d", &entry, &i)
	return err == nil && n == 2 && i == index
}
