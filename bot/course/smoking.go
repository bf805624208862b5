package course

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"larderhand/scheduler/plan"
	"larderhand/store"
)

// NearlyThere is the ping shortly before a core is expected at its target.
const NearlyThere = "nearly there"

// The pace of the smoke day, common practice, no source.
const (
	nearlyBefore = 30 * time.Minute // so far before the expected finish
	movedBy      = time.Hour        // a finish that moved by more is worth a second "nearly there"
	smokeUsual   = 18 * time.Hour   // when to ask without a forecast
	doneAgain    = 30 * time.Minute // after which an unanswered "is it done" is asked again
	askAgain     = 2 * time.Hour    // the same while only the usual length of a smoke says so
	readAgain    = time.Hour        // the same for a reading
	troubleEvery = 30 * time.Minute // a dying fire or a pit too hot is looked at again after
	together     = 15 * time.Minute // pieces that come due this near are spoken of at once
)

// patience is after how many unanswered asks of a smoke day the distance grows: from
// then on they come an hour apart at least, and never further than mostApart, for meat
// that lies warm is not let be. Common practice, no source.
const (
	patience  = 3
	slowest   = time.Hour
	mostApart = 4 * time.Hour
)

// smoking plants what is to be said while pieces are in the smoke: the next
// reading when it matters, "nearly there", and whether it is done.
func (w *wanting) smoking(g group) {
	last := w.lastReading(g.since)
	left, known, trouble := time.Duration(0), false, false
	var nearly, done []due
	for _, letter := range w.lettersOf(g) {
		p, _ := w.Find(letter)
		since := p.Since(w.Opened)
		o := w.Outlook(letter)
		trouble = trouble || o.FireOut || o.Over
		switch _, typical, _, ok := w.Finish(letter); {
		case o.Reached:
			done = append(done, due{letter, o.Core.At.Add(doneAgain), true})
		case ok:
			if d := typical.Sub(last); !known || d < left {
				left, known = d, true
			}
			done = append(done, due{letter, typical, true})
			if soon := typical.Add(-nearlyBefore); soon.After(last) && !w.saidNearly(letter, since, soon) {
				nearly = append(nearly, due{letter, soon, true})
			}
		default:
			done = append(done, due{letter, latest(since.Add(smokeUsual), last), false})
		}
	}
	first := time.Time{}
	for _, d := range w.gather(nearly) {
		if first.IsZero() || d.at.Before(first) {
			first = d.at
		}
		w.plant(NearlyThere, d.letters, slotAt(d.at), d.at, store.Urgent)
	}
	if w.Muted { // told to stop
		return
	}
	for _, d := range w.gather(done) {
		again := askAgain
		if d.known {
			again = doneAgain
		}
		if w.Unheard(w.said) >= patience {
			again = max(again, slowest)
		}
		at := w.repeat(string(Smoked), d.letters, g.since, d.at, again, store.Urgent)
		if first.IsZero() || at.Before(first) {
			first = at
		}
	}
	every, urgency := plan.SmokeInterval(left, known), store.Soon
	if trouble && every > troubleEvery {
		every, urgency = troubleEvery, store.Urgent
	}
	// "Nearly there" and a question whether it is done ask for a reading too, and
	// count as one.
	next := w.next([]string{AskReading, NearlyThere, string(Smoked)}, g.letters, g.since, last.Add(every), min(every, readAgain))
	said := next
	if urgency < store.Urgent {
		said = w.reach(next)
	}
	apart := together
	if w.Unheard(w.said) >= patience {
		apart = slowest
	}
	if said.Add(apart).Before(first) {
		w.plant(AskReading, g.letters, slotAt(next), next, urgency)
	}
}

// saidNearly says whether "nearly there" was said of a piece already, for a finish
// not far from the one expected now.
func (w *wanting) saidNearly(letter string, since, soon time.Time) bool {
	for _, c := range w.said {
		if c.Kind == NearlyThere && speaksOf(c.Piece, letter) && !c.Sent.Before(since) && soon.Sub(c.Sent) < movedBy {
			return true
		}
	}
	return false
}

// due is something due of one piece or, gathered, of several.
type due struct {
	letters string
	at      time.Time
	known   bool // a forecast or a reading says so, not a rule of thumb
}

// gather puts together what comes due at about the same time; the letters are
// empty when it is all pieces of the batch.
func (w *wanting) gather(list []due) []due {
	var out []due
next:
	for _, d := range list {
		for i := range out {
			if gap := d.at.Sub(out[i].at); d.known == out[i].known && gap.Abs() <= together {
				out[i].letters += d.letters
				if gap < 0 {
					out[i].at = d.at
				}
				continue next
			}
		}
		out = append(out, d)
	}
	for i := range out {
		if len(out[i].letters) == len(w.Pieces) {
			out[i].letters = ""
		}
	}
	return out
}

func (w *wanting) lettersOf(g group) []string {
	if g.letters != "" {
		return strings.Split(g.letters, "")
	}
	var all []string
	for _, p := range w.Pieces {
		all = append(all, p.Letter)
	}
	return all
}

// repeat plants a reminder at from and then, while nobody answers, again and again
// at growing distances; it gives the instant planted.
func (w *wanting) repeat(kind, letters string, since, from time.Time, every time.Duration, urgency int) time.Time {
	at := w.next([]string{kind}, letters, since, from, every)
	w.plant(kind, letters, slotAt(at), at, urgency)
	return at
}

// next is when something first due at from is next to be said, by what was said of
// the kinds that ask for it.
func (w *wanting) next(kinds []string, letters string, since, from time.Time, every time.Duration) time.Time {
	n, first := 0, from
	for _, c := range w.said {
		if !slices.Contains(kinds, c.Kind) || c.Sent.Before(since) || c.Due.Before(first) || !overlap(c.Piece, letters) {
			continue // of another time, before the last answer, or of other pieces
		}
		n++
		apart := every
		if n >= patience {
			apart = min(max(every*time.Duration(1+n/patience), slowest), mostApart)
		}
		from = latest(from, c.Sent.Add(apart))
	}
	return from
}

// lastReading is when a temperature was last told, or since.
func (w *wanting) lastReading(since time.Time) time.Time {
	for _, l := range w.Log {
		if l.Kind == Reading && l.At.After(since) {
			since = l.At
		}
	}
	return since
}

// Heard is when anything was last told of a batch, readings and notes too.
func (s State) Heard() time.Time {
	last := s.Opened
	for _, l := range s.Log {
		if l.Recorded.After(last) {
			last = l.Recorded
		}
	}
	return last
}

// SmokeDay says whether a kind of ping is one that a smoke or a chill waits for:
// if nobody answers it, others are named too.
func SmokeDay(kind string) bool {
	switch kind {
	case AskReading, NearlyThere, string(Smoked), string(Cooled), WindowCloses, WindowOver:
		return true
	}
	return false
}

// Unheard counts the pings of a smoke day since anything was last told.
func (s State) Unheard(said []store.Chore) int {
	n, heard := 0, s.Heard()
	for _, c := range said {
		if SmokeDay(c.Kind) && c.State == store.StateSent && c.Sent.After(heard) {
			n++
		}
	}
	return n
}

// speaksOf says whether a ping of pieces (all, if none is named) is of a piece.
func speaksOf(letters, letter string) bool { return letters == "" || strings.Contains(letters, letter) }

func overlap(a, b string) bool {
	return a == "" || b == "" || strings.ContainsAny(a, b)
}

func slotAt(t time.Time) string { return strconv.FormatInt(t.Unix(), 10) }

func latest(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}
